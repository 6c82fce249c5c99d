"""New texts beside the files they replace, and what a killed run left of them."""

from __future__ import annotations

import os
import re
from contextlib import suppress


def beside(path: str, mark: str) -> str:
    """A name in the folder of a file, so that moving from it never crosses to another disk. It says
    which process made it; ``mark`` is "new" or "old"."""
    folder, name = os.path.split(path)
    return os.path.join(folder, f".{name}.{os.getpid()}.{mark}")


def tidy(path: str) -> None:
    """Takes away what killed runs left beside a file. Raises OSError where the folder cannot be
    read."""
    folder, name = os.path.split(path)
    left = re.compile(rf"\.{re.escape(name)}\.([0-9]{{1,9}})\.(new|old)")
    for found in map(left.fullmatch, os.listdir(folder or ".")):
        if found and not _runs(int(found[1])):
            with suppress(OSError):
                os.unlink(os.path.join(folder, found[0]))


def _runs(process: int) -> bool:
    if os.name == "nt":
        return True  # asking there ends it
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
