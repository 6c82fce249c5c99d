"""Plain values at their edges: what is read is what the schema of an export takes, and the clock
and the calendar are those of ISO 8601-1:2019 and of the package jsonschema."""

from __future__ import annotations

from typing import Any

from jsonschema import Draft202012Validator

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types import Count, Day, Type
from hts.language.vocabulary.types.times import TimeOfDay
from hts.syntax import parse
from tests.rows import each_row

CASES: list[tuple[Type, str, Any, bool]] = [
    *((TimeOfDay(), text, text, good) for text, good in (
        ("00:00", True), ("09:59", True), ("23:59", True), ("24:00", True),
        ("24:01", False), ("23:60", False), ("25:00", False))),
    *((Count(), str(number), number, number > 0) for number in (0, 1, 2)),
    *((Count(usual="0 .. 9"), str(number), number, True) for number in (0, 1)),
    # A leap year is one by 4, but by 100 only where by 400.
    *((Day(), text, text, good) for text, good in (
        ("2024-02-29", True), ("2000-02-29", True), ("2100-02-29", False), ("2026-02-29", False),
        ("2026-12-31", True), ("2026-11-31", False), ("2026-13-01", False), ("2026-01-00", False),
        ("0000-01-01", False), ("0001-01-01", True))),
]  # fmt: skip


@each_row(("type", "text", "value", "good"), CASES)
def test_what_is_read_and_what_the_schema_takes(
    type: Type, text: str, value: Any, good: bool
) -> None:
    assert refused(type, text) is not good
    schema = type.schema()
    valid = Draft202012Validator(
        schema, format_checker=Draft202012Validator.FORMAT_CHECKER
    ).is_valid(value)
    assert valid is good


def refused(type: Type, text: str) -> bool:
    source = Source(f"word {text}\n", "a.hts")
    cursor = Cursor(source, parse(source, Report()).entries[0].items, {})
    cursor.at = 1
    try:
        type.read(cursor)
    except Misread:
        return True
    return False
