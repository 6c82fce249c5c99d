"""Puts reports into files: all of them or none."""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping
from contextlib import suppress

from hts.base.leftovers import beside, tidy
from hts.base.text.reading import leads_out


def save(files: Mapping[str, str]) -> None:
    """Writes texts by path, making folders where they are missing. Raises OSError.

    All texts are complete on disk before the first old file is replaced, and what was replaced is
    put back when a later one fails.
    """
    new: dict[str, str] = {}
    undo: list[tuple[str, str | None]] = []
    try:
        for path, text in files.items():
            if leads_out(path):
                raise OSError(f"{path} is a link that leads out of the repository")
            target = os.path.realpath(path)
            if os.path.lexists(target) and not os.path.isfile(target):
                raise OSError(f"{path} is not an ordinary file")
            new[target] = beside(target, "new")
            try:
                os.makedirs(os.path.dirname(target), exist_ok=True)
                tidy(target)
                with open(new[target], "x", encoding="utf-8", newline="") as file:
                    file.write(text)
            except OSError as error:  # told of the file asked for, not of the one beside it
                raise OSError(error.errno, error.strerror, path) from None
        for target, made in new.items():
            kept = beside(target, "old") if os.path.lexists(target) else None
            if kept is not None:
                _copy(target, kept)
            undo.append((target, kept))
            os.replace(made, target)  # the old file or the new one is there at every moment
    except BaseException:
        for target, kept in reversed(undo):
            if kept is not None:
                os.replace(kept, target)
                with suppress(FileNotFoundError):
                    os.unlink(kept)  # where both were names of one file, nothing was moved
            else:
                with suppress(FileNotFoundError):
                    os.unlink(target)
        for made in new.values():
            with suppress(FileNotFoundError, NotADirectoryError):
                os.unlink(made)
        raise
    for _, kept in undo:
        if kept is not None:
            os.unlink(kept)


def _copy(path: str, to: str) -> None:
    """The same file under a second name; a copy of it where the disk has no such names."""
    try:
        os.link(path, to)
    except OSError:
        shutil.copy2(path, to)
