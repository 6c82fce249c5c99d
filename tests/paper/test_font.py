"""A team's own font gives paper the letters the shipped fonts lack; nothing else is taken."""

import io
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from pypdf import PdfReader

from hts.cli.main import cli
from hts.generate import ROOT

#: A letter that stands alone, and one that changes the order of its line.
ALONE, TURNS = "\u4e2d", "\u05d0"


@cache
def font() -> bytes:
    """A font that draws two letters as boxes; once, for it holds when it was made."""
    pen = TTGlyphPen(None)
    pen.moveTo((100, 0))
    for corner in ((100, 700), (900, 700), (900, 0)):
        pen.lineTo(corner)
    pen.closePath()
    box = pen.glyph()
    made = FontBuilder(1000, isTTF=True)
    made.setupGlyphOrder([".notdef", "box", "box2"])
    made.setupCharacterMap({ord(ALONE): "box", ord(TURNS): "box2"})
    made.setupGlyf({".notdef": box, "box": box, "box2": box})
    made.setupHorizontalMetrics(dict.fromkeys((".notdef", "box", "box2"), (1000, 100)))
    made.setupHorizontalHeader(ascent=800, descent=-200)
    names = {"familyName": "Two Boxes", "fullName": "Two Boxes", "psName": "TwoBoxes-Regular"}
    made.setupNameTable({**names, "styleName": "Regular"})
    made.setupOS2()
    made.setupPost()
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    text = Path(ROOT, "specs/induction-preheat.hts").read_text(encoding="utf-8")
    text = text.replace('"Utility tie-ins"', f'"Hall {ALONE}"')
    for used in ("equipment", "joints", "materials", "standing-orders"):
        text = text.replace(f'"library/{used}.hts"', f'"{used}.hts"')
        (tmp_path / f"{used}.hts").write_bytes(Path(ROOT, f"specs/library/{used}.hts").read_bytes())
    (tmp_path / "weld.hts").write_text(text, encoding="utf-8")
    (tmp_path / "letters.ttf").write_bytes(font())
    (tmp_path / "hts.toml").write_text('[paper]\nfont = "letters.ttf"\n')
    return tmp_path


def run(*arguments: str):
    return CliRunner().invoke(cli, list(arguments))


def test_letters_are_told_without_it_and_printed_with_it(folder: Path) -> None:
    spec = str(folder / "weld.hts")
    with_font = run("check", spec)
    assert "U+4E2D" not in with_font.output
    made = run("compile", spec, "-o", str(folder / "out"), "--packet", "--svg")
    assert made.exit_code == 0, made.output
    (packet,) = (folder / "out").glob("packet-*.pdf")
    pages = PdfReader(packet).pages
    assert any(f"Hall {ALONE}" in page.extract_text() for page in pages)
    fonts = [f.get_object() for page in pages for f in page["/Resources"]["/Font"].values()]
    assert any("TwoBoxes" in str(used["/BaseFont"]) for used in fonts)
    (folder / "hts.toml").write_text("")
    assert "U+4E2D" in run("check", spec).output


def test_a_letter_that_turns_the_line_stays_a_number(folder: Path) -> None:
    spec = folder / "weld.hts"
    spec.write_text(spec.read_text(encoding="utf-8").replace(ALONE, TURNS), encoding="utf-8")
    assert "U+05D0" in run("check", str(spec)).output


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("../letters.ttf", font(), "outside the repository"),
        ("none.ttf", None, "is not a file"),
        ("letters.ttf", b"GIF89a", "is not a font"),
    ],
)
def test_what_is_no_font_of_the_repository(folder: Path, name, content, why) -> None:
    if content is not None:
        (folder / name).resolve().write_bytes(content)
    (folder / "hts.toml").write_text(f'[paper]\nfont = "{name}"\n')
    found = run("check", str(folder / "weld.hts"))
    assert why in found.output and "hts.toml:2:1" in found.output, found.output


def test_a_damaged_font_has_no_letters(folder: Path) -> None:
    (folder / "letters.ttf").write_bytes(font()[:200])
    assert "U+4E2D" in run("check", str(folder / "weld.hts")).output
