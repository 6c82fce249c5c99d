"""What a comparison tells of texts that differ nearly everywhere, word for word."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from hts.job.comparison.approvals import Judged
from hts.job.comparison.compare import Comparison, compare
from hts.job.comparison.report import document, markdown, text
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
_PIPES = [name for name in texts.NAMES if name.startswith("pipe")]
PAIRS = [
    *pairwise([*_PIPES, _PIPES[0]]),
    ("seam-and-pad", "furnace-spool"),
    ("two-cycles", "dissimilar-butt"),
    ("induction-cycle", "branch"),
]


@cache
def _compared(old: str, new: str) -> Comparison:
    """Without what checks find on either side, which each new rule changes."""
    found = compare(texts.spec(old), texts.spec(new), today="2026-11-20")
    changes = [change for change in found.changes if change.area != "check"]
    return Comparison(found.old, found.new, changes, list(found.representations))


def _kind_of_change(line: str) -> str:
    """Of an old or new value only on which side it stands: its change has a line of its own."""
    value = re.match(r"  [-+] tests/\S+  ", line)
    return value[0][:3] if value else told.without_figures(line)


def test_every_change_and_every_row() -> None:
    """The report for people, then the rows of paper that get a mark."""
    changes = {}
    for old, new in PAIRS:
        found = _compared(old, new)
        rows = sorted("row " + " ".join(map(str, row)) for row in found.rows)
        report = text.write(Judged(found), representation=True)
        changes[f"{old} to {new}"] = "\n".join([report, *rows])
    told.each_once(KEPT / "changes.txt", changes, _kind_of_change)


@pytest.mark.parametrize("number", [0, 1])
def test_the_other_forms(number: int) -> None:
    judged = Judged(_compared(*PAIRS[number]))
    name = " to ".join(PAIRS[number])
    coloured = text.write(judged, colour=True).replace("\033", "ESC")
    told.same(KEPT / "forms.txt", f"{name}, Markdown", markdown.write(judged))
    told.same(KEPT / "forms.txt", f"{name}, others",
              told.digest([coloured]) + "\n" + told.digest([document.write(judged)]))  # fmt: skip
