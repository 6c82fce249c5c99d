"""The report, the chart and the workbook of each way a run can go, word for word; where on the
sheet, as digests."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from functools import cache
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


@cache
def _report(plan: str, way: str) -> str:
    size = LETTER if plan == "lenient" else A4
    data = list(told.leaves(pages(judged(plan, way), size), frozenset(("svg", "code"))))
    shown = [match["words"] for line in data if (match := _SHOWN.fullmatch(line)) is not None]
    return "\n".join([*dict.fromkeys(shown), f"  laid out {told.digest(data)}"])


@cache
def _chart(plan: str, way: str) -> str:
    svg = ET.fromstring(chart(judged(plan, way), (271.0, 150.0)))
    strokes, words = [], []
    for element in svg.iter():
        said = " ".join(f"{key}={value}" for key, value in element.attrib.items())
        strokes.append(element.tag + _NUMBER.sub(lambda n: f"{float(n[0]):.1f}", said))
        if element.tag.endswith("}text"):
            words.append(" ".join("".join(element.itertext()).split()))
    return "\n".join([*dict.fromkeys(words), f"  drawn {told.digest(strokes)}"])


@pytest.mark.parametrize(("plan", "way"), RUNS)
def test_what_is_handed_over(plan: str, way: str) -> None:
    whole = (plan, way) == RUNS[0]
    for name, made in (("reports", _report), ("charts", _chart)):
        text = made(plan, way)
        kept = text if whole else told.otherwise(text, made(*RUNS[0]))
        told.same(KEPT / f"{name}.txt", f"{plan}, {way}", kept)


@pytest.mark.parametrize(("plan", "way"), RUNS[:7])
def test_the_workbook(plan: str, way: str) -> None:
    """Without its readings, of which the digest is kept."""
    lines, sheet = [], ""
    for line in book_told(workbook(judged(plan, way), A4)).splitlines():
        sheet = line if line.startswith("# ") else sheet
        if line.startswith("# ") or "Readings" not in sheet:
            lines.append(line)
    told.same(KEPT / "workbooks.txt", f"{plan}, {way}", "\n".join(lines))
