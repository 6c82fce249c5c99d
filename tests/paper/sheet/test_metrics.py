"""Widths of text against FreeType, which sets the same fonts by itself."""

from pathlib import Path

from hypothesis import example, given
from hypothesis import strategies as st
from PIL import ImageFont

import hts.paper.sheet
from hts.paper.sheet import metrics

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
