"""The list of the files of a run, with the digest of each.

It has the form of `sha256sum`, so that whoever is handed the folder can check it. It also tells a
later run which files are its own to take away: those that are listed and unchanged.
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterable, Mapping

from hts.job.outputs.write import settle, write

NAME = "contents.sha256"
_NAME = r"[A-Za-z0-9][A-Za-z0-9._-]*"
#: A file of the folder, or of the folder of one joint in it.
_LINE = re.compile(rf"([0-9a-f]{{64}})  ((?:{_NAME}/)?{_NAME})")
#: A longer list is none of ours.
_LARGEST = 1_000_000


class OfOthers(Exception):
    """A file was changed by hand, or is not of an earlier run; the message is its path."""


def renew(
    folder: str, files: Mapping[str, bytes], stale: Iterable[str] = (), *, replace: bool
) -> list[str]:
    """Writes the files and their list in place of those of an earlier run, all or none; returns
    their paths. ``stale``: further names that go away, though no list has them. ``replace``: over
    files of others, too. Raises OfOthers, OSError."""
    # What a killed run left half way is neither changed by hand nor of somebody else.
    settle(folder)
    others = [] if replace else of_others(folder, files)
    if others:
        raise OfOthers(others[0])
    listed = {**files, NAME: contents(files)}
    return write(folder, listed, [*stale, *unchanged(folder)])


def contents(files: Mapping[str, bytes]) -> bytes:
    """The list for these files."""
    lines = [f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in files.items()]
    return "".join(lines).encode("utf-8")


def unchanged(folder: str) -> list[str]:
    """The files of an earlier run that lie in the folder as they were written, and their list.

    What somebody has written into, or put there under another name, is not among them.
    """
    data = _read(os.path.join(folder, NAME), _LARGEST)
    if data is None:
        return []
    found = [NAME]
    for line in data.decode("utf-8", "replace").splitlines():
        listed = _LINE.fullmatch(line)
        if listed is None:
            continue
        digest, name = listed.groups()
        now = _read(os.path.join(folder, name))
        if now is not None and hashlib.sha256(now).hexdigest() == digest:
            found.append(name)
    return found


def of_others(folder: str, files: Iterable[str]) -> list[str]:
    """Paths of those of these files that lie in the folder and are not as an earlier run wrote
    them."""
    own = set(unchanged(folder))
    return [
        path
        for name in files
        if name != NAME and name not in own and os.path.lexists(path := os.path.join(folder, name))
    ]


def _read(path: str, most: int = -1) -> bytes | None:
    try:
        with open(path, "rb") as file:
            return file.read(most)
    except OSError:
        return None
