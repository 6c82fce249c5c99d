"""Puts files into a folder: all of them or none, however the run ends.

The new files are complete on disk, in a work folder inside the folder, before the first old one is
touched. A journal then says that they are to go in; where a run is killed between two moves, the
next one finishes what the journal says. An old file is replaced in one step and never away in
between. Two runs never write into one folder at once.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress

from hts.base.text.reading import leads_out

try:
    import fcntl
except ImportError:  # a system without it
    fcntl = None  # type: ignore[assignment]

_PREFIX = ".hts-"
#: In a work folder: the names to move in and those to take away. Complete once it is there.
_READY = "journal"
#: The same journal, of a run that failed and puts back what was there before.
_BACK = "back"
_OLD = "old"


def write(folder: str, files: Mapping[str, bytes], stale: Iterable[str] = ()) -> list[str]:
    """Writes the files, replacing those of the same name, and returns their paths.

    A name may have one folder before it, as `W12/tags.md`.
    `stale` names files of an earlier run that this one does not have; they go away with it, and
    folders that are empty then.
    Other files in the folder are left alone. Where a move fails all is put back as it was. Raises
    OSError, BlockingIOError where another run is writing into the folder.
    """
    made = _make(folder)
    try:
        with _alone(folder):
            finish(folder)
            # Inside the folder, so that a move never crosses from one disk to another.
            work = tempfile.mkdtemp(prefix=_PREFIX, dir=folder)
            try:
                for name, data in files.items():
                    _put(os.path.join(work, name), data)
                gone = [name for name in dict.fromkeys(stale) if name not in files]
                _exchange(folder, work, list(files), gone)
            finally:
                _tidy(work)
    except BaseException:
        with suppress(OSError):
            for path in made:
                os.rmdir(path)
        raise
    return [os.path.join(folder, name) for name in files]


def settle(folder: str) -> None:
    """Ends what a killed run had begun in the folder, where there is one. Raises as `write`."""
    if os.path.isdir(folder) and not leads_out(folder) and _is_unsettled(folder):
        with _alone(folder):
            finish(folder)


def _is_unsettled(folder: str) -> bool:
    return any(name.startswith(_PREFIX) for name in os.listdir(folder))


def finish(folder: str) -> None:
    """Ends what a killed run had begun in the folder: forward where its journal was complete, back
    where it was putting things back; what had not come so far is taken away. Raises OSError."""
    for name in sorted(os.listdir(folder)):
        work = os.path.join(folder, name)
        if not name.startswith(_PREFIX) or not os.path.isdir(work) or os.path.islink(work):
            continue
        forward, back = _journal(work, _READY), _journal(work, _BACK)
        if forward is not None:
            _move_in(folder, work, *forward)
        elif back is not None:
            _put_back(folder, work, *back)
        shutil.rmtree(work, ignore_errors=True)


@contextmanager
def _alone(folder: str) -> Iterator[None]:
    """Keeps other runs out of the folder until it ends; the system lets go for a killed one."""
    if fcntl is None:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise BlockingIOError(
                error.errno, "another run is writing into this folder; try again", folder
            ) from None
        yield
    finally:
        os.close(handle)


def _make(folder: str) -> list[str]:
    """Makes the folder and those above it; returns what was made, the innermost first."""
    if leads_out(folder):
        # It may have come with a change, to have something written where nobody looks.
        raise NotADirectoryError(
            "a link leads out of the repository there; name the folder it leads to"
        )
    missing = []
    path = os.path.abspath(folder)
    while not os.path.lexists(path):
        missing.append(path)
        path = os.path.dirname(path)
    try:
        os.makedirs(folder, exist_ok=True)
    except (FileExistsError, NotADirectoryError):
        raise NotADirectoryError("a file is in the way; name another folder") from None
    return missing


def _put(path: str, data: bytes) -> None:
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _exchange(folder: str, work: str, names: list[str], stale: list[str]) -> None:
    """Moves the new files in; puts all back when a move fails."""
    aside = os.path.join(work, _OLD)
    os.mkdir(aside)
    for name in (*names, *stale):
        target = os.path.join(folder, name)
        if os.path.isdir(target) and not os.path.islink(target):
            raise IsADirectoryError(f"{target} is a folder")
        above = os.path.dirname(target)
        if os.path.islink(above) and os.path.dirname(name):
            # What it leads to is nobody's to write into.
            raise NotADirectoryError(f"{above} is a link")
        if os.path.lexists(target):
            _keep(target, os.path.join(aside, name))
    _put(os.path.join(work, "new"), json.dumps([names, stale]).encode())
    os.replace(os.path.join(work, "new"), os.path.join(work, _READY))
    try:
        _move_in(folder, work, names, stale)
    except BaseException:
        os.replace(os.path.join(work, _READY), os.path.join(work, _BACK))
        _put_back(folder, work, names, stale)
        os.unlink(os.path.join(work, _BACK))
        raise
    os.unlink(os.path.join(work, _READY))


def _keep(path: str, kept: str) -> None:
    """A second name for a file, or a copy where the disk has no second names."""
    os.makedirs(os.path.dirname(kept), exist_ok=True)
    try:
        os.link(path, kept, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(path, kept, follow_symlinks=False)


def _move_in(folder: str, work: str, names: list[str], stale: list[str]) -> None:
    """Every step can be done again: what has been moved is not there any more."""
    for name in names:
        new = os.path.join(work, name)
        if os.path.lexists(new):
            target = os.path.join(folder, name)
            os.makedirs(os.path.dirname(target), exist_ok=True)
            os.replace(new, target)
    for name in stale:
        with suppress(FileNotFoundError, NotADirectoryError):
            os.unlink(os.path.join(folder, name))
    _remove_empty(folder, stale)


def _remove_empty(folder: str, names: Iterable[str]) -> None:
    """Takes away the folders of these names that nothing is left in."""
    for inner in dict.fromkeys(os.path.dirname(name) for name in names):
        if inner:
            with suppress(OSError):
                os.rmdir(os.path.join(folder, inner))


def _put_back(folder: str, work: str, names: list[str], stale: list[str]) -> None:
    for name in (*names, *stale):
        target, kept = os.path.join(folder, name), os.path.join(work, _OLD, name)
        if os.path.lexists(kept):
            os.makedirs(os.path.dirname(target), exist_ok=True)
            os.replace(kept, target)
        elif name in names and not os.path.lexists(os.path.join(work, name)):
            with suppress(FileNotFoundError):
                os.unlink(target)
    _remove_empty(folder, names)


def _journal(work: str, name: str) -> tuple[list[str], list[str]] | None:
    try:
        with open(os.path.join(work, name), "rb") as file:
            said = json.loads(file.read())
    except (OSError, ValueError, RecursionError):
        return None
    # Lists of plain names and nothing else: a folder may have come with a checkout.
    if not isinstance(said, list) or not all(isinstance(names, list) for names in said):
        return None
    if len(said) != 2 or not all(_plain(name) for names in said for name in names):
        return None
    return said[0], said[1]


def _plain(name: object) -> bool:
    """Whether it is the name of a file, or of one in a folder of one joint."""
    if not isinstance(name, str):
        return False
    parts = name.split("/")
    return len(parts) <= 2 and all(
        part and part == os.path.basename(part) and part[0] != "." and "\\" not in part
        for part in parts
    )


def _tidy(work: str) -> None:
    # A journal that still stands is for the next run to finish.
    if not any(os.path.exists(os.path.join(work, name)) for name in (_READY, _BACK)):
        shutil.rmtree(work, ignore_errors=True)
