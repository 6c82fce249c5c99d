"""Compiled jobs, and the text of what is made from them."""

import re
from functools import cache
from pathlib import Path

import pypdfium2

from hts.base.text import Source
from hts.job.compiler import Job, compile_spec
from hts.language.model import Loader, Spec
from hts.paper.packet import files
from hts.paper.sheet import A4, Size
from tests.jobs import job_at
from tests.sampling import whose_turn

ROOT = Path(__file__).parents[3]
#: Without the weld list: its 120 welds are of four shapes, and each would be looked at.
ALL = sorted(p for p in (ROOT / "specs").glob("*.hts") if p.stem != "turnaround-list")
GOOD = whose_turn(ALL)
#: One point in mm (ISO 32000-1: 72 points an inch).
POINT = 25.4 / 72


@cache
def packets_of(path: Path, size: Size = A4) -> dict[str, bytes]:
    """The packets of a specification; many tests look at the same ones."""
    return files(job_at(path), size)


@cache
def texts_of(path: Path) -> dict[str, list[str]]:
    """The text of each page of its packets on A4."""
    return {name: pages_of(data) for name, data in packets_of(path).items()}


def of_text(text: str, folder: str = "/") -> Job:
    return compile_spec(Spec(Source(text, "x.hts", f"{folder}/x.hts"), Loader(folder)))


def pages_of(data: bytes) -> list[str]:
    """The text of each page, in the order it was set."""
    texts = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]
    # The reader tells a hyphen at the end of a line apart, for it may be one of word division.
    return [text.replace("\ufffe", "-").replace("\x02", "-") for text in texts]


def bare(text: str) -> str:
    """Without blanks and marks, which a line end may put anywhere, and with the signs that the
    shipped fonts do not have written as they are on paper."""
    for sign, shown in (("−", "–"), ("→", "="), ("√", "sqrt")):
        text = text.replace(sign, shown)
    # Units have their signs on paper.
    text = re.sub(r"(?<=\d )deg([CF])\b", r"°\1", text)
    text = text.replace(" m2K/W", " m²K/W").replace(" kg/m3", " kg/m³")
    return re.sub(r"[\s​ †‡]", "", text)
