"""Flags for leads: all there, inside their cells, at the place a label sheet has them."""

import io
import re
from pathlib import Path

import pypdf
import pypdfium2
import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.paper.labels import NAME, Grid, GridError, files
from hts.paper.sheet import A4, LETTER
from tests.jobs import job_at
from tests.rows import each_row
from tests.texts import spec_of

ROOT = Path(__file__).parents[3]
GOOD = sorted((ROOT / "specs").glob("*.hts"))
POINT = 25.4 / 72


def of_text(text: str) -> Job:
    return compile_spec(spec_of(text, "x.hts"))


def words(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)


@pytest.mark.parametrize(
    "path",
    [pytest.param(p, marks=[pytest.mark.long] * (p.stem == "turnaround-list")) for p in GOOD],
    ids=lambda path: path.stem,
)
def test_each_thermocouple_has_two_flags_with_place_and_channels(path: Path) -> None:
    job = job_at(path)
    text = words(files(job)[NAME])
    tags = [tag for sheet in job.joints for tag in sheet.tags]
    assert text.count(job.document.fingerprint) == 2 * len(tags)
    for tag in tags:
        assert re.search(rf"^{re.escape(tag.tag)}\b", text, re.MULTILINE)
        for channel in (tag.controller, tag.recorder):
            if channel.number is not None:
                assert f"{channel.instrument or ''} channel {channel.number}".strip() in text


@pytest.mark.parametrize(
    ("size", "grid"),
    [
        (A4, Grid()),
        (
            LETTER,
            Grid(
                columns=3,
                rows=10,
                width=66.7,
                height=25.4,
                left=4.8,
                top=12.7,
                gap_across=3.2,
                gap_down=0,
            ),
        ),
        (A4, Grid(columns=5, rows=13, left=8, top=10)),
        (A4, Grid(columns=2, rows=5, left=12, top=15)),
    ],
)
def test_flags_lie_where_the_sheet_has_them(size, grid: Grid) -> None:  # type: ignore[no-untyped-def]
    """Against arithmetic by hand: no letter outside its own cell."""
    job = job_at(ROOT / "specs" / "p22-header.hts")
    laid = grid.on(size)
    page = pypdfium2.PdfDocument(files(job, size, grid)[NAME])[0]
    text = page.get_textpage()
    count = 0
    for index in range(text.count_chars()):
        if text.get_text_range(index, 1).isspace():
            continue
        left, bottom, right, top = (value * POINT for value in text.get_charbox(index))
        across, down = left - laid.left, size.height - top - laid.top
        column, row = (
            int(across // (laid.width + laid.gap_across)),
            int(down // (laid.height + laid.gap_down)),
        )
        x = laid.left + column * (laid.width + laid.gap_across)
        y = laid.top + row * (laid.height + laid.gap_down)
        assert x <= left and right <= x + laid.width
        assert y <= size.height - top and size.height - bottom <= y + laid.height
        count += 1
    assert count > 200


def test_more_flags_than_a_sheet_holds_go_on_the_next() -> None:
    job = job_at(ROOT / "specs" / "p22-header.hts")
    data = files(job, A4, Grid(columns=2, rows=5, copies=1))[NAME]
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == 2  # 16 flags, 10 to a sheet


@each_row(
    ("grid", "says"),
    [
        (Grid(columns=0), "at least one row"),
        (Grid(columns=20), "at least 34 mm"),
        (Grid(rows=60), "at least 18 mm"),
        (Grid(columns=3, width=70), "across; A4 has 210 mm"),
        (Grid(rows=10, height=40), "down; A4 has 297 mm"),
        (Grid(left=-1), "not negative"),
    ],
)
def test_what_does_not_fit_is_refused(grid: Grid, says: str) -> None:
    with pytest.raises(GridError, match=says):
        grid.on(A4)


def test_place_joint_and_revision_stand_on_each_flag() -> None:
    job = job_at(ROOT / "specs" / "p22-header.hts")
    text = words(files(job)[NAME])
    assert text.count("62 mm (2 7/16 in) upstream") == 2 * 2
    long = BUTT.replace('"HT-0001"', f'"{"HT" * 60}"')
    assert words(files(of_text(long))[NAME]).count("rev A") == 2 * 8
    # A joint stands beside its tag: two joints of one cycle have tags alike.
    many = words(files(job_at(ROOT / "specs" / "turnaround-many.hts"))[NAME])
    assert many.count("W21") == many.count("W22") == 2 * 8


def test_letters_of_a_flag_have_six_points_at_least() -> None:
    job = job_at(ROOT / "specs" / "p22-header.hts")
    grid = Grid(columns=5, rows=13, left=8, top=10)
    page = pypdfium2.PdfDocument(files(job, A4, grid)[NAME])[0]
    text = page.get_textpage()
    import pypdfium2.raw as raw

    sizes = {raw.FPDFText_GetFontSize(text, index) for index in range(text.count_chars())}
    assert min(size for size in sizes if size > 1) >= 6 - 1e-3


def test_a_used_sheet_is_begun_where_it_was_left() -> None:
    job = job_at(ROOT / "specs" / "p22-header.hts")
    grid = Grid(columns=3, rows=10, start=8)
    laid = grid.on(A4)
    text = pypdfium2.PdfDocument(files(job, A4, grid)[NAME])[0].get_textpage()
    tops = [297 - text.get_charbox(i)[3] * POINT for i in range(text.count_chars())]
    # The eighth of three columns is in the third row.
    assert min(tops) >= laid.top + 2 * (laid.height + laid.gap_down)
    with pytest.raises(GridError, match="start at 1 to 30"):
        Grid(columns=3, rows=10, start=31).on(A4)


def test_text_of_a_specification_is_never_markup() -> None:
    hostile = '#eval(\\"1\\") $x$ *b* @ref <l> \N{RIGHT-TO-LEFT OVERRIDE}' + "y" * 9_000
    text = re.sub(r'number +"[^"]+"', f'number "{hostile}"', BUTT, count=1)
    said = words(files(of_text(text))[NAME])
    assert '#eval("1") $x$ *b*' in said
    assert "\N{RIGHT-TO-LEFT OVERRIDE}" not in said


def test_twelve_letters_of_a_tag_are_all_there() -> None:
    text = BUTT.replace("T1S", "THERMO-1-SP7")
    assert "THERMO-1-SP7" in words(files(of_text(text))[NAME])


def test_same_text_same_bytes() -> None:
    assert files(of_text(BUTT)) == files(of_text(BUTT))
