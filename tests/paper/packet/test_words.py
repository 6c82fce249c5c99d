"""The words on every paper: nothing twice, nothing of the program's own insides, no gap of zero."""

import csv
import io
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from hts.job.outputs import files
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.jobs import job_at
from tests.paper.packet.jobs import ALL, ROOT
from tests.rows import each_row
from tests.sampling import whose_turn

SPECS = [*ALL, *sorted((ROOT / "tests" / "specs" / "right").glob("*.hts"))]
#: A word twice; how Python shows an object; a value that is not there; half a sentence.
_DOUBLED = re.compile(r"\b([A-Za-z]{2,})\s+\1\b")
_INSIDES = re.compile(
    r"<[A-Z]\w+ |\w+\(\w+=|(?<=\S )None\b|\bFraction\b|\bnan\b|\binf\b|[,;:] ?[,;]|\.\.$"
)


def strings(block: Any) -> Iterator[str]:
    """Every text of what the templates print; marks stand beside it."""
    if isinstance(block, str):
        if not block.startswith("<svg"):
            yield block
    elif isinstance(block, dict):
        for value in block.values():
            yield from strings(value)
    elif isinstance(block, list):
        if any(isinstance(one, dict) and "mark" in one for one in block):
            yield "".join(one for one in block if isinstance(one, str))
        else:
            for one in block:
                yield from strings(one)


@cache
def told(path: Path) -> tuple[str, ...]:
    """Every text that is printed of a specification."""
    return tuple(_told(path))


@cache
def printed(path: Path) -> list[dict[str, Any]]:
    """What the templates print, packet by packet."""
    return [pages(subject) for subject in subjects(job_at(path))]


def _told(path: Path) -> Iterator[str]:
    job = job_at(path)
    yield from strings(printed(path))
    for name, data in files(job).items():
        text = data.decode()
        if name.endswith(".csv"):
            yield from (cell for row in csv.reader(io.StringIO(text)) for cell in row)
        elif name.endswith(".md"):
            yield from (
                cell.strip(" |") for line in text.splitlines() for cell in line.split(" | ")
            )


@pytest.mark.parametrize("path", whose_turn(SPECS), ids=lambda path: path.stem)
def test_no_word_twice_and_nothing_of_the_insides(path: Path) -> None:
    for text in told(path):
        for word in (_DOUBLED.search(text), _INSIDES.search(text)):
            assert word is None, text


@each_row("path", whose_turn(SPECS), ids=lambda path: path.stem)
def test_nothing_is_stricter_by_nothing(path: Path) -> None:
    """Two limits that are equal are as strict, and no gap of 0 K or 0 mm stands beside them."""
    zero = re.compile(r", 0 \w+( \(0 \S+\))?$|looser by 0 ")
    assert [text for text in told(path) if zero.search(text)] == []


@each_row("path", whose_turn(SPECS), ids=lambda path: path.stem)
def test_no_head_is_broken_within_a_word(path: Path) -> None:
    for packet in printed(path):
        for group in packet["groups"]:
            for part in group["parts"]:
                for block in part["blocks"]:
                    for head in strings(block.get("heads", "")):
                        assert "\N{ZERO WIDTH SPACE}" not in head, head
