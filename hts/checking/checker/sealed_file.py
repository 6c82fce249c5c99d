"""Files that are kept between runs: JSON whose first line tells format, key and seal of the rest.

One that is damaged, was made by another version, does not bear the seal of the user's key, or could
have been written by another user counts as empty. The folder is made for the user alone. What
cannot be written is not kept, and nobody is bothered.
"""

from __future__ import annotations

import json
import os
import stat
from contextlib import suppress
from typing import Any

from hts.checking.checker.seal import same, seal

#: Files in the folder at most; the longest unused go first.
MOST_FILES = 64
#: A larger file is not read.
LARGEST = 64_000_000

_FORMAT = 3


def read(path: str, key: str, root: str) -> dict[str, Any] | None:
    """What the file holds, None where it is not there or not as it was written."""
    try:
        if not own(os.lstat(path)):
            return None
        with open(path, "rb") as file:
            head, _, text = file.read(LARGEST).partition(b"\n")
        text = text.removesuffix(b"\n")
        said = json.loads(head)
        proof = seal(_sealed(key, text), root)
        if proof is None or not same(said["seal"], proof) or said != _head(key, proof):
            return None
        kept: dict[str, Any] = json.loads(text)
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None
    return kept


def write(path: str, key: str, root: str, body: Any) -> None:
    """Writes the file; it is at every moment the old one or the new one."""
    folder = os.path.dirname(path)
    text = json.dumps(body, separators=(",", ":"))
    proof = seal(_sealed(key, text.encode()), root)
    if proof is None:
        return
    head = json.dumps(_head(key, proof))
    temporary = f"{path}.{os.urandom(8).hex()}"
    with suppress(OSError):
        os.makedirs(os.path.dirname(folder), exist_ok=True)
        os.mkdir(folder, 0o700)
    with suppress(OSError):
        handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with open(handle, "w", encoding="utf-8") as file:
            file.write(f"{head}\n{text}\n")
        os.replace(temporary, path)
    with suppress(OSError):
        os.unlink(temporary)  # there only where it could not be put into its place
    _forget_oldest(folder)


def own(state: os.stat_result) -> bool:
    """Whether it is a file that the user alone can have written."""
    if not stat.S_ISREG(state.st_mode):
        return False
    return os.name == "nt" or (state.st_uid == os.getuid() and not state.st_mode & 0o022)


def _head(key: str, proof: str) -> dict[str, Any]:
    return {"format": _FORMAT, "key": key, "seal": proof}


def _sealed(key: str, text: bytes) -> bytes:
    """The body with what it is about: one that is moved to another name does not count there."""
    return f"{_FORMAT} {key}\n".encode() + text


def _forget_oldest(folder: str) -> None:
    """Removes what is too much; a file left behind by a run that was ended goes with it."""
    with suppress(OSError), os.scandir(folder) as entries:
        files = sorted((e.stat().st_mtime_ns, e.path) for e in entries if ".json" in e.name)
        for _, path in files[:-MOST_FILES]:
            os.unlink(path)
