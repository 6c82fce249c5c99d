"""Widths of text against FreeType, which sets the same fonts by itself."""

from itertools import pairwise
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import example, given
from hypothesis import strategies as st
from PIL import ImageFont

import hts.paper.sheet
from hts.base.fonts import Font
from hts.paper.sheet import SIZES, fonts, metrics
from tests.paper.test_font import ALONE, TURNS, font
from tests.rows import each_row

FONT = ImageFont.truetype(Path(hts.paper.sheet.FOLDER) / "NotoSans-Regular.ttf", 500)
LETTERS = st.text(st.characters(max_codepoint=0x24F, categories=("L", "N", "P", "Zs")), max_size=40)


@example("î}")
@given(LETTERS)
def test_never_narrower_than_set(text: str) -> None:
    text = metrics.drawable(text)
    set_width = FONT.getlength(text) / 500 * metrics.font_size(2.5)
    assert set_width <= metrics.width(text, 2.5) + 0.02
    # Kerning only ever takes a little away.
    assert metrics.width(text, 2.5) <= set_width * 1.2 + 0.5


@given(st.text(max_size=60), st.floats(5, 60))
def test_shortened_fits(text: str, most: float) -> None:
    text = metrics.drawable(text)
    kept = metrics.shortened(text, 2.5, most)
    assert metrics.width(kept, 2.5) <= most
    assert kept == text or kept.endswith("…")


@given(st.text(max_size=200), st.integers(1, 4))
def test_wrapped_fits_and_loses_nothing_unmarked(text: str, lines: int) -> None:
    text = metrics.drawable(text)
    made = metrics.wrapped(text, 2.5, 40, lines)
    assert len(made) <= lines
    assert all(metrics.width(line, 2.5) <= 40 for line in made)
    assert any("…" in line for line in made) or " ".join(made).split() == text.split()


@given(st.text(max_size=30))
def test_drawable_twice_is_once(text: str) -> None:
    """What comes out stays as it is."""
    shown = metrics.drawable(text)
    assert shown.isprintable()
    assert metrics.drawable(shown) == shown


def test_numbers_instead_of_what_cannot_be_drawn() -> None:
    assert metrics.drawable("a\u202eb") == "a<U+202E>b"
    assert metrics.drawable("\u05d0\x07") == "<U+05D0><U+0007>"
    # A letter with its accent as two code points is one letter (NFC).
    assert metrics.drawable("e\u0301") == "é"
    assert metrics.drawable("x\u0301\n") == "x<U+0301><U+000A>"
    assert metrics.drawable("Prüfung Ø 3/8″ Ωж") == "Prüfung Ø 3/8″ Ωж"


def test_sizes_of_sheets_and_of_letters() -> None:
    """ISO 216 and ANSI/ASME Y14.1 (8.5 in by 11 in, exactly 215.9 by 279.4 mm); how high capitals
    are, of the fonts' own tables."""
    sizes = {name: (size.name, size.width, size.height) for name, size in SIZES.items()}
    assert sizes == {"A4": ("A4", 210, 297), "Letter": ("Letter", 215.9, 279.4)}
    for path in (metrics.REGULAR, metrics.BOLD):
        font = TTFont(path, lazy=True)
        capital = font["OS/2"].sCapHeight / font["head"].unitsPerEm
        assert capital == metrics.CAPITAL and metrics.font_size(capital) == 1
        # Letters with an accent above, and those with a tail or a hook below.
        glyphs, names = font["glyf"], font.getBestCmap()
        top = max(glyphs[names[ord(c)]].yMax for c in "\u00c0\u00c9\u0150\u0158\u017d") / 1000
        bottom = -min(glyphs[names[ord(c)]].yMin for c in "gjpqy\u00c7\u0163|") / 1000
        assert top <= metrics.ABOVE <= top + 0.05 and bottom <= metrics.BELOW <= bottom + 0.01


def test_letters_of_a_team_are_as_wide_as_its_font_says(tmp_path: Path) -> None:
    """A box as wide as the font is large, by the font; without the font it is a number, and what no
    font has counts as its widest letter."""
    path = tmp_path / "letters.ttf"
    path.write_bytes(font())
    assert metrics.drawable(ALONE) == "<U+4E2D>"
    plain = metrics.width("weld", metrics.CAPITAL)
    assert metrics.width(TURNS, metrics.CAPITAL) > metrics.width("\u01c4", metrics.CAPITAL)
    with fonts.beside(Font(str(path), "two boxes")):
        assert metrics.drawable(f"weld {ALONE}{TURNS}") == f"weld {ALONE}<U+05D0>"
        assert metrics.width(ALONE, metrics.CAPITAL) == pytest.approx(1.02)
        assert metrics.width(f"weld{ALONE}", metrics.CAPITAL) == pytest.approx(plain + 1.02)
    assert metrics.drawable(ALONE) == "<U+4E2D>"


@each_row("most", [12.0, 40.0])
@each_row("bold", [False, True])
def test_no_more_is_cut_or_broken_than_has_to_be(most: float, bold: bool) -> None:
    text = "Thermocouples of the soak band are held within 690 to 720 degC for two hours"
    assert metrics.shortened("weld", 2.5, most, bold) == "weld"
    just = metrics.width(text, 2.5, bold)
    assert metrics.shortened(text, 2.5, just, bold) == text
    assert metrics.shortened(text, 2.5, just - 0.01, bold) != text
    kept = metrics.shortened(text, 2.5, most, bold).removesuffix("…")
    more = text[: len(kept) + 2].rstrip()
    assert text.startswith(kept) and metrics.width(f"{more}…", 2.5, bold) > most
    lines = metrics.wrapped(text, 2.5, most, 20, bold)
    for line, following in pairwise(lines):
        assert metrics.width(f"{line} {following.split()[0]}", 2.5, bold) > most
    assert metrics.wrapped(text, 2.5, most, 1, bold) == [metrics.shortened(text, 2.5, most, bold)]
