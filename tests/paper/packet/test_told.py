"""What is printed in the packets of texts that say nearly everything, word for word; where on the
sheet, as a digest."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import PARTS, pages
from hts.paper.sheet import A4, LETTER
from tests import told
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


def _packet(name: str, part: str) -> str:
    size = LETTER if name == "pipe-b" else A4
    lines: list[str] = []
    for subject in subjects(texts.job(name)):
        data = pages(subject, size, (part,))
        (group,) = data.pop("groups")
        head = _lines([data, {key: group[key] for key in group if key not in ("front", "parts")}])
        lines += [f"# {subject.file}", *_words(head)]
        laid_out = [*head]
        for part_of in [{"across": False, "blocks": group["front"]}, *group["parts"]]:
            for title, blocks in _sections(part_of["blocks"]):
                inner = _lines(blocks)
                lines += [f"## {title}", *_read(blocks)]
                laid_out += [str(part_of["across"]), *inner]
        lines.append(f"  laid out {told.digest(laid_out)}")
    return "\n".join(lines)


def test_packets() -> None:
    """What stands on the pipe as well as in the file is kept of the file alone."""
    packets = {
        f"{name}, {part}": _packet(name, part) for part in reversed(PARTS) for name in texts.NAMES
    }
    told.each_once(KEPT / "packets.txt", packets, _row)
