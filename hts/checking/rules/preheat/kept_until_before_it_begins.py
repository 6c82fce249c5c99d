"""What begins from preheat finds the weld still hot, and what begins later does not hold preheat."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.preheat import Preheat

_UNTIL = "  keep until        end of welding"
#: What is done when welding stops, where the weld is not to go cold before it is baked or treated.
_NEVER_COLD = ("keep hot", "bake before cooling")
_STOP = "  when interrupted  cool slowly and preheat again"
_BAKE, _PWHT = "bake", "post-weld heat treatment"
_PURPOSE = "  purpose             stress relief\n"
_Told = tuple[str, Span, Label]


def _kept(until: str, begins: str) -> tuple[tuple[str, str], ...]:
    return (
        (_UNTIL, f"  keep until        {until}"),
        (_STOP, "  when interrupted  bake before cooling"),
        ("  begins            from preheat", f"  begins            {begins}"),
    )


RULE = Rule(
    "P136",
    "kept-until-before-it-begins",
    "warning",
    summary="A bake or treatment that begins from preheat of a weld never to go cold, while preheat "
    "ends with the welding, or one that begins after cooling, or before a cavity is made, while preheat is kept "
    "until it.",
    why="The two lines are read by two shifts: one switches the heaters off, the other finds a cold "
    "weld with its hydrogen in it.",
    fix="Make `keep until` and `begins` tell one order of work.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_kept("end of welding", "from preheat"), at="end of welding", base="bake"),
        Bad(_kept(_BAKE, "after cooling"), at="after cooling", base="bake"),
        # Of a repair: welded after it.
        Bad(
            (
                *_kept(_BAKE, "before excavation"),
                ("kind       girth butt", "kind       repair\n  groove depth 12 mm"),
            ),
            at="before excavation",
            base="bake",
            says="until the bake, which begins before excavation",
        ),
        Bad(
            (
                (_PURPOSE, f"{_PURPOSE}  begins from preheat\n"),
                (_STOP, "  when interrupted  keep hot\n  maintain at least 150 degC"),
            ),
            at="end of welding",
        ),
    ),
    good=(
        Good(_kept(_BAKE, "from preheat"), base="bake"),
        # The last pass is the end of welding, and the bake begins with it.
        Good(_kept("end of welding", "from preheat")[::2], base="bake"),
        Good(
            (
                (_UNTIL, f"  keep until        {_PWHT}"),
                (_PURPOSE, f"{_PURPOSE}  begins from preheat\n"),
            )
        ),
    ),
    agrees=(
        Agreement("preheat.keep until", "bake.begins", "kept until what begins from preheat"),
        Agreement("preheat.keep until", "cycle.begins", "kept until what begins from preheat"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    for message, at, other in _contradictions(joint, preheat):
        case.add(
            RULE.found(
                message, at, address=f"{joint.address}/preheat", others=[other], basis=RULE.basis
            )
        )
        return


def _contradictions(joint: Joint, preheat: Preheat) -> Iterator[_Told]:
    until = preheat.until
    kept = preheat.place("until") if preheat.says("until") else preheat.place("joints")
    for treatment in (*joint.bakes, *joint.cycles):
        begins = treatment.entry.begins  # type: ignore[attr-defined]
        if begins is None or not heats(treatment):
            continue
        what = "bake" if treatment.is_bake else "treatment"
        at = treatment.place("begins")
        ends = until in (None, "end of welding") and preheat.interrupted in _NEVER_COLD
        if begins == "from preheat" and ends:
            yield (
                f"the {what} of {joint.name} begins from preheat, which is kept until the end of "
                "welding",
                kept,
                Label(at, f"the {what} begins"),
            )
        elif begins == "before excavation" and until == _BAKE and len(joint.bakes) == 1:
            yield (
                f"{joint.name} is kept at preheat until the bake, which begins {begins}",
                at,
                Label(kept, "preheat is kept"),
            )
        elif begins == "after cooling" and until == (_BAKE if treatment.is_bake else _PWHT):
            yield (
                f"{joint.name} is kept at preheat until the {what}, which begins {begins}",
                at,
                Label(kept, "preheat is kept"),
            )
