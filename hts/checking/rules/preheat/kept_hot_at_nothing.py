"""A joint that is kept hot when welding stops is kept at a temperature."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_LINE = "  when interrupted  cool slowly and preheat again"
_HOT = "  when interrupted  keep hot"

RULE = Rule(
    "P132",
    "kept-hot-at-nothing",
    "advice",
    summary="A joint that is kept hot when welding stops, without the temperature it is kept at.",
    why="The night shift turns the heaters down to what it holds for hot; the weld cracks before "
    "the morning.",
    fix="Write `maintain at least` and the temperature.",
    source="common practice, no source",
    basis="practice",
    about=("preheat.maintain at least",),
    bad=(Bad(((_LINE, _HOT),), at="when interrupted"),),
    good=(
        Good(
            (
                (_LINE, f"{_HOT}\n  maintain at least 150 degC"),
                (
                    "  keep until        end of welding",
                    "  keep until        post-weld heat treatment",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    if preheat.interrupted == "keep hot" and not preheat.says("maintain"):
        case.add(
            RULE.found(
                f"{joint.name} is kept hot when welding stops; nothing says how hot",
                preheat.place("interrupted"),
                address=f"{joint.address}/preheat",
                basis=RULE.basis,
            )
        )
