"""A weld of two metals: told in those words, and each side goes on being checked.

Which range counts follows ASME B31.3-2012 331.2.3, from memory.
"""

from __future__ import annotations

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import changed
from tests.rows import each_row
from tests.texts import spec_of

_CARBON = (
    "joint W12 {",
    'material carbon {\n  grade "A106-B"\n  lower critical 790 degC\n  heat number "X1"\n'
    "  composition C 0.20 %, Mn 0.90 %\n}\n\njoint W12 {",
)
_BETWEEN = ("between    pipe and pipe", "between    carbon and pipe")
_LINE = "  holding spread   at most 25 K"
_BOTH = (
    _LINE,
    f"{_LINE}\n  hold temperature at least 600 degC at most 645 degC when p_number = 1\n"
    "  hold temperature at least 680 degC at most 735 degC when p_number = 5A",
)
_WAIVED = (
    "controller C1 {",
    'waive limits-cannot-be-met on W12 {\n  reason "Agreed"\n  by "Welding engineer"\n'
    "  until 2027-01-31\n}\n\ncontroller C1 {",
)


def _found(*changes: tuple[str, str], base: str = "procedure") -> list[Finding]:
    """That carbon steel comes near its own lower critical temperature here is told, too, and is
    not what is looked at."""
    text = changed(base, (_CARBON, _BETWEEN, *changes))
    found = check_spec(spec_of(text))
    return [finding for finding in found if finding.kind.name != "hold-near-lower-critical"]


def _names(*changes: tuple[str, str], base: str = "procedure") -> list[str]:
    return [finding.kind.name for finding in _found(*changes, base=base)]


def _held(range_: str, to: str) -> tuple[tuple[str, str], ...]:
    return (("700 .. 730 degC", f"{range_} degC"), ("to 715 degC ", f"to {to} degC "))


def test_the_code_says_which_of_two_ferritic_metals_counts() -> None:
    assert _names(base="butt") == []
    assert _names(*_held("600 .. 640", "620"), base="butt") == ["hold-temperature-outside-limits"]


def test_the_conflict_is_told_in_the_words_of_the_metals() -> None:
    (finding,) = _found(_BOTH)
    assert finding.kind.name == "limits-cannot-be-met"
    assert "A335 P22 downstream and A106-B upstream" in finding.message


def test_a_procedure_can_say_which_side_counts() -> None:
    lines = _BOTH[1].replace("= 1", "= 1 and more_alloyed = yes")
    assert _names((_LINE, lines)) == []


@each_row(
    ("range_", "to", "told"),
    [
        ("700 .. 730", "715", []),
        # Hotter than the P22 side may be: its limits count although the other's are waived.
        ("700 .. 740", "715", ["hold-temperature-outside-limits"]),
        # Between the two ranges: it keeps neither.
        ("650 .. 670", "660", ["hold-temperature-outside-limits"]),
        ("590 .. 640", "620", ["hold-temperature-outside-limits"]),
    ],
)
def test_a_waiver_of_the_conflict_leaves_the_limits_of_each_side(
    range_: str, to: str, told: list[str]
) -> None:
    found = [
        name for name in _names(_BOTH, _WAIVED, *_held(range_, to)) if name != "looser-procedure"
    ]
    assert found == told
