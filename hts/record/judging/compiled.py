"""Whether loops compiled to machine code are at hand: where numba is installed and a process judges
so many logs that starting them is worth while. Without them arrays do the same, to the last bit."""

from __future__ import annotations

import warnings
from functools import cache
from importlib import import_module
from types import ModuleType

#: Logs of a process from which on they are started. It takes half a second of processor time, which
#: they save in some 300 logs of a dozen thermocouples and 1,200 rows (measured).
_MANY = 600

_expected = 0


def expect(logs: int) -> None:
    """How many logs this process is going to judge in all."""
    global _expected
    _expected = logs


def loops() -> ModuleType | None:
    """The module hts.record.judging.compiled_loops, where it is worth while."""
    return _started() if _expected >= _MANY else None


@cache
def _started() -> ModuleType | None:
    try:
        with warnings.catch_warnings():
            # One may not be able to keep what was compiled, and may well be the only one to mind.
            warnings.simplefilter("ignore")
            found = import_module("hts.record.judging.compiled_loops")
            found.try_all()
    except Exception:
        # Not installed, of another version, nowhere to keep what was compiled: arrays will do.
        return None
    return found
