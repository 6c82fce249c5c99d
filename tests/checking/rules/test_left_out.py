"""What is not there stops no rule: every entry of the examples left out, one at a time, and what
is told then."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BASES
from tests import told
from tests.texts import spec_of

KEPT = Path(__file__).with_name("told") / "left_out.txt"


def _without(text: str) -> Iterator[tuple[str, str]]:
    """Each line that is an entry of its own, and the text without it; each block likewise."""
    lines = text.split("\n")
    for number, line in enumerate(lines):
        if not line.strip() or line.strip() == "}":
            continue
        last = number
        if line.endswith("{"):
            indent = len(line) - len(line.lstrip())
            last = next(n for n in range(number, len(lines)) if lines[n] == f"{' ' * indent}}}")
        yield line.strip(), "\n".join([*lines[:number], *lines[last + 1 :]])


def _told(base: str) -> Iterator[str]:
    known = set(BASES["butt"].split("\n")) if base != "butt" else set()
    for line, text in _without(BASES[base]):
        if any(line == other.strip() for other in known):
            continue
        for finding in check_spec(spec_of(text)):
            assert "None" not in finding.message, (line, finding)
            places = [
                f"{each.text} {each.span.start}-{each.span.end}"
                for each in (finding.at, *finding.others)
            ]
            beside = " ; ".join((*places, *finding.notes, finding.help))
            yield f"{finding.address}: {finding.message} | without {line} | {beside}"


def test_every_entry_left_out() -> None:
    for base in BASES:
        lines = list(_told(base))
        told.write_whole(KEPT, f"{base} whole", lines)
        told.same(KEPT, base, told.digest(lines))
