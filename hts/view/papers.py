"""Which papers have been compiled: the fingerprints in the job.json files of some folders."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator

from hts.base.text.reading import Unreadable, read_bytes
from hts.editor.look import stamp

#: Bytes of a job.json that is looked into.
_LARGEST = 50_000_000
CURRENT, OUTDATED, NONE = "● current", "✕ not current", "none found"


class Papers:
    """What the papers in folders are of; a file is read again only when it was written."""

    def __init__(self) -> None:
        self._read: dict[str, tuple[tuple[int, ...], str, str]] = {}
        self._folders: dict[str, dict[str, str]] = {}

    def look(self, folders: Iterable[str]) -> None:
        """Looks the folders through: each, and those right in it."""
        self._folders = {folder: self._below(folder) for folder in dict.fromkeys(folders)}

    def state(self, number: str, fingerprint: str, folders: Iterable[str]) -> str:
        """Whether the papers of a document are those of the text; the first folder decides."""
        for folder in folders:
            found = self._folders.get(folder, {}).get(number)
            if found is not None:
                return CURRENT if found == fingerprint else OUTDATED
        return NONE

    def _below(self, folder: str) -> dict[str, str]:
        found: dict[str, str] = {}
        for path in _job_files(folder):
            number, fingerprint = self._of(path)
            if number:
                found.setdefault(number, fingerprint)
        return found

    def _of(self, path: str) -> tuple[str, str]:
        """Number and fingerprint of the document a file was compiled from; "" where it is not
        such a file."""
        now = stamp(path)
        known = self._read.get(path)
        if known is None or known[0] != now:
            number = fingerprint = ""
            try:
                written = json.loads(read_bytes(path, _LARGEST))
                number, fingerprint = written["document"]["number"], written["fingerprint"]
            except (Unreadable, ValueError, TypeError, LookupError, RecursionError):
                pass
            known = self._read[path] = (now, str(number), str(fingerprint))
        return known[1:]


def _job_files(folder: str) -> Iterator[str]:
    """job.json of a folder and of those right in it, where they are."""
    if os.path.isfile(path := os.path.join(folder, "job.json")):
        yield path
    try:
        names = sorted(os.listdir(folder))
    except OSError:
        return
    for name in names:
        if os.path.isfile(path := os.path.join(folder, name, "job.json")):
            yield path
