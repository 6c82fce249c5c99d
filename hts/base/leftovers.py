"""New texts beside the files they replace, private folders, and what a killed run left of them."""

from __future__ import annotations

import errno
import os
import re
import shutil
import stat
import tempfile
from contextlib import suppress

from hts.base.text.reading import leads_out

#: What a private folder is called: who made it is part of its name.
_FOLDER = re.compile(r"hts-([0-9]{1,9})-[a-z0-9_]+")


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


def put_new(path: str, data: bytes, *, folders: bool = False) -> None:
    """Writes a file that must not be there yet: whole, or not at all. ``folders``: makes those that
    are missing. Raises OSError, FileExistsError where it is there."""
    if leads_out(path):
        raise OSError(errno.EPERM, "a link leads out of the repository there", path)
    if folders:
        os.makedirs(os.path.dirname(path) or ".", exist_ok=True)
    tidy(path)
    new = beside(path, "new")
    try:
        with open(new, "xb") as file:
            file.write(data)
        try:
            os.link(new, path)
        except FileExistsError:
            raise
        except OSError:  # a disk without second names
            if os.path.lexists(path):
                raise FileExistsError(errno.EEXIST, "file exists", path) from None
            os.replace(new, path)
    finally:
        with suppress(OSError):
            os.unlink(new)


def private_folder() -> tempfile.TemporaryDirectory[str]:
    """A new folder for copies that only this process reads; those of killed processes are taken
    away."""
    for found in map(_FOLDER.fullmatch, os.listdir(tempfile.gettempdir())):
        if found and not _runs(int(found[1])):
            folder = os.path.join(tempfile.gettempdir(), found[0])
            if _is_ours(folder):
                shutil.rmtree(folder, ignore_errors=True)
    return tempfile.TemporaryDirectory(prefix=f"hts-{os.getpid()}-")


def _is_ours(folder: str) -> bool:
    """Whether it is a folder, no link to one, and of this user."""
    try:
        found = os.lstat(folder)
    except OSError:
        return False
    return stat.S_ISDIR(found.st_mode) and (
        not hasattr(os, "getuid") or found.st_uid == os.getuid()
    )


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
