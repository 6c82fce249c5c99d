"""An exemption that is claimed applies."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted
from hts.checking.rules.helpers.missing import wanted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L221",
    "unmet-exemption",
    "error",
    summary="A claim that no heat treatment is required, where one is.",
    why="Every condition of an exemption counts; with one unmet the weld goes into service "
    "untreated.",
    fix="Meet and state the conditions of the exemption, or describe the treatment.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "  purpose             stress relief\n",
                    "  purpose             stress relief\n"
                    '  not required under asme-b31.3 edition 2018 "thin wall"\n',
                ),
                ("condition below lower critical", "condition without heat treatment"),
            ),
            at="asme-b31.3",
        ),
    ),
    good=(
        Good(
            (
                ('  grade        "A335 P22"', '  grade        "A106-B"'),
                (", Cr 2.20 %, Mo 0.98 %", ""),
                (
                    "  purpose             stress relief\n",
                    "  purpose             stress relief\n"
                    '  not required under asme-b31.3 edition 2018 "P-1, preheat 150 degC, layers"\n',
                ),
                (
                    "  heat  to 315 degC\n  heat  to 715 degC   at most 200 degC/h\n"
                    "  hold  700 .. 730 degC for 2 h\n  cool  to 315 degC   at most 200 degC/h\n"
                    "  cool  in still air\n",
                    "",
                ),
                ("condition below lower critical", "condition without heat treatment"),
            )
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    claim = treatment.cycle.not_required if treatment.cycle is not None else None
    if claim is None:
        return
    joint = treatment.joint
    job = case.spec.file.job
    under = claim.under
    if (
        under is not None
        and job is not None
        and not any(
            named.book == under.book and named.edition == under.edition for named in job.governed_by
        )
    ):
        case.add(
            RULE.found(
                f"the exemption is claimed under {under.book}, which does not govern this job in "
                "that edition",
                claim.place("under"),
                address=treatment.address,
            )
        )
        return
    governing = case.limits(joint, treatment).of("post-weld heat treatment")
    demand = governing.saying("required") if governing is not None else None
    if governing is None or demand is None:
        return
    names = dict.fromkeys(name for item in governing.unanswered for name in item.names)
    case.add(
        RULE.found(
            f"{cited(demand.limit.source)} requires post-weld heat treatment of {joint.name}",
            claim.place("under"),
            address=treatment.address,
            others=places(demand.limit.source),
            basis=demand.limit.source.basis,
            notes=[
                *(
                    [f"an exemption could not be judged without {wanted(names)[0]}"]
                    if names
                    else []
                ),
                *quoted(demand.limit.source),
            ],
        )
    )
