"""New texts beside the files they replace, private folders, and what a killed run left of them."""

from __future__ import annotations

import errno
import os
import re
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext, suppress

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
            left_over = os.path.join(folder, found[0])
            if os.path.isdir(left_over) and not os.path.islink(left_over):
                shutil.rmtree(left_over, ignore_errors=True)
                continue
            with suppress(OSError):
                os.unlink(left_over)


def is_there(path: str) -> bool:
    """Whether there is a file or folder; what a killed run left beside it is taken away."""
    if not os.path.lexists(path):
        return False
    with suppress(OSError):
        tidy(path)
    return True


def put_new(path: str, data: bytes, *, folders: bool = False) -> None:
    """Writes a file that must not be there yet: whole, or not at all. ``folders``: makes those that
    are missing. Raises OSError, FileExistsError where it is there."""
    if leads_out(path):
        raise OSError(errno.EPERM, "a link leads out of the repository there", path)
    with folders_above(path) if folders else nullcontext():
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


def put_new_folder(path: str, fill: Callable[[str], object]) -> None:
    """Makes a folder that must not be there yet: whole, or not at all. ``fill`` makes it under the
    name it is given. Raises OSError."""
    if leads_out(path):
        raise OSError(errno.EPERM, "a link leads out of the repository there", path)
    path = os.path.normpath(path)
    with folders_above(path):
        tidy(path)
        new = beside(path, "new")
        try:
            fill(new)
            os.rename(new, path)
        finally:
            shutil.rmtree(new, ignore_errors=True)


@contextmanager
def folders_above(path: str) -> Iterator[None]:
    """Makes the folders above a file that are missing, and takes them away again on an error.
    Raises OSError."""
    above = os.path.dirname(path) or "."
    missing = []
    while not os.path.lexists(above):
        missing.append(above)
        above = os.path.dirname(above) or "."
    os.makedirs(os.path.dirname(path) or ".", exist_ok=True)
    try:
        yield
    except BaseException:
        with suppress(OSError):
            for made in missing:
                os.rmdir(made)
        raise


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
