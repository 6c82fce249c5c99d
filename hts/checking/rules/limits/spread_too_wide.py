"""The spread between thermocouples that is allowed is no wider than what governs it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places
from hts.checking.rules.rule import Edge, Rule
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
    edges=(
        Edge(
            (("  rate margin  ", "  holding spread at most {}\n  rate margin  "),),
            keeps="25 K",
            breaks="26 K",
            base="procedure",
            says="is 26 K (46.8 degF) … at most 25 K (45 degF)",
        ),
        Edge(
            (("  rate margin  ", "  heating spread at most {}\n  rate margin  "),),
            keeps="140 K",
            breaks="141 K",
            base="procedure",
            says="is 141 K (254 degF) … at most 140 K (252 degF)",
        ),
        Edge(
            (
                (
                    "  heating spread   at most 140 K",
                    "  heating spread   at most 140 K within 4.6 m",
                ),
                ("  rate margin  ", "  heating spread at most 100 K within {}\n  rate margin  "),
            ),
            keeps="4.6 m",
            breaks="4.5 m",
            base="procedure",
            says="over 4.5 m (14.8 ft) … over 4.6 m (15.09 ft)",
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
