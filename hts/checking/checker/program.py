"""Which program checks: a digest that changes with every file of it."""

from __future__ import annotations

import os
import sys

import hts
from hts import __version__

_PACKAGE = os.path.dirname(os.path.abspath(hts.__file__))


def digest_of(data: bytes) -> str:
    """A digest nobody can find a second text for; 32 hexadecimal digits."""
    # Only a run over many files needs it, and importing it costs as much as a check.
    import hashlib

    return hashlib.blake2b(data, digest_size=16).hexdigest()


def program() -> str:
    """Digest of the program, its rules and its books.

    An installed wheel carries the digest of each of its files in a list of its own, which is the
    same on every machine. In a working copy, size and time of each file stand for its content.
    """
    record = os.path.join(os.path.dirname(_PACKAGE), f"hts-{__version__}.dist-info", "RECORD")
    try:
        with open(record, encoding="utf-8") as file:
            lines = [line for line in file if line.startswith("hts/") and ",sha256=" in line]
    except OSError:
        lines = list(stamps(_PACKAGE))
    lines += [__version__, sys.version]
    return digest_of("\n".join(sorted(lines)).encode("utf-8", "surrogateescape"))


def stamps(folder: str) -> list[str]:
    """Path, size and time of every file below a folder."""
    found = []
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                if entry.name != "__pycache__":
                    found += stamps(entry.path)
            else:
                state = entry.stat()
                found.append(f"{entry.path} {state.st_size} {state.st_mtime_ns}")
    return found
