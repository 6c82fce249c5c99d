"""What every page carries, and that nothing runs off it."""

import io
import re
import shutil
from itertools import product
from pathlib import Path

import pypdf
import pypdfium2
import pytest
import zxingcpp

from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.language.model import Loader, Spec
from hts.paper.packet import files
from hts.paper.sheet import A4, LETTER, Size
from tests.jobs import job_at
from tests.paper.packet.jobs import (
    GOOD,
    POINT,
    ROOT,
    bare,
    of_text,
    packets_of,
    pages_of,
    texts_of,
)
from tests.rows import each_row
from tests.sampling import thinned, whose_turn

#: Room for the holes of a binder: ISO 838 has their centres 12 mm from the edge.
_HOLES = 18.0
_EDGE = 5.0
HEADER = ROOT / "specs" / "p22-header.hts"


@each_row("path", GOOD, ids=lambda path: path.stem)
def test_each_page_says_whose_it_is(path: Path) -> None:
    named = job_at(path).document
    for texts in texts_of(path).values():
        for number, text in enumerate(texts, 1):
            line = bare(text)
            assert f"page{number}of{len(texts)}" in line
            assert f"Fingerprint{named.fingerprint}" in line
            assert bare(f"{named.number}revision{named.revision}") in line
            assert bare(f"Status: {named.status}") in line
            assert "printedcopydoesnotfollow" in line


def outside(data: bytes, size: Size) -> list[tuple[int, str]]:
    """Pieces of text outside the margins, with their pages."""
    found = []
    for number, page in enumerate(pypdfium2.PdfDocument(data), 1):
        wide, high = (value * POINT for value in page.get_size())
        across = wide > high
        assert sorted((wide, high)) == pytest.approx([size.width, size.height], abs=0.1)
        left, top = (_EDGE, _HOLES) if across else (_HOLES, _EDGE)
        text = page.get_textpage()
        for index in range(text.count_rects()):
            box = text.get_rect(index)
            x0, y0, x1, y1 = (value * POINT for value in box)
            if x0 < left or x1 > wide - _EDGE or y0 < _EDGE or y1 > high - top:
                found.append((number, text.get_text_bounded(*box)))
    return found


@pytest.mark.parametrize(
    ("path", "size"),
    [*thinned(product(GOOD, [A4]), 2), *thinned(product(GOOD, [LETTER]), 5)],
    ids=lambda case: case.name,
)
def test_nothing_is_cut_off_nor_in_the_holes(path: Path, size: Size) -> None:
    for data in packets_of(path, size).values():
        assert outside(data, size) == []


CROWDED = BUTT.replace(
    BUTT[BUTT.index("    T1   controls top") : BUTT.index("  }\n}\n\npreheat")],
    "".join(
        [
            "    TC-CONTROL-A controls top at 12:00 on weld channel 1 control channel 1\n",
            "    TC-CONTROL-B controls bottom at 6:00 on weld channel 2 control channel 2\n",
        ]
        + [
            f"    TC-MONITO-{n:02d} monitors soak edge at {n % 12 + 1}:{n:02d},"
            f" {38 + n} mm {'upstream' if n % 2 else 'downstream'} channel {n}\n"
            for n in range(3, 25)
        ]
    ),
).replace("channels    12", "channels    24")


@pytest.mark.parametrize("size", [A4, LETTER], ids=lambda size: size.name)
def test_24_thermocouples_with_tags_of_12_letters(size: Size) -> None:
    (data,) = files(of_text(CROWDED), size).values()
    assert outside(data, size) == []
    text = bare("".join(pages_of(data)))
    assert "Notallthermocouples" not in text
    for number in range(3, 25):
        # Drawings, table of thermocouples, requirement, form of readings, derivation.
        assert text.count(f"TC-MONITO-{number:02d}") >= 5


@pytest.mark.parametrize("status", whose_turn(["in preparation", "for review", "superseded"], 3))
def test_not_for_construction_on_every_page(status: str) -> None:
    (data,) = files(of_text(BUTT.replace("status for construction", f"status {status}"))).values()
    for text in pages_of(data):
        assert f"NOTFORCONSTRUCTION·{bare(status)}" in bare(text)
    (released,) = files(of_text(BUTT)).values()
    assert all("NOTFORCONSTRUCTION" not in bare(text) for text in pages_of(released))


_EIGHT = ("p22-header", "carbon-steel-butt", "branch-unequal", "p91-pipe")
#: Two cycles, a repair, and 14 thermocouples with preheat, bake and tempering.
_HARD = ("right/two-cycles", "right/repair-butt", "jobs/power")


@pytest.mark.parametrize(
    ("name", "size"),
    thinned(product([*(f"../../specs/{one}" for one in _EIGHT), *_HARD], [A4, LETTER]), 3),
    ids=str,
)
def test_the_part_for_the_pipe_has_eight_sheets(name: str, size: Size) -> None:
    """Header and branch have 16 thermocouples each, preheat and a cycle; P91 a bake, too."""
    path = (ROOT / "tests" / "specs" / f"{name}.hts").resolve()
    for data in files(job_at(path), size, parts=("pipe",)).values():
        pages = pages_of(data)
        assert 4 < len(pages) <= 8
        assert bare(f"pipe part, sheet 1 of {len(pages)}") in bare(pages[0])


def test_what_two_joints_have_in_common_is_said_once() -> None:
    """The pair is heated on one program: one chart, one form of readings, a box for each joint."""
    pages = texts_of(ROOT / "specs" / "turnaround-many.hts")["packet-W21-W22.pdf"]
    pipe = [page for page in pages if "pipe part, sheet" in page]
    assert len(pipe) <= 9
    text = bare("".join(pipe))
    assert text.count("JointsW21,W22,pair") == 1
    assert "SetW21T1" in text and "W22T6Remarks" in text
    assert text.count(";holdatleast1h;") == 1 and "W21,1W21,2W21,3W22,1" in text
    for row in ("Openendsclosedagainstdraught", "clockoftherecordnotsetduringtherun"):
        assert text.count(row) == 1, row


@pytest.mark.parametrize("length", [40, 70])
def test_a_long_number_is_never_cut(length: int) -> None:
    number = "TI-PWHT-0123456789-" * 4
    (data,) = files(of_text(re.sub(r'(number +)"[^"]*"', rf'\1"{number[:length]}"', BUTT))).values()
    assert outside(data, A4) == []
    for text in pages_of(data):
        assert number[:length] in bare(text)


def test_one_part_alone() -> None:
    job = job_at(HEADER)
    for part, other in (("pipe", "file"), ("file", "pipe")):
        ((name, data),) = files(job, parts=(part,)).items()
        assert name == f"packet-W12-{part}.pdf"
        text = "".join(pages_of(data))
        assert f"{part} part, sheet 1" in text and f"{other} part" not in text


def test_the_code_on_the_cover_can_be_read() -> None:
    """Read back by a decoder of ISO/IEC 18004 codes that is none of ours."""
    job = job_at(HEADER)
    (data,) = packets_of(HEADER).values()
    image = pypdfium2.PdfDocument(data)[0].render(scale=4).to_pil()
    (code,) = zxingcpp.read_barcodes(image)
    assert code.text == f"HT-0147\nrevision B\n{job.document.fingerprint}"


def test_same_text_same_bytes_wherever_it_lies(tmp_path: Path) -> None:
    first = packets_of(HEADER)
    assert files(job_at(HEADER)) == first
    shutil.copytree(ROOT / "specs", tmp_path / "elsewhere")
    elsewhere = Loader(str(tmp_path))
    source = elsewhere.read(str(tmp_path / "elsewhere" / "p22-header.hts"))
    assert files(compile_spec(Spec(source, elsewhere))) == first
    for data in first.values():
        assert str(tmp_path).encode() not in data and str(ROOT).encode() not in data


def test_many_packets_at_once_are_the_same_every_time() -> None:
    path = ROOT / "specs" / "turnaround-many.hts"
    told: list[tuple[int, int]] = []
    assert files(job_at(path), progress=lambda *done: told.append(done)) == packets_of(path)
    assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]


def test_only_the_shipped_fonts_are_used() -> None:
    (data,) = packets_of(HEADER).values()
    fonts = set()
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        for font in page["/Resources"].get("/Font", {}).values():
            fonts.add(re.sub(r"^/[A-Z]{6}\+", "", font.get_object()["/BaseFont"]))
    assert fonts <= {"NotoSans-Regular", "NotoSans-Bold", "NotoSans-Regular-Identity-H",
                     "NotoSans-Bold-Identity-H"}  # fmt: skip


def test_no_heading_is_left_alone_at_the_foot_of_a_page() -> None:
    titles = (
        "Checks",
        "Thermocouples",
        "Limits and hold points",
        "Waivers and derivations",
        "What can hurt",
    )
    for path in GOOD:
        for texts in texts_of(path).values():
            for text in texts[1:]:
                body = text.split("Fingerprint")[0].strip().splitlines()
                assert not any(body[-1].strip().endswith(title) for title in titles), body[-1]


@pytest.mark.parametrize("show", whose_turn(["SI", "US", "SI and US", "US and SI"]))
def test_units_as_the_specification_says(show: str) -> None:
    (data,) = files(of_text(BUTT.replace("show         SI and US", f"show {show}"))).values()
    text = bare("".join(pages_of(data)))
    systems = show.split(" and ")
    # The hold of the example, 700 to 730 degC, is 1292 to 1346 degF.
    both = {"SI": "700°C", "US": "1292°F"}
    first = both[systems[0]]
    said = f"{first}({both[systems[1]]})" if len(systems) > 1 else first
    assert f"Everyreadingfrom{said}to" in text
    assert "aleastvalueisroundedup" in text.lower()
