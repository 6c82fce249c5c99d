"""The spread between thermocouples that is allowed is no wider than what governs it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L210",
    "spread-too-wide",
    "error",
    summary="A spread between thermocouples wider than the books and procedures allow.",
    why="Uneven temperature bends the part while heating, and leaves it half treated in the hold.",
    fix="Narrow the spread.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (("  rate margin  ", "  holding spread at most 50 K\n  rate margin  "),),
            base="procedure",
            at="50 K",
        ),
        Bad(
            (("  rate margin  ", "  heating spread at most 150 K\n  rate margin  "),),
            base="procedure",
            at="150 K",
        ),
        Bad(
            (
                (
                    "  heating spread   at most 140 K",
                    "  heating spread   at most 140 K within 4.6 m",
                ),
                ("  rate margin  ", "  heating spread at most 100 K within 1 m\n  rate margin  "),
            ),
            base="procedure",
            at="1 m",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if treatment.is_bake:
        return
    limits = case.limits(treatment.joint, treatment)
    entry = treatment.entry
    spreads = [("heating spread", each) for each in entry.heating_spread]
    for words, stated in (*spreads, *(("holding spread", each) for each in entry.holding_spread)):
        if stated.at_most is None:
            continue
        found = against(
            RULE,
            limits.of(words),
            "maximum",
            stated.at_most,
            stated.place("at_most"),
            address=treatment.address,
            what=f"the {words}",
        )
        if found is not None:
            case.add(found)
            continue
        governing = limits.of(words)
        for demand in governing.demands if governing is not None else ():
            if stated.within is None or demand.within is None or stated.within >= demand.within:
                continue
            source = demand.limit.source
            case.add(
                RULE.found(
                    f"the {words} is limited over {stated.within.both()} alone, "
                    f"{cited(source)} limits it over {demand.within.both()}",
                    stated.place("within"),
                    address=treatment.address,
                    others=places(source),
                )
            )
            break
