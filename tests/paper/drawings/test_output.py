"""Drawings as files: the same every time, harmless whatever the text, telling the units right."""

import hashlib
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pypdfium2
import pytest
import typst

import hts.paper.sheet
from hts.job.compiler import Job
from hts.paper.drawings import cycle_chart, files, section, section_along, unrolled
from hts.paper.drawings.svg_files import _put
from hts.paper.sheet import A4, LETTER, MissingPackage
from tests.jobs import job_at
from tests.paper.drawings.reading import NAMESPACE, elements, inks, job_of, outside, overlaps, words
from tests.paper.drawings.test_room import JOB, SPECS

ROOT = Path(__file__).parents[3]
P22 = next(path for path in SPECS if path.stem == "p22-header")
LONG = "x" * 10_000
HOSTILE = (
    "<script>alert(1)</script> &amp; ]]> <!-- #{} $x$ "
    "\N{RIGHT-TO-LEFT OVERRIDE}abc \N{HEBREW LETTER ALEF} \N{ZERO WIDTH SPACE} "
    "Z\N{COMBINING ACUTE ACCENT}\N{COMBINING ACUTE ACCENT}"
)
CYCLE = """\
cycle stress-relief for W1 {
  start of control 300 degC
  heat to 300 degC
  heat to 705 degC at most 120 degC/h
  hold 690 .. 720 degC for 2 h
  cool to 300 degC at most 120 degC/h
}
"""


def one(show: str = "SI", more: str = "") -> Job:
    tag = "    T1 controls zone-northern at 12:00, on weld channel 1"
    return job_of(JOB.format(show=show, supports=more, thermocouples=tag) + CYCLE)


def drawings(job: Job, size: tuple[float, float] = (180.0, 120.0)) -> list[str]:
    sheet = job.joints[0]
    return [
        unrolled(job, sheet, size),
        section(job, sheet, size),
        section_along(job, sheet, size),
        *(cycle_chart(job, sheet, run, size) for run in sheet.runs),
    ]


def test_files_of_a_job() -> None:
    found = files(job_at(P22), A4)
    assert list(found) == [
        "W12-unrolled.svg",
        "W12-section.svg",
        "W12-section-along.svg",
        "W12-attachment-card.svg",
        "W12-preheat-chart.svg",
        "W12-stress-relief-chart.svg",
    ]
    for data in found.values():
        root = ET.fromstring(data)
        # A4 on its side, less margins of 15 mm (ISO 216).
        assert (root.attrib["width"], root.attrib["height"]) == ("267mm", "180mm")
    assert ET.fromstring(files(job_at(P22), LETTER)["W12-section.svg"]).attrib["width"] == "249.4mm"


def test_same_bytes_in_another_process(tmp_path: Path) -> None:
    program = "from tests.paper.drawings import test_output\nprint(test_output.digest())\n"
    told = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONHASHSEED": "2", "PYTHONPATH": str(ROOT)},
    ).stdout
    assert told.strip() == digest()


def digest() -> str:
    return hashlib.sha256(repr(files(job_at(P22), A4)).encode()).hexdigest()


def test_file_names_are_safe() -> None:
    job = one()
    sheet = job.joints[0]

    class Named:
        def __init__(self, name: str) -> None:
            self.__dict__.update(
                {slot: getattr(sheet.joint, slot) for slot in type(sheet.joint).__slots__}
            )
            self.name = name
            self.outside_diameter = sheet.joint.outside_diameter

    names = ["../../etc/x", "a b", "A-b", "CON:\n", "\N{HEBREW LETTER ALEF}" * 500]
    sheets = tuple(sheet._replace(joint=Named(name), runs=()) for name in names)  # type: ignore[arg-type]
    found = files(job._replace(joints=sheets), A4)
    assert len(found) == 4 * len(names)
    assert len({name.lower() for name in found}) == len(found)
    for name in found:
        assert re.fullmatch(r"[A-Za-z0-9_-][A-Za-z0-9_.-]{0,90}\.svg", name)


@pytest.mark.parametrize("text", [HOSTILE, LONG], ids=["markup", "long"])
def test_hostile_text(text: str) -> None:
    quoted = text.replace('"', "").replace("\\", "")
    job = one(
        "SI and US",
        f'  support "{quoted}" 900 mm upstream\n'
        f'  nearby "{quoted}" 300 mm downstream at most 200 degC',
    )
    document = job.document._replace(title=text, number=text, revision=text, status=text)
    job = job._replace(document=document)
    plain = {
        element.tag for svg in drawings(one()) for element in ET.fromstring(svg.encode()).iter()
    }
    for svg in drawings(job):
        root = ET.fromstring(svg.encode("utf-8"))
        assert {element.tag for element in root.iter()} <= plain
        assert not {f"{NAMESPACE}{tag}" for tag in ("script", "image", "a", "style", "use")} & plain
        assert not any("x" * 50 in value for e in root.iter() for value in e.attrib.values())
        assert all(word.isprintable() for word in words(svg))
        assert "\N{HEBREW LETTER ALEF}" not in svg and "\N{COMBINING ACUTE ACCENT}" not in svg
        assert overlaps(svg) == [] and outside(svg) == []
        assert len(svg) < 100_000
        # Who reads a cut text can still tell which issue the sheet belongs to.
        assert any(word.startswith(f"fingerprint {document.fingerprint}") for word in words(svg))


@pytest.mark.parametrize(
    ("show", "expected"),
    [
        # 125 mm is 4.92 in: a least width is rounded up to the next sixteenth. 25 mm is
        # 0.984 in, between 15/16 and 1: a gap that may be no wider is rounded down.
        ("SI", ["125 mm", "25 mm."]),
        ("US", ["4 15/16 in", "15/16 in."]),
        ("SI and US", ["125 mm (4 15/16 in)", "25 mm (15/16 in)."]),
        ("US and SI", ["4 15/16 in (125 mm)", "15/16 in (25 mm)."]),
    ],
)
def test_units(show: str, expected: list[str]) -> None:
    shown = drawings(one(show))
    text = "\n".join(words(shown[0]))
    assert all(wanted in text for wanted in expected)
    axis = words(shown[3])
    assert ("°C" in axis, "°F" in axis) == ("SI" in show, "US" in show)


def test_a_limit_is_not_rounded_past() -> None:
    # 200 degC is 392 degF; 201 degC is 393.8 degF. 204.17 degC is 399.5 degF: shown lower.
    job = one("US and SI", '  nearby "seat" 300 mm downstream at most 204.17 degC')
    assert "399 °F (204.1 °C)" in "\n".join(words(drawings(job)[0]))


def test_told_without_colour() -> None:
    """Letter and shape tell a duty: as many letters as thermocouples and lines of the legend."""
    job = job_at(P22)
    sheet = job.joints[0]
    for svg in (unrolled(job, sheet, (180, 240)), section(job, sheet, (180, 240))):
        letters = [word for word in words(svg) if word in ("C", "M", "S")]
        duties = [tag.duty for tag in sheet.tags]
        assert letters.count("C") == duties.count("controls") + 1
        assert letters.count("M") == duties.count("monitors") + 1
        assert letters.count("S") == duties.count("spare") + 1


def test_rendered_in_a_pdf_as_measured(tmp_path: Path) -> None:
    """A renderer of its own (usvg, in typst) sets the text where the SVG says."""
    job = job_at(P22)
    svg = unrolled(job, job.joints[0], (180, 120))
    (tmp_path / "x.svg").write_text(svg, "utf-8")
    (tmp_path / "x.typ").write_text(
        '#set page(width: 180mm, height: 120mm, margin: 0mm)\n#image("x.svg")', "utf-8"
    )
    pdf = typst.compile(
        str(tmp_path / "x.typ"), font_paths=[hts.paper.sheet.FOLDER], ignore_system_fonts=True
    )
    page = pypdfium2.PdfDocument(pdf)[0]
    on_page = page.get_textpage()
    mm = 25.4 / 72
    for text, ink in inks(svg):
        if text not in ("T12", "T1S", "T10", "3:00", "958 (37.72)", "bottom"):
            continue
        index, count = on_page.search(text, match_case=True, match_whole_word=True).get_next()
        boxes = [on_page.get_charbox(i) for i in range(index, index + count)]
        left, right = min(b[0] for b in boxes) * mm, max(b[2] for b in boxes) * mm
        top, bottom = 120 - max(b[3] for b in boxes) * mm, 120 - min(b[1] for b in boxes) * mm
        # usvg kerns, which draws letters together and never apart.
        assert ink[0] - 0.15 < left < right < ink[2] + 0.15, text
        assert right - left > 0.92 * (ink[2] - ink[0]), text
        assert (top, bottom) == pytest.approx((ink[1], ink[3]), abs=0.15), text
    everything = on_page.get_text_range()
    assert all(tag.tag in everything for tag in job.joints[0].tags)


def test_missing_package(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "drawsvg", None)
    with pytest.raises(MissingPackage, match=r'pip install "hts\[paper\]"'):
        drawings(one())


def test_nothing_heavy_until_used() -> None:
    program = (
        "import sys, hts.paper.drawings\n"
        "print([m for m in ('drawsvg', 'fontTools') if m in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, cwd=ROOT)
    assert run.stdout.strip() == "[]"


def test_text_is_large_enough() -> None:
    """Nominal sizes of ISO 3098, 1.8 mm and up; capitals are 0.714 of the font size."""
    for svg in drawings(one("SI and US")):
        heights = {float(e.attrib["font-size"]) * 0.714 for e in elements(svg, "text")}
        assert min(heights) > 1.5
        large = [e for e in elements(svg, "text") if float(e.attrib["font-size"]) * 0.714 > 2.49]
        assert len(large) >= 8


def test_insulation_that_ends_elsewhere() -> None:
    """The dashed line is the edge of the insulation; its width is told when it is its own."""
    same = "\n".join(words(drawings(one())[0]))
    assert "gradient band: edge of the insulation" in same
    text = JOB.replace("thickness 50 mm", "thickness 50 mm width 1500 mm total")
    tag = "    T1 controls zone-northern at 12:00, on weld channel 1"
    job = job_of(text.format(show="SI", supports="", thermocouples=tag))
    shown = words(unrolled(job, job.joints[0], (180.0, 120.0)))
    assert "edge of the insulation" in shown and "gradient band" in shown
    assert "insulation 1500 mm" in shown and "gradient band 1350 mm" in shown


def test_names_of_drawings_are_safe_and_none_is_there_twice() -> None:
    found: dict[str, bytes] = {}
    for joint in ("W1/2", "w1-2", "W1:2", "..", "W" * 90):
        _put(found, joint, "section", joint)
    # Systems that do not tell letters apart see one name in `W1-2` and `w1-2`.
    assert list(found) == [
        "W1-2-section.svg", "w1-2-section-2.svg", "W1-2-section-3.svg", "section.svg",
        f"{'W' * 80}.svg",
    ]  # fmt: skip
    assert found["w1-2-section-2.svg"] == b"w1-2"
