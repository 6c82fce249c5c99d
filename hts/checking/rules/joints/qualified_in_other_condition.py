"""The weld is qualified in the heat-treatment condition it goes into service in."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint
from hts.limits import HEAT_TREATMENT

RULE = Rule(
    "J202",
    "qualified-in-other-condition",
    "error",
    summary="A qualification without heat treatment for a joint with one, or the other way round.",
    why="Strength, hardness and toughness of the weld are then not those that were tested.",
    fix="Use a qualification in the condition of the joint.",
    source="ASME IX QW-407.1 (as quoted elsewhere)",
    basis="published",
    bad=(
        Bad(
            (("condition below lower critical", "condition without heat treatment"),),
            at="without heat treatment",
        ),
        Bad(
            (("condition below lower critical", "condition above upper critical"),),
            at="above upper critical",
        ),
        Bad(
            (("condition without heat treatment", "condition below lower critical"),),
            at="below lower critical",
            base="preheat",
            says="PQR-07 was qualified below lower critical, and nothing heat treats D3",
        ),
    ),
)
#: Purpose of the cycle -> the condition a test piece must have had.
_BELOW = "below lower critical"


@RULE.for_spec
def check(case: Case) -> None:
    for joint in case.joints():
        _look(case, joint)


def _look(case: Case, joint: Joint) -> None:
    cycles = treated(joint)
    if not joint.cycles:
        _never_treated(case, joint)
        return
    purposes = {cycle.cycle.purpose for cycle in cycles if cycle.cycle is not None}
    if cycles and purposes <= {"stress relief", "tempering"}:
        wanted = _BELOW
    elif not cycles:
        wanted = "without heat treatment"
    else:
        return
    for qualified in joint.entry.qualified:
        if qualified.condition not in (None, wanted):
            purpose = cycles[0].name if cycles else joint.cycles[0].name
            case.add(
                RULE.found(
                    f"{qualified.record} was qualified {qualified.condition}; with {purpose} "
                    f"{joint.name} is {wanted}",
                    qualified.place("condition"),
                    address=joint.address,
                    others=[Label((cycles or joint.cycles)[0].place("name"), "the treatment")],
                )
            )


def _never_treated(case: Case, joint: Joint) -> None:
    """A weld of which the text makes no heat treatment at all; another text may."""
    named = (reference.name for cycle in case.spec.file.cycles for reference in cycle.joints)
    if joint.preheat is None or not joint.sound or any(n not in case.spec.joints for n in named):
        return
    governing = case.limits(joint).of(HEAT_TREATMENT)
    if governing is not None and governing.status == "required":
        return  # that the treatment is missing is told
    for qualified in joint.entry.qualified:
        if qualified.condition not in (None, "without heat treatment"):
            case.add(
                RULE.found(
                    f"{qualified.record} was qualified {qualified.condition}, and nothing heat "
                    f"treats {joint.name}",
                    qualified.place("condition"),
                    address=joint.address,
                    help="Use a qualification without heat treatment, or write the cycle.",
                    basis="practice",
                )
            )
