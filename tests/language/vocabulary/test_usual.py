"""Every quantity of the language has a usual range, and is refused where nothing of it can be.

The ranges themselves are common practice, no source; that they suit real work is shown by the
complete jobs, none of which has a finding.
"""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Report
from hts.base.quantities import COUNT, TEMPERATURE, symbols_of
from hts.base.text import Source
from hts.language.model import Loader, Spec
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import Field
from hts.language.vocabulary.formulas import Expression
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import (
    Count,
    ElementShare,
    Number,
    Offset,
    OrRule,
    PlusMinus,
    Range,
    Type,
    Width,
)
from hts.language.vocabulary.usual import dimension_of, read, strange
from hts.syntax import parse
from tests.rows import each_row

#: Numbers that no range is declared for, and why.
WITHOUT = {"spec.number": "the version of the language is judged against the versions there are"}


def quantities() -> dict[str, Field]:
    found = {}
    for path, _, field in walk(File):
        if field.type is None or path in WITHOUT:
            continue
        stated = field.type.stated if isinstance(field.type, OrRule) else field.type
        if dimension_of(stated) is not None or isinstance(stated, Count | Number | Offset):
            found.setdefault(f"{path}", field)
    return found


QUANTITIES = quantities()


def test_there_are_many() -> None:
    assert len(QUANTITIES) > 200


@each_row("path", QUANTITIES)
def test_a_quantity_declares_its_usual_range(path: str) -> None:
    type = QUANTITIES[path].type
    assert type is not None
    assert type.usual, "no range: declare `usual`, or give the reason in WITHOUT"
    ranges = read(type.usual, dimension_of(type) or _dimension(type))
    assert ranges
    for _, usual in ranges:
        assert usual.low is not None and usual.high is not None


def _dimension(type: Type):  # type: ignore[no-untyped-def]
    from hts.base.quantities import LENGTH

    return LENGTH if isinstance(type, Offset) else COUNT


@each_row("path", QUANTITIES)
def test_nothing_and_less_are_refused_where_the_trade_has_none(path: str) -> None:
    type = QUANTITIES[path].type
    assert type is not None
    for number in ("-1", "0"):
        text = _written(type, number)
        if text is None:
            continue
        refused = _refused(type, text)
        dimension = dimension_of(type)
        if dimension is TEMPERATURE:
            assert not refused, "0 degC and -1 degC are temperatures"
        else:
            least = type.usual.split()[0].strip(",")
            none = isinstance(type, ElementShare) or least == "0"
            assert refused is not (least.startswith("-") or (number == "0" and none)), text


@each_row(
    "path", [p for p, f in QUANTITIES.items() if f.type and dimension_of(f.type) is TEMPERATURE]
)
def test_nothing_is_colder_than_absolute_zero(path: str) -> None:
    type = QUANTITIES[path].type
    assert type is not None
    for number, unit in (("-300", "degC"), ("-273.15", "degC"), ("-459.67", "degF")):
        text = _written(type, number)
        assert text is not None
        assert _refused(type, text.replace("degC", unit)), text


def _written(type: Type, number: str) -> str | None:
    """The number as a value of the type; None where the type cannot write it at all."""
    stated = type.stated if isinstance(type, OrRule) else type
    if isinstance(stated, Count):
        return None if number.startswith("-") else number
    if isinstance(stated, Number):
        return number
    unit = symbols_of(dimension_of(type) or _dimension(stated))
    amount = f"{number} {unit[0]}".rstrip() if unit else number
    sided = isinstance(stated, Expression) and stated.sided
    if isinstance(stated, Width) or sided:
        return f"{amount} total"
    if isinstance(stated, Offset):
        return f"{amount} upstream"
    if isinstance(stated, ElementShare):
        return f"C {amount}"
    if isinstance(stated, Range):
        return f"{number} .. {Fraction(number) + 5} {unit[0]}"
    if isinstance(stated, PlusMinus):
        return f"+/- {amount}"
    return amount


def _refused(type: Type, text: str) -> bool:
    source = Source(f"word {text}\n", "a.hts")
    items = parse(source, Report()).entries[0].items
    cursor = Cursor(source, items, {})
    cursor.at = 1
    try:
        type.read(cursor)
    except Misread as error:
        assert error.kind is mistakes.IMPOSSIBLE_VALUE, (text, error)
        return True
    return False


@each_row(
    ("line", "odd"),
    [
        # EN 13445-4 prints 5500/e for heating (from memory): 220 K/h at 25 mm.
        ("heating rate at most 5500 K/h * 1 mm / t", []),
        ("heating rate at most min(220 K/h, 5500 K/h * 1 mm / t)", []),
        ("heating rate at most 55000 K/h * 1 mm / t", ["55000 K/h"]),
        ("heating rate at most 5500 K/h * 25 mm / t", ["5500 K/h"]),
        # 15 min for each inch beyond 2 in.
        ("hold time at least 2 h + 15 min/in * max(0 in, t - 2 in)", []),
        ("hold time at least 2 h + 15 min/in * max(0 in, t - 2000 in)", ["2000 in"]),
    ],
)
def test_figures_in_formulas_are_judged_by_what_they_stand_for(line: str, odd: list[str]) -> None:
    source = Source(f"spec 1\nprocedure P {{\n  {line}\n}}\n", "p.hts")
    file = Spec(source, Loader("/")).file
    assert [str(found.value) for found in strange(file)] == odd
