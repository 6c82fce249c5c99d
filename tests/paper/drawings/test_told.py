"""What is written in the drawings of texts that say nearly everything, word for word; the strokes
as a digest. Where it changes, look at the drawings."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path

from hts.paper.drawings import files
from hts.paper.sheet import A4, LETTER
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
_NUMBER = re.compile(r"-?\d+\.\d+")
_SET = "{http://www.w3.org/2000/svg}"


def _strokes(svg: ET.Element) -> Iterator[str]:
    """Every element with its numbers to a tenth of a millimetre."""
    for element in svg.iter():
        said = " ".join(f"{key}={value}" for key, value in element.attrib.items())
        yield element.tag + _NUMBER.sub(lambda found: f"{float(found[0]):.1f}", said)


def _written(svg: ET.Element) -> Iterator[str]:
    for text in svg.iter(f"{_SET}text"):
        words = " ".join("".join(text.itertext()).split())
        yield words


def _drawn(name: str) -> str:
    size = LETTER if name == "pipe-b" else A4
    lines = []
    for file, data in files(texts.job(name), size).items():
        svg = ET.fromstring(data)
        words = dict.fromkeys(_written(svg))
        lines += [f"# {file}", *words, f"  drawn {told.digest(_strokes(svg))}"]
    return "\n".join(lines)


def test_the_drawings() -> None:
    told.each_once(KEPT / "drawings.txt", {name: _drawn(name) for name in texts.NAMES})
