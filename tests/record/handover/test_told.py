"""The report, the chart and the workbook of each way a run can go, word for word; where on the
sheet, as digests."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from pathlib import Path

import pytest

from hts.paper.sheet import A4, LETTER
from hts.record.handover.chart import chart
from hts.record.handover.report import pages
from hts.record.handover.workbook import workbook
from tests import told
from tests.paper.workbook.book_told import book_told
from tests.record.judging.ways import judged

KEPT = Path(__file__).with_name("told")
_NUMBER = re.compile(r"-?\d+\.\d+")
_SHOWN = re.compile(r'.*?: "(?P<words>.+)"')
RUNS = [
    ("plain", "sound"),
    ("several", "two hot, one twice"),
    ("strict", "too fast up twice"),
    ("strict", "no rows twice, without power"),
    ("strict", "one replaced when blank"),
    ("lenient", "heater lost and back"),
    ("lenient", "in the range again and again"),
    ("lenient", "one not there"),
    ("several", "without a date"),
    ("plain", "cold all day"),
    ("plain", "clock jumped in a gap"),
]


def _report(plan: str, way: str) -> str:
    size = LETTER if plan == "lenient" else A4
    data = list(told.leaves(pages(judged(plan, way), size), frozenset(("svg", "code"))))
    shown = [match["words"] for line in data if (match := _SHOWN.fullmatch(line)) is not None]
    return "\n".join([*dict.fromkeys(shown), f"  laid out {told.digest(data)}"])


def _chart(plan: str, way: str) -> str:
    svg = ET.fromstring(chart(judged(plan, way), (271.0, 150.0)))
    strokes, words = [], []
    for element in svg.iter():
        said = " ".join(f"{key}={value}" for key, value in element.attrib.items())
        strokes.append(element.tag + _NUMBER.sub(lambda n: f"{float(n[0]):.1f}", said))
        if element.tag.endswith("}text"):
            words.append(" ".join("".join(element.itertext()).split()))
    return "\n".join([*dict.fromkeys(words), f"  drawn {told.digest(strokes)}"])


@pytest.mark.parametrize("made", [_report, _chart], ids=["reports", "charts"])
def test_what_is_handed_over(
    made: Callable[[str, str], str], request: pytest.FixtureRequest
) -> None:
    texts = {f"{plan}, {way}": made(plan, way) for plan, way in RUNS}
    told.each_once(KEPT / f"{request.node.callspec.id}.txt", texts)


def test_the_workbooks() -> None:
    """Of all but the first digests alone: their verdicts are those of the reports."""
    books = [book_told(workbook(judged(plan, way), A4)) for plan, way in RUNS[:7]]
    lines, sheet = [], ""
    for line in books[2].splitlines():
        sheet = line if line.startswith("# ") else sheet
        if line.startswith("# ") or "Readings" not in sheet:
            lines.append(line)
    others = [told.digest(book.splitlines()) for book in books]
    told.same(KEPT / "workbooks.txt", ", ".join(RUNS[2]), "\n".join([*lines, *others]))
