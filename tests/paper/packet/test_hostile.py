"""Hostile text in every free text: the packet is whole, and nothing of the text is carried out."""

import io
import re
from itertools import product

import pypdf
import pytest

from hts.paper.packet import files
from hts.paper.sheet import A4
from tests.paper.packet.jobs import ROOT, bare, of_text, pages_of
from tests.paper.packet.test_pages import outside
from tests.sampling import thinned

#: Would print 8641969 if it were carried out as Typst, and nothing of itself.
_CODE = "#(1234567*7)"
#: As the language has it between quotes: a backslash before a quote, and before itself.
_SAID = (
    f'{_CODE} #eval(\\"1\\") $x^2$ @ref <label> *b* _i_ `raw` // c /* d */ \\\\u{{41}} '
    "= head - item + item =HYPERLINK(1) [l](http://tern.example) \u202eturn\u202c \x07\x1b[31m "
    "\u05d0\u4e2d \ufeff{apart}{cover} †‡"
)


def hostile(text: str, said: str = _SAID) -> str:
    """The text with every quoted text of each line replaced, but for what is a closed list."""
    lines = []
    for line in text.splitlines(keepends=True):
        if not line.startswith("use ") and not line.strip().startswith("grade "):
            line = re.sub(r'(?<!process )"[^"\n]*"', lambda _: f'"{said}"', line)
        lines.append(line)
    return "".join(lines)


# One of each kind: what is printed of the others is printed of these.
@pytest.mark.parametrize("name", ["p22-header", "branch-unequal", "induction-preheat"])
def test_in_every_free_text(name: str) -> None:
    text = (ROOT / "specs" / f"{name}.hts").read_text("utf-8")
    job = of_text(hostile(text), str(ROOT / "specs"))
    for data in files(job).values():
        assert outside(data, A4) == []
        printed = bare("".join(pages_of(data)))
        assert "8641969" not in printed
        assert printed.count(_CODE) > 20
        for piece in ("$x^2$", "@ref<label>", "*b*_i_`raw`//c/*d*/", "=HYPERLINK(1)"):
            assert piece in printed
        # What cannot be seen or would turn the line is written as its number.
        for number in ("<U+202E>", "<U+0007>", "<U+001B>", "<U+05D0>", "<U+4E2D>", "<U+FEFF>"):
            assert number in printed
        assert not re.search(r"[\x00-\x08\x0b-\x1f\u202a-\u202e]", printed)


def test_nothing_of_it_becomes_a_link_a_file_or_a_script() -> None:
    text = (ROOT / "specs" / "p22-header.hts").read_text("utf-8")
    (data,) = files(of_text(hostile(text), str(ROOT / "specs"))).values()
    reader = pypdf.PdfReader(io.BytesIO(data))
    for page in reader.pages:
        for annotation in page.get("/Annots", []):
            # The contents lead to their pages; nothing leads out of the paper.
            assert "/URI" not in str(annotation.get_object())
    assert b"/JavaScript" not in data and b"/EmbeddedFile" not in data


_FIELDS = (
    'job "Tern Island: reheat outlet header, closing weld"',
    'number    "HT-0147"',
    'client       "Tern Island Power"',
    'A  on 2026-10-05  "First issue"',
    'check       "Bore drained and vented"',
    'caution     "Surfaces up to 730 degC"',
    'program                 "P12 rev B"',
    'nearby               "instrument tapping, NPS 1"',
    'prepared  "Heat-treatment engineer"',
)
_LONG = ("x" * 10_000, "xxxx " * 2_000)


@pytest.mark.parametrize(
    ("field", "long"), thinned(product(_FIELDS, _LONG), 5), ids=lambda text: text[:12].strip()
)
def test_a_text_of_ten_thousand_letters(field: str, long: str) -> None:
    text = (ROOT / "specs" / "p22-header.hts").read_text("utf-8")
    name = field.partition('"')[0]
    assert field in text
    (data,) = files(of_text(text.replace(field, f'{name}"{long}"'), str(ROOT / "specs"))).values()
    assert outside(data, A4) == []
    pages = pages_of(data)
    assert len(pages) < 80
    # Every letter is on paper, however many lines and pages that takes.
    assert bare("".join(pages)).count("x") >= long.count("x")
