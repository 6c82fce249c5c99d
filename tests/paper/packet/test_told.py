"""What is printed in the packets of texts that say nearly everything, word for word; where on the
sheet, as a digest for each section."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

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


@cache
def _packet(name: str, part: str) -> str:
    size = LETTER if name == "pipe-b" else A4
    lines: list[str] = []
    for subject in subjects(texts.job(name)):
        data = pages(subject, size, (part,))
        (group,) = data.pop("groups")
        head = _lines([data, {key: group[key] for key in group if key not in ("front", "parts")}])
        lines += [f"# {subject.file}", *_words(head), f"  laid out {told.digest(head)}"]
        for part_of in [{"across": False, "blocks": group["front"]}, *group["parts"]]:
            for title, blocks in _sections(part_of["blocks"]):
                inner = _lines(blocks)
                digest = told.digest([str(part_of["across"]), *inner])
                lines += [f"## {title}", *_words(inner), f"  laid out {digest}"]
    return "\n".join(lines)


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("name", texts.NAMES)
def test_a_packet(name: str, part: str) -> None:
    usual = "" if name == texts.FIRST else _packet(texts.FIRST, part)
    told.same(KEPT / f"{part}.txt", name, told.otherwise(_packet(name, part), usual))
