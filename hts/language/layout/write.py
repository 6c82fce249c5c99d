"""Writes a file so that it is, at every moment, the old text or the new one."""

from __future__ import annotations

import os
import stat
import tempfile


def replace_text(path: str, text: str) -> None:
    """Puts a new text in the place of a file, which keeps its mode; a link keeps its target.

    Raises OSError, with the file as it was. A file without permission to write is not replaced,
    although its folder would allow it.
    """
    target = os.path.realpath(path)
    if not os.access(target, os.W_OK):
        raise PermissionError(None, "permission denied", path)
    handle, temporary = tempfile.mkstemp(prefix=".hts-", dir=os.path.dirname(target))
    try:
        with open(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        os.chmod(temporary, stat.S_IMODE(os.stat(target).st_mode))
        os.replace(temporary, target)
    except BaseException:
        os.unlink(temporary)
        raise
