"""Writes a file so that it is, at every moment, the old text or the new one."""

from __future__ import annotations

import os
import stat
from contextlib import suppress

from hts.base.leftovers import beside, tidy
from hts.base.text.reading import leads_out


def replace_text(path: str, text: str) -> None:
    """Puts a text in the place of a file, or makes it; one that is there keeps its mode, and a link
    its target.

    Raises OSError, with the file as it was. A file without permission to write is not replaced,
    although its folder would allow it.
    """
    if leads_out(path):
        raise PermissionError(None, "a link that leads out of the repository", path)
    target = os.path.realpath(path)
    there = os.path.exists(target)
    if there and not os.access(target, os.W_OK):
        raise PermissionError(None, "permission denied", path)
    tidy(target)
    temporary = beside(target, "new")
    try:
        with open(temporary, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        if there:
            os.chmod(temporary, stat.S_IMODE(os.stat(target).st_mode))
        os.replace(temporary, target)
    except BaseException:
        with suppress(FileNotFoundError):
            os.unlink(temporary)
        raise
