"""What is printed in the packets of texts that say nearly everything, word for word; where on the
sheet, as a digest."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hts.paper.packet.groups import Subject, subjects
from hts.paper.packet.packet_files import PARTS, pages
from hts.paper.sheet import A4, LETTER
from tests import told
from tests.paper.drawings.test_told import strokes
from tests.paper.packet.jobs import ROOT, of_text
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
#: Drawn, and kept with the drawings.
_DRAWN = frozenset(("svg", "code", "qr"))
_SHOWN = re.compile(r'(?P<at>.*?): "(?P<words>.+)"')


def _sections(blocks: list[dict[str, Any]]) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    """Blocks under the section they are in."""
    name, found = "front", []
    for block in blocks:
        if block["kind"] == "section":
            yield name, found
            name, found = str(block["text"]), []
        found.append(block)
    yield name, found


def _lines(value: object) -> list[str]:
    return list(told.leaves(value, _DRAWN))


def _strokes(value: object) -> Iterator[str]:
    """Of every picture its size, and its strokes to a tenth of a millimetre; not of the code on the
    cover, which holds the fingerprint."""
    if isinstance(value, str):
        if value.startswith("<svg"):
            yield from strokes(ET.fromstring(value))
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from () if key in ("code", "qr") else _strokes(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _strokes(inner)


def _words(lines: list[str]) -> list[str]:
    found = []
    for line in lines:
        match = _SHOWN.fullmatch(line)
        if match is not None and not match["at"].endswith("kind"):
            found.append(match["words"])
    return found


def _read(blocks: list[dict[str, Any]]) -> Iterator[str]:
    """A row of a table in a line."""
    for block in blocks:
        for key, value in block.items():
            rows = value if key in ("rows", "pairs", "texts") else [value]
            if key != "kind" and key not in _DRAWN:
                yield from filter(None, (" | ".join(_words(_lines({key: row}))) for row in rows))


def _row(line: str) -> str:
    """A row by its first cell and how many cells it has; a sentence by its words."""
    first, *others = told.without_figures(line).split(" | ")
    return f"{first} {len(others)}"


#: Two joints heated together, one of which nobody looks at before.
_PAIR = "a pair"
_SEEN = 'before heat W21 {\n  hold point "Fit-up is seen" by "Owner\'s inspector"\n}\n'


def _subjects(name: str) -> list[Subject]:
    if name != _PAIR:
        return subjects(texts.job(name))
    path = ROOT / "specs" / "turnaround-many.hts"
    checked = "before heat W21, W22,"
    text = path.read_text("utf-8")
    assert checked in text
    job = of_text(text.replace(checked, "before heat W21,") + _SEEN, str(path.parent))
    return [subject for subject in subjects(job) if len(subject.sheets) > 1]


def _packet(name: str, part: str) -> str:
    size = LETTER if name == "pipe-b" else A4
    lines: list[str] = []
    for subject in _subjects(name):
        data = pages(subject, size, (part,))
        (group,) = data["groups"]
        front = {key: value for key, value in data.items() if key != "groups"}
        head = _lines([front, {key: group[key] for key in group if key not in ("front", "parts")}])
        lines += [f"# {subject.file}", *_words(head)]
        laid_out = [*head]
        for part_of in [{"across": False, "blocks": group["front"]}, *group["parts"]]:
            for title, blocks in _sections(part_of["blocks"]):
                inner = _lines(blocks)
                lines += [f"## {title}", *_read(blocks)]
                laid_out += [str(part_of["across"]), *inner]
        lines.append(f"  laid out {told.digest(laid_out)}, drawn {told.digest(_strokes(data))}")
    return "\n".join(lines)


def test_packets() -> None:
    """What stands on the pipe as well as in the file is kept of the file alone."""
    packets = {
        f"{name}, {part}": _packet(name, part)
        for part in reversed(PARTS)
        for name in (*texts.NAMES, _PAIR)
    }
    told.each_once(KEPT / "packets.txt", packets, _row)
