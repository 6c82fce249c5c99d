"""Rows that a list leaves out although welds like them, no thicker, count.

Common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.language.rows.lists import COLUMNS, HEADS, ROWS, findings, job, table
from tests.rows import each_row

_HEADS = (*HEADS[:-1], "Like", "PWHT", "Remarks")
_COLUMNS = COLUMNS.replace("  like    W12\n", '  like    in "Like"\n').replace(
    '  column  "Line"', '  only    "PWHT" is "yes"\n  column  "Line"'
)


def _told(
    pwht: tuple[str, str, str], wall: str = "24.9", remark: str = "", first: str = ""
) -> list[str]:
    """What is told of three welds of which each counts or not; the last has this wall."""
    rows = [
        (
            *row[:5],
            wall if n == 2 else row[5],
            row[6],
            "W12",
            pwht[n],
            remark if n == 2 else first,
        )
        for n, row in enumerate(ROWS)
    ]
    found = findings(job(_COLUMNS), table(rows, _HEADS))
    return [f.message for f in found if f.kind.name == "row-left-out-alike"]


@each_row(
    ("pwht", "wall", "remark", "told"),
    [
        (("yes", "yes", "yes"), "24.9", "", []),
        (("yes", "yes", "no"), "25.1", "", ["W103"]),
        # Thinner than all that count, or with a word why.
        (("yes", "yes", "no"), "25.0", "", []),
        (("yes", "yes", "no"), "25.1", "seal-off only", []),
        (("yes", "no", "no"), "25.4", "", ["W103"]),
    ],
)
def test_a_weld_that_does_not_count_beside_one_no_thicker_that_does(
    pwht: tuple[str, str, str], wall: str, remark: str, told: list[str]
) -> None:
    messages = _told(pwht, wall, remark)
    assert [message.split()[0] for message in messages] == told
    assert all("does not count" in m and "like W12, too, and no thicker" in m for m in messages)


def test_what_is_remarked_of_a_weld_that_counts_tells_no_reason() -> None:
    """It needs a scaffold as the others do: nothing says why nobody heats it."""
    counts = ("yes", "yes", "no")
    assert len(_told(counts, "25.1", "scaffold needed", first="scaffold needed")) == 1
    assert not _told(counts, "25.1", "seal-off only", first="scaffold needed")


@pytest.mark.parametrize(
    ("left_out", "told"),
    [
        ((), ""),
        ((118,), "without W118"),
        ((118, 130), "without W118 and W130"),
        # So many are missing that numbers run as they like.
        ((118, 130, 140), ""),
    ],
)
def test_a_number_that_no_row_of_a_long_list_has(left_out: tuple[int, ...], told: str) -> None:
    rows = [(f"W{n}", *ROWS[0][1:]) for n in range(101, 206) if n not in left_out]
    found = findings(job(COLUMNS, rows=len(rows)), table(rows))
    messages = [f.message for f in found if f.kind.name == "weld-number-left-out"]
    assert [message.partition(" to W205 ")[2] for message in messages] == ([told] if told else [])


def test_a_short_list_is_numbered_as_it_likes() -> None:
    rows = [(f"W{n}", *ROWS[0][1:]) for n in range(101, 150) if n != 118]
    found = findings(job(COLUMNS, rows=len(rows)), table(rows))
    assert not [f for f in found if f.kind.name == "weld-number-left-out"]
