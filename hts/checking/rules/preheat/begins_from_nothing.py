"""What a bake or a cycle begins from is there."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.cycle import KEPT_HOT

_BEGINS = "  begins            from preheat"
_PURPOSE = "  purpose             stress relief\n"
#: Welds that are put where metal was taken out, or onto metal in service.
_EXCAVATED = ("repair", "attachment", "branch", "fillet", "seal")

RULE = Rule(
    "P137",
    "begins-from-nothing",
    "warning",
    summary="A bake or treatment that begins from a preheat or a bake that is not there, from which "
    "the weld first cools, or about an excavation that the weld does not have.",
    why="The order of work cannot be followed, and whoever makes sense of it by himself leaves the "
    "weld to go cold at the wrong moment.",
    fix="Correct `begins`, or write the preheat or bake it begins from.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_PURPOSE, f"{_PURPOSE}  begins from bake\n"),), at="from bake"),
        Bad(
            ((_BEGINS, "  begins            before excavation"),),
            at="before excavation",
            base="bake",
        ),
        Bad(
            ((_PURPOSE, f"{_PURPOSE}  begins from preheat\n  first cool below 100 degC\n"),),
            at="from preheat",
            base="bake",
            says="first cools below 100 degC (212 degF)",
        ),
    ),
    good=(Good(((_PURPOSE, f"{_PURPOSE}  begins after cooling\n"),)),),
    agrees=(
        Agreement("cycle.begins", "bake.joints", "the bake it comes from"),
        Agreement("cycle.begins", "cycle.first cool below", "they exclude each other"),
        Agreement("bake.begins", "joint.kind", "an excavation is that of a repair"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if not heats(treatment):
        return
    for message, at in _wrong(treatment):
        case.add(RULE.found(message, at, address=treatment.address, basis=RULE.basis))
        return


def _wrong(treatment: Treatment) -> Iterator[tuple[str, Span]]:
    joint, cycle = treatment.joint, treatment.cycle
    begins: str | None = treatment.entry.begins  # type: ignore[attr-defined]
    if begins is None:
        return
    at, name = treatment.place("begins"), joint.name
    what = "bake" if treatment.is_bake else "treatment"
    if begins == "from bake" and not joint.bakes:
        yield f"the treatment of {name} begins from a bake, and {name} is not baked", at
    if begins == "from preheat" and joint.preheat is None:
        yield f"the {what} of {name} begins from preheat, and {name} is not preheated", at
    if begins in KEPT_HOT and cycle is not None and cycle.cooled_below is not None:
        cooled = cycle.cooled_below.both()
        yield f"the treatment of {name} begins {begins}, and {name} first cools below {cooled}", at
    if begins.endswith("excavation") and (joint.entry.kind or "") not in _EXCAVATED:
        yield f"nothing is excavated for {name}, a {joint.entry.kind}; its bake begins {begins}", at
