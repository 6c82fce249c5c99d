"""What governs where a slip in it would show: see `nearby`."""

from __future__ import annotations

import os
from itertools import groupby

import pytest

from tests.checking.govern import nearby
from tests.checking.govern.nearby import Line

LINES, TEXTS = nearby.rows()
JOBS = {job: list(rows) for job, rows in groupby(LINES, key=lambda row: row.job)}


def test_what_comes_of_a_line() -> None:
    now = [
        Line(job, row.line, each)
        for job, rows in JOBS.items()
        for row, each in zip(
            rows, nearby.told_of_lines(job, [row.line for row in rows]), strict=True
        )
    ]
    if os.environ.get("TELL_ANEW"):
        nearby.write(now, nearby.rows()[1])
        return
    assert now == [row for rows in JOBS.values() for row in rows]


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_what_governs_a_text(number: int) -> None:
    nearby.holds(TEXTS[number], nearby.told_of_text)
