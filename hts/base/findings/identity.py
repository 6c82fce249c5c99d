"""What makes a finding the same one after lines have moved or a message was reworded.

It is the file, the code, the address and the values the message holds: numbers, and what it quotes.
A line number in a message is no value.
"""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from collections.abc import Iterable
from typing import NamedTuple

from hts.base.findings.finding import Finding

_LINE = re.compile(r"\blines? \d+")
_VALUE = re.compile(r"`[^`]*`|'[^']*'|\"[^\"]*\"|[\w./:+-]*\d[\w./:+-]*")


class Identity(NamedTuple):
    """Findings with one identity in one file are told apart by their number alone."""

    file: str
    code: str
    address: str
    values: tuple[str, ...]


def identity(finding: Finding) -> Identity:
    """The identity of a finding."""
    message = _LINE.sub("", finding.message)
    values = tuple(value.strip("`'\"").rstrip(".:") for value in _VALUE.findall(message))
    return Identity(finding.source.name, finding.kind.code, finding.address, values)


def fingerprints(findings: Iterable[Finding]) -> list[str]:
    """For each finding 64 hexadecimal digits that no other one of the list has."""
    seen: Counter[Identity] = Counter()
    made = []
    for finding in findings:
        same = identity(finding)
        made.append(digest_of(*same[:3], *same.values, str(seen[same])))
        seen[same] += 1
    return made


def digest_of(*parts: str) -> str:
    """64 hexadecimal digits for a list of texts; no letter can move from one to the next."""
    digest = hashlib.sha256()
    for part in parts:
        data = part.encode("utf-8", "surrogatepass")
        digest.update(b"%d:" % len(data) + data)
    return digest.hexdigest()
