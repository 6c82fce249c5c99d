"""The baseline: findings a team starts from, left out until they are mended.

An entry names a finding by file, code, address and values (hts.base.findings.identity), never by
line, and how many such findings there are. A baseline only shrinks: bringing it up to date removes
what is no longer found and adds nothing. A finding that may not be set aside cannot be in it.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Callable, Collection, Mapping
from typing import Any

from hts.base.findings import Finding
from hts.base.findings.identity import Identity, identity
from hts.base.text import Source
from hts.base.text.reading import Unreadable, read_text
from hts.checking.configuration.configuration import ConfigurationError

FORMAT_VERSION = 1
_KEYS = ("file", "code", "address", "values", "count")

Counts = Mapping[Identity, int]


class Baseline:
    """Known findings by their identity, with their number."""

    def __init__(self, counts: Counts) -> None:
        self.counts = counts

    def split(self, findings: list[Finding]) -> tuple[list[Finding], list[Finding]]:
        """The findings that are new, and those that are known.

        Of equal ones in one file the first count as known.
        """
        left = Counter(self.counts)
        new, known = [], []
        for finding in findings:
            same = identity(finding)
            if may_be_known(finding) and left[same] > 0:
                left[same] -= 1
                known.append(finding)
            else:
                new.append(finding)
        return new, known

    def shrunk(self, known: list[Finding], judged: Callable[[str], bool]) -> Baseline:
        """Without the entries that no finding answers to; ``judged`` tells which files the run
        has looked at: what is said about others stays."""
        found = Counter(map(identity, known))
        return Baseline(
            {
                same: min(count, found[same]) if judged(same.file) else count
                for same, count in self.counts.items()
                if found[same] or not judged(same.file)
            }
        )

    def gone(self, later: Baseline) -> list[str]:
        """What a shrunk baseline lacks, a line each."""
        kept_entries = []
        for same, count in sorted(self.counts.items()):
            lost = count - later.counts.get(same, 0)
            if lost:
                at = f" at {same.address}" if same.address else ""
                values = f" ({', '.join(same.values)})" if same.values else ""
                times = f", {lost} times" if lost > 1 else ""
                kept_entries.append(f"{same.file}: {same.code}{at}{values}{times}")
        return kept_entries

    def text(self) -> str:
        """As JSON with an entry a line, so that a change of it can be reviewed."""
        lines = [
            json.dumps(
                dict(zip(_KEYS, (*same, count), strict=True)), ensure_ascii=True, sort_keys=False
            )
            for same, count in sorted(self.counts.items())
        ]
        return (
            f'{{"format_version": {FORMAT_VERSION}, "findings": [\n' + ",\n".join(lines) + "\n]}\n"
        )


def may_be_known(finding: Finding) -> bool:
    """Whether a baseline may hold it: not what no waiver and no configuration may set aside."""
    return finding.kind.floor is None


def made_of(findings: Collection[Finding]) -> Baseline:
    """A new baseline of all findings it may hold."""
    return Baseline(Counter(identity(f) for f in findings if may_be_known(f)))


def read_baseline(path: str) -> Baseline | None:
    """The baseline in a file; None where there is no such file. Raises ConfigurationError."""
    if not os.path.lexists(path):
        return None
    try:
        text = read_text(path)
    except Unreadable as error:
        raise ConfigurationError(path, str(error), "name a baseline") from None
    source = Source(text, path)
    try:
        data = json.loads(text)
    except ValueError as error:  # JSONDecodeError, or a number of too many digits
        at, said = getattr(error, "pos", 0), getattr(error, "msg", str(error))
        raise _damaged(source, at, f"this is not JSON: {said.lower()}") from None
    except RecursionError:
        raise _damaged(source, 0, "values are nested too deeply") from None
    if not isinstance(data, dict) or data.get("format_version") != FORMAT_VERSION:
        raise _damaged(source, 0, f"this is no baseline of format version {FORMAT_VERSION}")
    entries = data.get("findings")
    if not isinstance(entries, list):
        raise _damaged(source, 0, "there is no list `findings`")
    counts: dict[Identity, int] = {}
    for number, entry in enumerate(entries):
        try:
            same, count = _entry(entry)
            if same in counts:
                raise ValueError(f"{same.code} at {same.address} is listed twice")
        except ValueError as error:
            raise _damaged(source, _start(text, number), str(error)) from None
        counts[same] = count
    return Baseline(counts)


def _entry(entry: Any) -> tuple[Identity, int]:
    """Raises ValueError."""
    if not isinstance(entry, dict) or set(entry) != set(_KEYS):
        raise ValueError(f"an entry has exactly the keys {', '.join(_KEYS)}")
    file, code, address, values, count = (entry[key] for key in _KEYS)
    texts = [file, code, address, *(values if isinstance(values, list) else [None])]
    if not all(isinstance(text, str) for text in texts):
        raise ValueError("`file`, `code`, `address` and each item of `values` must be texts")
    if type(count) is not int or count < 1:
        raise ValueError("`count` is a whole number, 1 or more")
    return Identity(file, code, address, tuple(values)), count


def _start(text: str, number: int) -> int:
    """Offset of an entry in the text of a baseline that is sound JSON."""
    skip = json.JSONDecoder().raw_decode
    at = text.index("[", text.index('"findings"')) + 1
    for _ in range(number):
        at = _next(text, skip(text, _next(text, at))[1]) + 1
    return _next(text, at)


def _next(text: str, at: int) -> int:
    while text[at] in " \t\r\n":
        at += 1
    return at


def _damaged(source: Source, at: int, cause: str) -> ConfigurationError:
    line, column = source.position(at)
    return ConfigurationError(
        f"{source.name}:{line}:{column}",
        cause,
        "restore it from version control, or delete it and write it anew",
    )
