"""Puts files into a folder: all of them or none."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterable, Mapping
from contextlib import suppress


def write(folder: str, files: Mapping[str, bytes], stale: Iterable[str] = ()) -> list[str]:
    """Writes the files, replacing those of the same name, and returns their paths.

    `stale` names files of an earlier run that this one does not have; they go away with it.
    Other files in the folder are left alone. The new files are complete on disk before the first
    old one is touched, and what was moved is moved back when a move fails. Raises OSError.
    """
    made = _make(folder)
    try:
        # Inside the folder, so that a move never crosses from one disk to another.
        work = tempfile.mkdtemp(prefix=".hts-", dir=folder)
        try:
            for name, data in files.items():
                _put(os.path.join(work, name), data)
            _exchange(folder, work, files, [name for name in stale if name not in files])
        finally:
            shutil.rmtree(work, ignore_errors=True)
    except OSError:
        with suppress(OSError):
            for path in made:
                os.rmdir(path)
        raise
    return [os.path.join(folder, name) for name in files]


def _make(folder: str) -> list[str]:
    """Makes the folder and those above it; returns what was made, the innermost first."""
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
    with open(path, "xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _exchange(folder: str, work: str, files: Mapping[str, bytes], stale: list[str]) -> None:
    """Moves the old files aside and the new ones in; moves all back when one move fails."""
    aside = os.path.join(work, "old")
    os.mkdir(aside)
    undo: list[tuple[str, str]] = []
    try:
        for name in (*files, *stale):
            target = os.path.join(folder, name)
            if os.path.isdir(target) and not os.path.islink(target):
                raise IsADirectoryError(f"{target} is a folder")
            if os.path.lexists(target):
                kept = os.path.join(aside, name)
                os.rename(target, kept)
                undo.append((kept, target))
            if name in files:
                os.rename(os.path.join(work, name), target)
                undo.append((target, os.path.join(work, name)))
    except BaseException:
        for came_from, went_to in reversed(undo):
            os.rename(came_from, went_to)
        raise
