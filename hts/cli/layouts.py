"""Many texts laid out: spread over the cores, and none twice that is known to be laid out."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from contextlib import suppress
from typing import NamedTuple

from hts.base.findings import Finding, Report
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.checking.checker.check_paths import FEW
from hts.checking.checker.program import digest_of, program
from hts.checking.checker.seal import same, seal
from hts.language.layout import settled

#: Digests kept at most; the longest unused go first.
MOST = 100_000
_FILE = "layout.json"


class LaidOut(NamedTuple):
    """A text in the one layout: None where it cannot be laid out, as the findings tell."""

    text: str | None
    findings: list[Finding]


def lay_out(named: tuple[str, str]) -> LaidOut:
    """Lays out a text, given with its name; a byte order mark stays."""
    name, text = named
    report = Report()
    mark = BYTE_ORDER_MARK if text.startswith(BYTE_ORDER_MARK) else ""
    after = settled(Source(text.removeprefix(BYTE_ORDER_MARK), name), report)
    return LaidOut(None if after is None else mark + after, report.findings)


def lay_out_all(texts: Sequence[tuple[str, str]]) -> Iterator[LaidOut]:
    """Each of them, in their order; many are spread over the cores. Raises ChildProcessError where
    a process was killed."""
    if len(texts) <= FEW:
        yield from map(lay_out, texts)
        return
    from hts.checking.checker.processes import cores, pool_of

    with pool_of(cores(), "laying out files") as pool:
        yield from pool.map(lay_out, texts, chunksize=max(1, min(64, len(texts) // 16)))


class Known:
    """The digests of texts that this program has found to be laid out, kept between runs in a file
    of the user's own; one that is damaged or of another program counts as empty."""

    def __init__(self, folder: str | None) -> None:
        self._path = os.path.join(folder, _FILE) if folder else None
        self._program = program() if folder else ""
        self._before = self._read()
        self._now: dict[str, None] = {}

    def has(self, text: str) -> bool:
        """Whether a text is known to be laid out."""
        if self._path is None:
            return False
        digest = digest_of(text.encode("utf-8"))
        if digest in self._before:
            self._now[digest] = None
            return True
        return False

    def add(self, text: str) -> None:
        """Notes a text that is laid out."""
        if self._path is not None:
            self._now[digest_of(text.encode("utf-8"))] = None

    def save(self) -> None:
        """Writes what is new; what cannot be written is not kept."""
        if self._path is None or self._now.keys() <= self._before.keys():
            return
        kept = [*self._now, *(digest for digest in self._before if digest not in self._now)]
        temporary = f"{self._path}.{os.urandom(8).hex()}"
        with suppress(OSError):
            os.makedirs(os.path.dirname(self._path), mode=0o700, exist_ok=True)
            handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with open(handle, "w", encoding="ascii") as file:
                digests = kept[:MOST]
                proof = seal(_sealed(self._program, digests))
                json.dump({"program": self._program, "seal": proof, "digests": digests}, file)
            os.replace(temporary, self._path)
        with suppress(OSError):
            os.unlink(temporary)  # there only where it could not be put into its place

    def _read(self) -> dict[str, None]:
        if self._path is None:
            return {}
        try:
            from hts.checking.checker.sealed_file import own

            if not own(os.lstat(self._path)):
                return {}
            with open(self._path, encoding="ascii") as file:
                kept = json.load(file)
            digests = [str(each) for each in kept["digests"]]
            proof = seal(_sealed(self._program, digests))
            if kept["program"] == self._program and same(kept["seal"], proof):
                return dict.fromkeys(digests)
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            pass
        return {}


def _sealed(program: str, digests: Sequence[str]) -> bytes:
    return "\n".join(("layout", program, *digests)).encode()
