"""Texts read from files, and the folder their names start from."""

from __future__ import annotations

import errno
import os
import stat

#: A specification of this size is no specification; reading on would only cost time.
LARGEST = 5_000_000
#: How the name of a table ends; every other text is one of the language.
TABLE_ENDINGS = (".csv", ".tsv", ".txt")
#: A report of a check of very many files is longer than any specification.
LARGEST_REPORT = 500_000_000
#: Nearly every text is shorter, and a buffer for the largest one would cost more than the reading.
_PIECE = 65_536


class Unreadable(Exception):
    """A file that cannot be opened or decoded; the message says why."""


def regular(path: str) -> None:
    """Raises Unreadable for what is not an ordinary file: a pipe would be waited for, and a device
    read without end. OSError where nothing is there."""
    mode = os.stat(path).st_mode
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), path)
    if not stat.S_ISREG(mode):
        raise Unreadable("not a file with text in it, but a pipe, a device or a socket")


def leads_out(path: str) -> bool:
    """Whether a path goes by a link out of the repository it is written in.

    What lies there is not part of the repository, and its text is nobody's business: a link that
    came with a change could lead to anything the reader of the paper must not see.
    """
    written, real = os.path.abspath(path), os.path.realpath(path)
    if written == real:
        return False
    root = _marked(os.path.dirname(written))
    return root is not None and not real.startswith(os.path.join(os.path.realpath(root), ""))


def _marked(folder: str) -> str | None:
    """The nearest folder upwards, as written, that holds `.git`, else one that holds `hts.toml`."""
    configured = None
    while not os.path.lexists(os.path.join(folder, ".git")):
        if configured is None and os.path.lexists(os.path.join(folder, "hts.toml")):
            configured = folder
        parent = os.path.dirname(folder)
        if parent == folder:
            return configured
        folder = parent
    return folder


def read_bytes(path: str, most: int = LARGEST) -> bytes:
    """What a file of at most so many bytes holds. Raises Unreadable with a reason a person can act
    on."""
    if "\0" not in path and leads_out(path):
        raise Unreadable("a link that leads out of the repository; what lies there is not read")
    try:
        regular(path)
        with open(path, "rb") as file:
            data = file.read(_PIECE)
            if len(data) == _PIECE:
                data += file.read(most + 1 - _PIECE)
    except (OSError, ValueError) as error:
        # A name with a NUL in it is a ValueError.
        reason = getattr(error, "strerror", None) or "cannot be read"
        raise Unreadable(reason.lower()) from None
    if len(data) > most:
        raise Unreadable(f"the file is larger than {most // 1_000_000} MB")
    return data


def decoded(data: bytes) -> str:
    """Text in UTF-8, byte order mark included. Raises Unreadable."""
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise Unreadable(
            f"the file is not UTF-8 text (byte {error.start}); save it as UTF-8"
        ) from None


def read_text(path: str) -> str:
    """Text of a file in UTF-8, byte order mark included. Raises Unreadable."""
    return decoded(read_bytes(path))


def name_below(path: str, root: str) -> str:
    """How findings call a file: its path from the root, with forward slashes."""
    relative = os.path.relpath(path, root)
    return path if relative.startswith("..") else relative.replace(os.sep, "/")


def root_of(path: str) -> str:
    """The nearest folder upwards that holds `.git`; without one, the nearest that holds `hts.toml`;
    else the folder of the path.

    A configuration of a part of a repository does not change what its files are called.
    """
    start = os.path.realpath(path)
    if not os.path.isdir(start):
        start = os.path.dirname(start)
    folder, configured = start, None
    while not os.path.exists(os.path.join(folder, ".git")):
        if configured is None and os.path.exists(os.path.join(folder, "hts.toml")):
            configured = folder
        parent = os.path.dirname(folder)
        if parent == folder:
            return configured or start
        folder = parent
    return folder
