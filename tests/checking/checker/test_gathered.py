"""What is told of weld lists with the same slip in few rows and in many, and of a slip in the joint
that all rows are like."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from hts.checking.checker.gathered import NAMED, SLIPS
from tests import told
from tests.checking.rules.nearby import in_full
from tests.language.rows.lists import HEADS, findings, job, table

KEPT = Path(__file__).with_name("told") / "gathered.txt"
_ROW = ("", "", "", "12", "120", "25.4", "steam", "")
#: Of a column the cell by its row, and in how many rows it stands.
_CELLS = {
    "wall": ("WT [mm]", lambda n: "31", (2,)),
    "walls": ("WT [mm]", lambda n: f"{31 + n / 10:.1f}", (1, NAMED, NAMED + 1, SLIPS, SLIPS + 1)),
    "schedule": ("Sch", lambda n: "12O", (1, NAMED + 1)),
    "line": ("Line", lambda n: "12-RH-2041" if n % 2 else "12-RH-2O41", (NAMED,)),
}
_TYPICAL = {
    "one for all": ("at most 315 degC", "at most 150 degC"),
    "by the row": ("heated band    by rule", "heated band    400 mm total"),
}


def _list(count: int, wrong: int, head: str, cell: object) -> str:
    rows = []
    for number in range(count):
        row = [f"W{200 + number}", *_ROW[1:]]
        if number < wrong:
            row[HEADS.index(head)] = cell(number)  # type: ignore[operator]
        rows.append(tuple(row))
    return table(rows)


def _told() -> Iterator[tuple[str, str]]:
    for name, (head, cell, counts) in _CELLS.items():
        for wrong in counts:
            found = findings(job(rows=9), _list(9, wrong, head, cell))
            yield f"{name}, {wrong} rows", "\n".join(map(in_full, found))
    for name, (old, new) in _TYPICAL.items():
        for cell in (_CELLS["wall"][1], _CELLS["walls"][1]):
            text = job(rows=6).replace(old, new)
            found = findings(text, _list(6, 6, "WT [mm]", cell))
            yield f"{name}, {cell(1)}", "\n".join(map(in_full, found))


def test_what_is_told_of_many_rows() -> None:
    told.each_once(KEPT, dict(_told()))
