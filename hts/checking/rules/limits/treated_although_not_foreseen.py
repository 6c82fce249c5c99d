"""A weld is heat treated only where that is foreseen, asked for or approved."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.limits.hold_without_limits import unlimited
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.limits import HEAT_TREATMENT, PROHIBITED, Demand

_LINE = "  holding spread   at most 25 K"
_PROHIBITED = f"{_LINE}\n  post-weld heat treatment prohibited without approval when p_number = 5A"
_PURPOSE = "  purpose             stress relief\n"

RULE = Rule(
    "L228",
    "treated-although-not-foreseen",
    "error",
    floor="warning",
    summary="A heat treatment that a procedure or book prohibits without approval, or does not "
    "foresee, while nobody asks for it.",
    why="Some steels are ruined by it, and what was qualified as welded is no longer what is built.",
    fix="Take the cycle out, or say who asked for it or approved it.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(((_LINE, _PROHIBITED),), base="procedure", at="stress-relief"),
        Bad(
            (
                (_LINE, f"{_LINE}\n  post-weld heat treatment none when p_number = 5A"),
                ("asme-b31.3 edition 2018, local", "asme-viii-2 edition 2010, local"),
                (
                    'qualified  "PQR-31" hold 8 h condition below lower critical\n  ',
                    'qualified  "PQR-31" hold 8 h\n  governing thickness 25.4 mm\n  ',
                ),
                (
                    "  margin below lower critical",
                    "  hold temperature at least 690 degC at most 740 degC\n"
                    "  margin below lower critical",
                ),
            ),
            base="procedure",
            at="stress-relief",
        ),
    ),
    good=(
        Good(
            (
                (_LINE, _PROHIBITED),
                (_PURPOSE, f'{_PURPOSE}  prohibited treatment agreed "Owner, 2026-09-28"\n'),
            ),
            base="procedure",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or not heats(treatment):
        return
    limits = case.limits(treatment.joint, treatment)
    governing = limits.of(HEAT_TREATMENT)
    if governing is None:
        return
    prohibited = governing.saying(PROHIBITED)
    if prohibited is not None:
        if cycle.approved is None:
            required = governing.saying("required")
            notes = [f"{cited(required.limit.source)} requires it"] if required is not None else []
            message = (
                f"{cited(prohibited.limit.source)} prohibits post-weld heat treatment of "
                f"{treatment.joint.name} without approval"
            )
            help = 'take the cycle out, or write `prohibited treatment agreed "who, when"`'
            _tell(case, treatment, prohibited, message, notes, help)
        return
    unforeseen = governing.saying("none")
    if unforeseen is None or governing.status != "none" or _asked_for(treatment):
        return
    # That no limit is in force for it is told with the reason.
    if not any(unlimited(limits)):
        message = (
            f"{cited(unforeseen.limit.source)} foresees no post-weld heat treatment of "
            f"{treatment.joint.name}, and nobody asks for it"
        )
        help = "write `heat treatment asked for by …` in the joint, or take the cycle out"
        _tell(case, treatment, unforeseen, message, [], help)


def _asked_for(treatment: Treatment) -> bool:
    """Whether somebody asks for it, or the welding procedure was qualified with it."""
    entry = treatment.joint.entry
    return entry.asked_for is not None or any(
        test.condition not in (None, "without heat treatment") for test in entry.qualified
    )


def _tell(
    case: Case, treatment: Treatment, demand: Demand, message: str, notes: list[str], help: str
) -> None:
    source = demand.limit.source
    finding = RULE.found(
        message,
        treatment.place("name"),
        address=treatment.address,
        others=places(source),
        notes=[*notes, *quoted(source)],
        help=help,
        basis=source.basis,
    )
    if demand.limit.status == "none":
        finding.severity = "warning"
    case.add(finding)
