"""What sheets and tables say where the text leaves something out, or something is still open."""

from __future__ import annotations

import pytest

from hts.base.text import Source
from hts.checking.govern.case import Case
from hts.job.compiler import Job, compile_spec
from hts.job.compiler.changes import ChangeLine, Changes
from hts.job.outputs import files
from hts.job.outputs.index_page import Entry, index_page
from hts.job.outputs.weld_table import weld_tables
from hts.language.model import Spec
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT
from tests.texts import examples

PATH = ROOT / "specs/p22-header.hts"
TEXT = PATH.read_text("utf-8")


def sheets(*changes: tuple[str, str]) -> dict[str, str]:
    text = TEXT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    loader = examples()
    return told(compile_spec(Spec(Source(text, PATH.name, str(PATH)), loader)))


def told(job: Job) -> dict[str, str]:
    made = {name: data.decode() for name, data in files(job).items()}
    return {k: v.replace("\\", "").replace("\N{NO-BREAK SPACE}", " ") for k, v in made.items()}


WHOLE = sheets()


@pytest.mark.parametrize(
    ("old", "new", "file", "words"),
    [
        ("  datum                top\n", "", "tags.md",
         "12:00 is at: top, assumed, for the specification states no datum."),
        ("  viewed               with flow\n", "", "tags.md",
         "CAUTION: the specification does not say from which side clock positions are seen."),
        ("    reference junction  25 degC\n", "", "tags.md",
         "is assumed, for the specification states none."),
        ("channel 1   control channel 1\n", "channel 1\n", "setpoints.md", "not stated"),
        ("status for construction answer approved", "status for review", "setpoints.md",
         "Status: for review. This issue is not released for work."),
    ],
)  # fmt: skip
def test_a_line_left_out(old: str, new: str, file: str, words: str) -> None:
    assert words in sheets((old, new))[file]
    assert words not in WHOLE[file]


def line(what: str) -> ChangeLine:
    return ChangeLine("W12/heating", what, "120 mm", "125 mm", "prepare again")


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ((), "Nothing changed in meaning since A."),
        ((line("soak band"),), "Changed since A: 1 thing. Rows that changed are marked B."),
        ((line("soak band"), line("heated band")), "Changed since A: 2 things. Rows that changed"),
    ],
)
def test_what_changed_and_what_is_open_stands_at_the_head(
    lines: tuple[ChangeLine, ...], words: str
) -> None:
    job = job_at(PATH)._replace(
        changes=Changes("A", "B", frozenset({("W12", "", "band", "soak band")}), lines),
        warnings=("the hold is short",),
    )
    for name in ("setpoints.md", "tags.md"):
        assert words in told(job)[name]
        assert "Open warnings of the check when this was compiled:" in told(job)[name]
        assert "the hold is short" in told(job)[name]


def test_the_index_tells_what_changed_and_what_is_open() -> None:
    job = job_at(PATH)
    entry = Entry("W12", tuple(job.joints), ("tags.md",))
    other = Entry("W13", tuple(job_at(ROOT / "specs/induction-preheat.hts").joints), ("tags.md",))
    assert "Changed</th>" not in index_page(job, [entry], [])
    changes = Changes("A", "B", frozenset({("W12", "", "band", "soak band")}), ())
    open_still = job._replace(changes=changes, warnings=("3 < 4",))
    page = index_page(open_still, [entry, other], [])
    rows = page.split("<tr>")[2:]
    assert ["<td>changed</td>" in row for row in rows] == [True, False]
    # Of joints that are heated together one is enough.
    for sheets in (entry.sheets + other.sheets, other.sheets + entry.sheets):
        assert "<td>changed</td>" in index_page(open_still, [Entry("both", sheets, ("x",))], [])
    assert "<h2>Open warnings of the check</h2><ul><li>3 &lt; 4</li></ul>" in page
    assert "not released for work" not in page
    held = job._replace(document=job.document._replace(status="for review"))
    assert "Status: for review" in index_page(held, [entry], [])


_HOLD = "hold 670 .. 700 degC  for 2 h"


@pytest.mark.parametrize(
    ("hold", "cells"),
    [
        # ASME B31.3-2018 Table 331.1.1, P-4: 2.4 min/mm, of 21.3 mm 51.1 min and of 21.8 mm 52.3.
        (_HOLD, [["670", "700", "120", "stated; asme-b31.3 asks for 52 min"],
                 ["670", "700", "120", "stated; asme-b31.3 asks for 53 min"]]),
        ("hold 670 .. 700 degC for by rule", [["670", "700", "52", "asme-b31.3"],
                                           ["670", "700", "53", "asme-b31.3"]]),
        ("hold by rule for 2 h", [["650", "705", "120", "stated; asme-b31.3 asks for 52 min"],
                                  ["650", "705", "120", "stated; asme-b31.3 asks for 53 min"]]),
    ],
)  # fmt: skip
def test_who_sets_the_hold_of_a_listed_weld(hold: str, cells: list[list[str]]) -> None:
    path = ROOT / "tests/specs/right/welds-with-commas.hts"
    text = path.read_text("utf-8")
    assert text.count(_HOLD) == 1
    spec = Spec(Source(text.replace(_HOLD, hold), path.name, str(path)), examples())
    (table,) = weld_tables(Case(spec))
    at = table.heads.index("treatment")
    assert [list(row[at + 1 : at + 5]) for row in table.rows] == cells
