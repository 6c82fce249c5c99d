"""What governs where a slip in it would show: see `nearby`."""

from __future__ import annotations

import os
from itertools import groupby

import pytest

from tests.checking.govern import nearby
from tests.checking.govern.nearby import Line

LINES, TEXTS = nearby.rows()
JOBS = {job: list(rows) for job, rows in groupby(LINES, key=lambda row: row.job)}


@pytest.mark.parametrize("job", JOBS)
def test_what_comes_of_a_line(job: str) -> None:
    told = nearby.told_of_lines(job, [row.line for row in JOBS[job]])
    now = [Line(job, row.line, each) for row, each in zip(JOBS[job], told, strict=True)]
    if os.environ.get("TELL_ANEW"):
        lines, texts = nearby.rows()
        nearby.write([*(row for row in lines if row.job != job), *now], texts)
        return
    for row, other in zip(JOBS[job], now, strict=True):
        assert other == row


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_what_governs_a_text(number: int) -> None:
    nearby.holds(TEXTS[number], nearby.told_of_text)
