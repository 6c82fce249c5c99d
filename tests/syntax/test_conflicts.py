"""A merge that nobody has settled: one finding, nothing rewritten."""

from pathlib import Path

import hts
from hts.base.findings import Report
from hts.base.text import Source
from hts.generate import ROOT
from hts.language.layout import settled
from tests.rows import each_row

GOOD = Path(ROOT, "specs", "p22-header.hts").read_text("utf-8")
LINE = "  hold 690 .. 720 degC    for 2 h"
REST = GOOD.split(LINE)[1].split("\n")[0]
OURS, THEIRS = f"{LINE}{REST}\n", f"{LINE.replace('2 h', '3 h')}{REST}\n"

#: As git writes them: plain, with the common text between, and two in one file.
CONFLICTS = {
    "two sides": f"<<<<<<< HEAD\n{OURS}=======\n{THEIRS}>>>>>>> other\n",
    "common text": f"<<<<<<< ours\n{OURS}||||||| base\n{OURS}=======\n{THEIRS}>>>>>>> theirs\n",
    "nothing on ours": f"{OURS}<<<<<<< HEAD\n=======\n{THEIRS}>>>>>>> other\n",
    "only the end left": f"{OURS}>>>>>>> other\n",
    "only the middle left": f"{OURS}=======\n",
    "line ends of another system": (
        f"<<<<<<< HEAD\n{OURS}=======\n{THEIRS}>>>>>>> other\n".replace("\n", "\r\n")
    ),
}


@each_row("name", CONFLICTS)
def test_one_finding_and_no_layout(name: str) -> None:
    text = GOOD.replace(OURS, CONFLICTS[name])
    assert text != GOOD
    file = Path(ROOT, "specs", "p22-header.hts")
    report = Report()
    assert settled(Source(text, str(file)), report) is None
    assert [finding.kind.name for finding in report.findings] == ["unresolved-merge"]
    line, column = report.findings[0].source.position(report.findings[0].at.span.start)
    assert (line, column) == (1 + text[: _first(text)].count("\n"), 1)


def test_the_rest_of_the_file_is_judged_by_the_first_side() -> None:
    good = hts.load(str(Path(ROOT, "specs", "p22-header.hts")))

    def found(text: str) -> set[str]:
        conflict = text.replace(OURS, CONFLICTS["two sides"])
        return {finding.kind.name for finding in hts.check(hts.load(conflict, near=good))}

    assert found(GOOD) == {"unresolved-merge"}
    worse = GOOD.replace("heated band        930 mm", "heated band        93 mm")
    assert "unresolved-merge" in found(worse) and len(found(worse)) > 1


def test_signs_inside_texts_and_remarks_are_no_marks() -> None:
    text = GOOD.replace(OURS, f"# ======= <<<<<<<\n{OURS}") + '# >>>>>>> "=======" \n'
    report = Report()
    assert settled(Source(text, "weld.hts"), report) is not None
    assert report.findings == []


def _first(text: str) -> int:
    return min(at for mark in ("<<<<<<<", "=======", ">>>>>>>") if (at := text.find(mark)) >= 0)
