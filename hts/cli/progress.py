"""How far long work has come, on a terminal only."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

#: Fewer files are checked before anybody could read it.
_WORTH = 200
_STEPS = 50
_CLEAR = "\r\033[K"


def progress(worth: int = _WORTH, what: str = "files") -> Callable[[int, int], None] | None:
    """What to tell the number of files done, and of all; None where nobody looks on.

    Less work than `worth` is not shown; `what` is counted.
    """
    if not _looked_on():
        return None

    def tell(done: int, total: int) -> None:
        if total < worth or (done % max(1, total // _STEPS) and done < total):
            return
        filled = done * _STEPS // total
        bar = "#" * filled + "." * (_STEPS - filled)
        line = f"\r  [{bar}] {done} of {total} {what}" if done < total else _CLEAR
        sys.stderr.write(line)
        sys.stderr.flush()

    return tell


@contextmanager
def doing(what: str) -> Iterator[None]:
    """Says what is being done until it is, where nobody can say how far it has come."""
    if not _looked_on():
        yield
        return
    sys.stderr.write(f"  {what} ...")
    sys.stderr.flush()
    try:
        yield
    finally:
        sys.stderr.write(_CLEAR)
        sys.stderr.flush()


def _looked_on() -> bool:
    return sys.stderr.isatty() and os.environ.get("TERM") != "dumb"
