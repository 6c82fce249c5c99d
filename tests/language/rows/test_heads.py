"""What heads of columns mean, as weld lists are headed: common practice, no source."""

from __future__ import annotations

import pytest

from hts.language.rows.heads import WALL, meaning
from tests.language.rows.lists import COLUMNS, findings, job, table
from tests.rows import each_row


@each_row(
    ("head", "name"),
    [
        ("WT [mm]", WALL),
        ("W.T. (mm)", WALL),
        ("Wall thk. nom.", WALL),
        ("Pipe wall measured", WALL),
        ("NPS", "the size in NPS"),
        ("Size NPS", "the size in NPS"),
        ("DN", "the size in DN"),
        ("Line no.", "the line"),
        ("Sch.", "the schedule"),
        # Something besides, or two things at once: nobody can be sure.
        ("Insulation thickness", None),
        ("Wall / Sch", None),
        ("NPS / DN", None),
        ("Line size", None),
        ("Weld no.", None),
        ("ISO rev", None),
        ("\u058e", None),
    ],
)
def test_a_head_says_what_its_cells_are(head: str, name: str | None) -> None:
    found = meaning(head)
    assert (found.name if found else None) == name


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ((), False),
        ((("wall measured", "not used"),), False),
        ((("wall measured", "not used"), ("pipe schedule", "not used")), True),
    ],
    ids=["read", "by its schedule", "not at all"],
)
def test_walls_that_nobody_reads_are_told(changes: tuple[tuple[str, str], ...], told: bool) -> None:
    columns = COLUMNS
    for change in changes:
        columns = columns.replace(*change)
    names = {finding.kind.name for finding in findings(job(columns), table())}
    assert ("column-leads-elsewhere" in names) == told
