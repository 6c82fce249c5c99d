"""The reference looked up, on a page written for it; and what an address may have meant."""

from __future__ import annotations

from hts.base.text import Source
from hts.checking.checker import Case
from hts.checking.govern.sources import authority_of
from hts.checking.rules.examples import BUTT
from hts.job.explain import why
from hts.job.explain.reference import look_up, row, sections
from hts.job.explain.side_by_side import Comparison, compared
from hts.language.model import Loader, Spec
from hts.limits import book
from tests.rows import each_row

PAGE = """# All of it

Before every part.

## Rates

How fast.
Both ways.

And more.

### `heat`

A ramp, see [Rates](#rates).

```hts
heat to 315 degC
```

| word | value | meaning |
|---|---|---|
| `at most` | a rate | Never *faster*. |
| [start](#start) | a temperature |  |

### Start

Begins here.
"""


def test_the_parts_of_a_page() -> None:
    found = sections(PAGE)
    assert [(each.title, each.is_entry) for each in found] == [
        ("Rates", False), ("`heat`", True), ("Start", True),
    ]  # fmt: skip
    assert [each.meaning for each in found] == [
        "How fast. Both ways.", "A ramp, see Rates.", "Begins here.",
    ]  # fmt: skip
    assert [each.words for each in found] == [[], ["at most", "start"], []]
    assert found[0].text == "How fast.\nBoth ways.\n\nAnd more."


@each_row(
    ("wanted", "titles", "listing"),
    [
        ("HEAT", ["`heat`"], []),
        ("rates", ["Rates"], []),
        # A title goes before the words a part lists.
        ("start", ["Start"], []),
        (" at   most ", [], ["`heat`"]),
        ("most", [], []),
    ],
)
def test_what_is_looked_up(wanted: str, titles: list[str], listing: list[str]) -> None:
    found, others = look_up(sections(PAGE), wanted)
    assert ([each.title for each in found], others) == (titles, listing)


def test_the_line_of_a_word() -> None:
    heat = sections(PAGE)[1]
    assert row(heat, "At most") == "`at most`  a rate  Never *faster*."
    assert row(heat, "start") == "start  a temperature"
    assert row(heat, "cool") == ""


def _case(text: str) -> Case:
    return Case(Spec(Source(text, "w12.hts"), Loader(".")))


@each_row(
    ("said", "meant"),
    [
        ("W12/hold-tiem", "W12/hold-time"),
        ("W12.hold-time", "W12/hold-time"),
        # Each part is near to something, and both are there, but not one within the other.
        ("hold-tiem/W12", None),
        ("W12/xylophone", None),
        # What is the joint's own is not below its treatment.
        ("stress-relief/soak-band", None),
    ],
)
def test_what_an_address_may_have_meant(said: str, meant: str | None) -> None:
    assert why.meant(_case(BUTT), said) == meant


def _side_by_side(text: str) -> Comparison:
    case = _case(text)
    (joint,) = case.joints()
    books = [
        authority_of(book(*each)) for each in (("local-heating", None), ("asme-b31.3", "2018"))
    ]
    (table,) = compared(joint, list(case.treatments(joint)), books)
    return table


def test_what_one_book_cannot_decide_is_told_beside_one_that_asks_nothing() -> None:
    """Without a grade there is no P-number, which the tables of ASME B31.3-2018 (330.1.1, 331.1.1)
    ask for; local heating says nothing of either."""
    told = {line.heading: line.cells for line in _side_by_side(_without_grade()).lines}
    for heading, lacking in (
        ("post-weld heat treatment", ("p_number",)),
        ("preheat at least", ("p_number", "tensile_strength")),
        ("hold temperature at least", ("p_number",)),
        ("hold time at least", ("p_number",)),
    ):
        silent, undecided = told[heading]
        assert (silent.value, silent.undecided, silent.governs) == ("", (), False)
        assert (undecided.value, undecided.governs) == ("", False)
        assert undecided.undecided == lacking
    # Above 315 degC one row is known (331.1.4: 333 degC/h at 25 mm and less), below it none.
    assert told["cooling rate at most above 315 degC (599 degF)"][1].governs
    assert told["cooling rate at most"][1].undecided == ("p_number",)


def _without_grade() -> str:
    grade = '  grade        "A335 P22"\n'
    assert grade in BUTT
    return BUTT.replace(grade, "")
