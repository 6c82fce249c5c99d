"""Puts reports into files: all of them or none."""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping
from contextlib import ExitStack, suppress

from hts.base.leftovers import beside, folders_above, tidy
from hts.base.text.reading import leads_out


def save(files: Mapping[str, str]) -> None:
    """Writes texts by path, making folders where they are missing. Raises OSError.

    All texts are complete on disk before the first old file is replaced, and what was replaced is
    put back when a later one fails.
    """
    with ExitStack() as made_for_them:
        _save(files, made_for_them)


def _save(files: Mapping[str, str], made_for_them: ExitStack) -> None:
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
                made_for_them.enter_context(folders_above(target))
                tidy(target)
                with open(new[target], "x", encoding="utf-8", newline="") as file:
                    file.write(text)
            except OSError as error:  # told of the file asked for, not of the one beside it
                raise OSError(error.errno, error.strerror, path) from None
        for target, made in new.items():
            there = os.path.lexists(target)
            if there and len(new) > 1:
                undo.append((target, second := beside(target, "old")))
                _copy(target, second)
            elif not there:
                undo.append((target, None))
            os.replace(made, target)  # the old file or the new one is there at every moment
    except BaseException:
        for target, kept in reversed(undo):
            if kept is not None:
                if os.path.lexists(kept):
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
