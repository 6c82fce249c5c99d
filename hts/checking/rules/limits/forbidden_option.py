"""An option that is used is not forbidden."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L222",
    "forbidden-option",
    "error",
    summary="An option of a book that a procedure or another book forbids.",
    why="The owner has refused it, often because of the service of the line.",
    fix="Do without the option.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "  purpose             stress relief\n",
                    "  purpose             stress relief\n"
                    '  lower-temperature hold agreed "Design engineer, 2026-09-28"\n',
                ),
            ),
            base="procedure",
            at="lower-temperature hold",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    limits = case.limits(treatment.joint, treatment)
    governing = limits.of("option")
    if governing is None:
        return
    for option, entry in limits.options.items():
        for demand in governing.demands:
            if demand.limit.option == option and demand.limit.status == "forbidden":
                case.add(
                    RULE.found(
                        f"{cited(demand.limit.source)} forbids the {option}",
                        entry.place(),
                        address=treatment.address,
                        others=places(demand.limit.source),
                        basis=demand.limit.source.basis,
                    )
                )
                break
