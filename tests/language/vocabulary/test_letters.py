"""Letters that paper cannot show are told, and only those."""

import unicodedata

from fontTools.ttLib import TTFont

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.vocabulary.letters import missing_letters
from hts.paper.sheet.fonts import BOLD, REGULAR
from hts.syntax import parse
from tests.rows import each_row


def told(text: str) -> list[str]:
    report = Report()
    missing_letters(parse(Source(text, "text.hts"), Report()), report)
    return [finding.message for finding in report.findings]


def test_one_finding_names_all_that_are_missing() -> None:
    (message,) = told('spec 1\nfiller f { classification "\u05d0 \u4e2d \u05d0" }\n')
    assert "U+05D0, U+4E2D;" in message and "<U+05D0>" in message


@each_row("said", ["Trübe Straße 3 µm", "Ω ≤ 5 → −3", "шов", "e\u0301", "200 °C"])
def test_what_is_printed_is_not_told(said: str) -> None:
    assert told(f'spec 1\nfiller f {{ classification "{said}" }}\n') == []


def test_comments_are_not_printed() -> None:
    assert told("# \u4e2d\nspec 1  # \u4e2d\n") == []


def test_told_is_what_the_fonts_lack() -> None:
    """Against the tables of the fonts themselves, letter by letter."""
    fonts = [set(TTFont(path, lazy=True).getBestCmap()) for path in (REGULAR, BOLD)]
    for code in (*range(0xA1, 0x600), *range(0x2000, 0x2100), 0x4E2D):
        letter = chr(code)
        if not letter.isprintable() or unicodedata.combining(letter):
            continue
        normal = unicodedata.normalize("NFC", letter)
        lacks = not all(ord(one) in font for one in normal for font in fonts)
        assert bool(told(f'spec 1\nfiller f {{ classification "{letter}" }}\n')) == lacks, code
