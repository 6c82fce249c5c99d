"""Damaged tables: findings, never a fault of the program, each in a cell or in a text."""

from __future__ import annotations

import random

import pytest

from hts.base.findings import Finding
from hts.base.text import Source
from hts.language.rows.table_source import TableSource
from hts.syntax.table import read_table
from tests.language.rows.lists import COLUMNS, findings, job, table
from tests.sampling import in_turn

_PIECES = (
    '"', '""', ",", ";", "\t", "\r", "\n", "\r\n", " ", "\u00a0", "\ufeff", "\u202e", "\0",
    "=A1", "@x", "TBD", "?", "-", "#REF!", "# x", "{", "}", "} joint X {", "by rule", "25,4",
    "1.234,5", "25.4 mm", "1 in", "690 .. 700", "+/- 3", "12:00", "2026-11-20", "W12", "W102",
    "each of lines", "sep=;\n", "\\", "\\\"", "9" * 30, "x" * 1100, "1/0", "1 1/2", "\u20ac",
    "Total", "Weld no.,Line,ISO,Size,Sch,WT [mm],Service,Remarks\r\n", "3-4", "1-1/2", "5 %",
    "\u20ac5", "1 025.4", "46235", "W-101", "W0101", "\u0412101", "ditto", ".5", "> 5", "+/- 1 mm",
    "\u6f22", "mm", "degC", "like W12", "schedule 80",
)  # fmt: skip
_LISTS = (
    COLUMNS,
    COLUMNS + "  separator semicolon, decimal comma\n",
    COLUMNS + '  only "Remarks" is "x", "near gate 3" blank left out\n  blank "-", "?"\n',
    COLUMNS.replace("like    W12", 'like    in "Service"'),
    COLUMNS.replace('"Remarks" not used', '"Remarks" heating heated band total in mm'),
)


def _damaged(rng: random.Random) -> str:
    text = table()
    for _ in range(rng.choice((1, 1, 1, 2, 5))):
        at = rng.randrange(len(text) + 1)
        way = rng.randrange(5)
        if way == 0:
            text = text[:at] + rng.choice(_PIECES) + text[at:]
        elif way == 1:
            text = text[:at] + text[at + rng.randrange(1, 9) :]
        elif way == 2:
            text = text[:at] + rng.choice(_PIECES) + text[at + rng.randrange(1, 6) :]
        elif way == 3:
            other = rng.randrange(len(text) + 1)
            text = text[:at] + text[min(at, other) : max(at, other)] + text[at:]
        else:
            text = text[:at]
    return text


def _stands_well(finding: Finding, welds: str, separators: str = ",;\t") -> bool:
    """Whether every place of a finding in the table lies inside one cell."""
    for label in (finding.at, *finding.others):
        span = label.span
        if not isinstance(span.source, TableSource):
            continue
        if not 0 <= span.start <= span.end <= len(span.source.text):
            return False
        if finding.kind.name == "broken-table" or finding.kind.name == "hidden-character":
            continue
        if not any(_within(span, welds, separator) for separator in separators):
            return False
    return True


def _within(span: object, welds: str, separator: str) -> bool:
    read = read_table(Source(welds, "t"), separator)
    return any(
        cell.start <= span.start and span.end <= cell.end  # type: ignore[attr-defined]
        for row in (read.heads, *read.rows)
        for cell in row
    )


def _try(seed: int) -> None:
    rng = random.Random(seed)
    welds, columns = _damaged(rng), rng.choice(_LISTS)
    for finding in findings(job(columns), welds):
        assert _stands_well(finding, welds.removeprefix("\ufeff")), (seed, finding)
        assert finding.message
        assert finding.help or finding.kind.fix


@pytest.mark.parametrize("part", [0, *in_turn(range(1, 25), 4)])
def test_damaged_tables_are_handled(part: int) -> None:
    for seed in range(200 * part, 200 * part + 200):
        _try(seed)
