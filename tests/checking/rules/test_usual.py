"""Tables of what is usual, each figure at its limit and just beyond.

Entered a second time from memory: no source was at hand for them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from hts.checking.rules.preheat import preheat_unusual_for_metal
from hts.checking.rules.procedures.implausible_limit import _ENDS
from hts.checking.rules.rule import Rule
from hts.checking.rules.surroundings.supports_far_apart import usual_span
from hts.checking.rules.work import hardness_unlike_metal
from hts.limits.worked import Weld
from hts.syntax.formula import Fact
from tests import told
from tests.checking.rules.nearby import told_of
from tests.rows import each_row
from tests.texts import spec_of

_GRADE, _AT_LEAST = '  grade        "A335 P22"\n', "  at least          150 degC\n"
_AFTER = "controller C1 {"
#: degC that a preheat hardly goes beyond, by P-number.
_HOTTEST = {
    "1": 190, "3": 230, "4": 300, "5A": 330, "5B": 350, "5C": 350, "6": 350, "7": 250, "8": 120,
    "10H": 180, "15E": 350, "41": 120, "42": 120, "43": 120, "44": 120, "45": 120,
}  # fmt: skip
#: HV between which a greatest hardness lies, and a least one.
_HARDEST = {
    "1": (180, 280), "3": (190, 280), "4": (190, 280), "5A": (200, 280), "5B": (200, 280),
    "15E": (240, 310),
}  # fmt: skip
_SOFTEST = {"1": (90, 200), "15E": (150, 235)}
#: mm outside up to which an empty line is held every so many m.
_SPANS = {
    34: "2.7 m", 61: "4.0 m", 89: "4.6 m", 115: "5.2 m", 169: "6.4 m", 220: "7.3 m", 324: "9.1 m",
    407: "10.7 m", 509: "11.9 m", 2000: "12.8 m",
}  # fmt: skip


def _is_told(rule: Rule, metal: str, *changes: tuple[str, str]) -> bool:
    text = changed("butt", ((_GRADE, f"  p-number     {metal}\n"), *changes))
    return bool(told_of(rule, Case(spec_of(text))))


@each_row("metal", _HOTTEST)
def test_how_hot_a_metal_is_preheated(metal: str) -> None:
    for celsius, beyond in ((_HOTTEST[metal], False), (_HOTTEST[metal] + 1, True)):
        line = f"  at least          {celsius} degC\n"
        assert _is_told(preheat_unusual_for_metal.RULE, metal, (_AT_LEAST, line)) is beyond


@each_row(
    ("metal", "words", "ends"),
    [
        *((metal, "at most", ends) for metal, ends in _HARDEST.items()),
        *(
            (metal, f"at most {_HARDEST[metal][1]} HV10 at least", ends)
            for metal, ends in _SOFTEST.items()
        ),
    ],
)
def test_how_hard_a_metal_may_be(metal: str, words: str, ends: tuple[int, int]) -> None:
    low, high = ends
    for figure, beyond in ((low - 1, True), (low, False), (high, False), (high + 1, True)):
        block = f"after heat W12 {{\n  hardness weld {words} {figure} HV10 count 3\n}}\n\n{_AFTER}"
        assert _is_told(hardness_unlike_metal.RULE, metal, (_AFTER, block)) is beyond


def test_how_far_apart_an_empty_line_is_held() -> None:
    sizes = [0, *_SPANS]
    for below, size in zip(sizes, _SPANS, strict=False):
        for outside in (Fraction(below) + Fraction(1, 10), Fraction(size)):
            assert str(usual_span(outside)) == _SPANS[size]


def _ends() -> Iterator[str]:
    """Of each quantity what is plausible, for walls and metals of either side of each step."""
    bands = {"soak_band": 80, "heated_band": 300}
    facts: dict[str, Fact] = {n: Quantity.of(mm, "mm", LENGTH) for n, mm in bands.items()}
    for quantity, ends in _ENDS.items():
        for metal in ("1", "3", "4", "5A", "5B", "15E", "8"):
            for wall in (6, 40, 200):
                weld = Weld(metal, Fraction(wall), Fraction(600), facts)
                for direction in ("minimum", "maximum"):
                    low, high = (
                        None if end is None else round(float(end), 1)
                        for end in ends(weld, direction)
                    )
                    yield f"{quantity} {direction}, P-{metal}, {wall} mm: {low} .. {high}"


def test_what_is_plausible_of_each_quantity() -> None:
    kept = Path(__file__).with_name("told") / "plausible.txt"
    told.each_once(kept, {"ends": "\n".join(_ends())}, lambda line: line.split(",")[0])
