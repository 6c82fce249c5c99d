"""A power source says what kind it is."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import open_point_on
from hts.checking.rules.rule import Bad, Good, Rule

RULE = Rule(
    "E112",
    "supply-kind-not-said",
    "advice",
    summary="A power source that does not say whether it is a transformer, an induction supply or "
    "a generator.",
    why="Whether it can feed the heaters is looked at by its kind; a supply for the other method "
    "stands at the pipe when all is in place.",
    fix="Write `kind`.",
    source="common practice, no source",
    basis="practice",
    about=("power source.kind",),
    bad=(Bad((("  kind      transformer\n", ""),), at="PS1"),),
    good=(Good((("kind      transformer", "kind      generator"),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for source in case.spec.file.power_sources:
        if source.sound and source.kind is None and not open_point_on(case, "power source"):
            case.add(
                RULE.found(
                    f"{source.name} does not say what kind of supply it is",
                    source.place("name"),
                    address=source.name,
                    basis=RULE.basis,
                )
            )
