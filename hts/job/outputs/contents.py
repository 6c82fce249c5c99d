"""The list of the files of a run, with the digest of each.

It has the form of `sha256sum`, so that whoever is handed the folder can check it. It also tells a
later run which files are its own to take away: those that are listed and unchanged. Each command
has a list of its own, so that none takes away what another one wrote into the same folder.
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Iterable, Mapping

from hts.job.outputs.write import settle, write

NAME = "contents.sha256"
_NAME = r"[^./\\:\x00-\x1f][^/\\:\x00-\x1f]*"
#: A file of the folder, or of the folder of one joint in it.
_LINE = re.compile(rf"([0-9a-f]{{64}})  ((?:{_NAME}/)?{_NAME})")
#: A longer list is none of ours.
_LARGEST = 1_000_000


class OfOthers(Exception):
    """A file was changed by hand, or is not of an earlier run; the message is its path."""


def renew(
    folder: str,
    files: Mapping[str, bytes],
    stale: Iterable[str] = (),
    *,
    replace: bool,
    listed_in: str = NAME,
    of_this_run: Callable[[str], bool] = lambda name: True,
) -> list[str]:
    """Writes the files and their list in place of those of an earlier run, all or none; returns
    their paths. ``stale``: further names that go away, though no list has them. ``replace``: over
    files of others, too. ``of_this_run``: of what is listed, what goes away where it is not written
    anew; the rest stays, and stays listed. Raises OfOthers, OSError."""
    # What a killed run left half way is neither changed by hand nor of somebody else.
    settle(folder)
    others = [] if replace else of_others(folder, files, listed_in)
    if others:
        raise OfOthers(others[0])
    own = unchanged(folder, listed_in)
    kept = {name: own[name] for name in own if name not in files and not of_this_run(name)}
    gone = [name for name in own if name not in kept]
    made = {**files, listed_in: contents(files, kept)}
    return write(folder, made, [*stale, *gone])


def contents(files: Mapping[str, bytes], kept: Mapping[str, str] = {}) -> bytes:
    """The list for these files, and those of earlier runs, given by their digests."""
    digests = {name: hashlib.sha256(made).hexdigest() for name, made in files.items()}
    lines = [f"{digest}  {name}\n" for name, digest in {**digests, **kept}.items()]
    return "".join(lines).encode("utf-8")


def unchanged(folder: str, listed_in: str = NAME) -> dict[str, str]:
    """The files of an earlier run that lie in the folder as they were written, with their digests.

    What somebody has written into, or put there under another name, is not among them.
    """
    found: dict[str, str] = {}
    for digest, name in _listed(folder, listed_in) or ():
        now = _read(os.path.join(folder, name))
        if now is not None and hashlib.sha256(now).hexdigest() == digest:
            found[name] = digest
    return found


def _listed(folder: str, listed_in: str) -> list[tuple[str, str]] | None:
    """Digests and names; None where there is no list, or one that is none of ours."""
    read = _read(os.path.join(folder, listed_in), _LARGEST)
    if read is None:
        return None
    lines = [_LINE.fullmatch(line) for line in read.decode("utf-8", "replace").splitlines()]
    return [(line[1], line[2]) for line in lines if line] if lines and all(lines) else None


def of_others(folder: str, files: Iterable[str], listed_in: str = NAME) -> list[str]:
    """Paths of those of these files, and of their list, that lie in the folder and are not as an
    earlier run wrote them."""
    own = unchanged(folder, listed_in)
    if _listed(folder, listed_in) is not None:
        own[listed_in] = ""
    paths = [os.path.join(folder, name) for name in (*files, listed_in) if name not in own]
    return [path for path in paths if os.path.lexists(path)]


def _read(path: str, most: int = -1) -> bytes | None:
    try:
        with open(path, "rb") as file:
            return file.read(most)
    except OSError:
        return None
