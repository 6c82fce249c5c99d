"""What a run is to check: files found, named and read."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable, decoded, name_below, read_bytes, root_of
from hts.checking.checker.results import Failure
from hts.checking.checker.setting import PLAIN, Setting

SUFFIX = ".hts"
STDIN = "standard input"


class Task(NamedTuple):
    """One text to check: a file, or standard input's ``data`` taken for the file ``path``.

    ``name`` is what findings call it.
    """

    root: str
    name: str
    path: str | None
    data: bytes | None = None
    setting: Setting = PLAIN

    def read(self) -> bytes:
        """The bytes of the text. Raises Unreadable."""
        if self.data is not None:
            return self.data
        assert self.path is not None
        return read_bytes(self.path)

    def source(self, data: bytes) -> Source:
        """The text in those bytes. Raises Unreadable."""
        text = decoded(data).removeprefix(BYTE_ORDER_MARK)
        return Source(text, self.name, os.path.abspath(self.path) if self.path else None)

    def failure(self, error: Unreadable) -> Failure:
        return Failure(self.name if self.path else STDIN, str(error))


#: What is configured for the file at a path.
Settings = Callable[[str], Setting]


def plain(path: str) -> Setting:
    """Nothing configured."""
    return PLAIN


def tasks_of(
    paths: Iterable[str], stdin_path: str | None = None, settings: Settings = plain
) -> list[Task | Failure]:
    """What the paths name: files, folders and, for "-", standard input.

    What is named twice, as a file and by its folder, is there once.
    """
    found = (task for path in dict.fromkeys(paths) for task in _tasks(path, stdin_path, settings))
    return list(dict.fromkeys(found))


def _tasks(path: str, stdin_path: str | None, settings: Settings) -> Iterator[Task | Failure]:
    if path == "-":
        where = os.path.abspath(stdin_path) if stdin_path else None
        near = where or os.getcwd()
        root = root_of(near)
        name = name_below(where, root) if where else "<stdin>"
        yield Task(root, name, where, sys.stdin.buffer.read(), settings(near))
        return
    if not os.path.exists(path):
        yield Failure(path, "there is no such file or folder")
        return
    root = root_of(path)
    name = name_below(path, root)
    if not os.path.isdir(path):
        yield Task(root, name, path, None, settings(path))
        return
    # Names and settings are worked out once for a folder, not for each of its thousands of files.
    prefix = "" if name == "." else f"{name}/"
    known: dict[str, Setting] = {}
    for file in files_below(path):
        folder = os.path.dirname(file)
        if folder not in known:
            known[folder] = settings(folder)
        below = file[len(path) :].replace(os.sep, "/").lstrip("/")
        yield Task(root, prefix + below, file, None, known[folder])
    if not known:
        yield Failure(path, f"there is no {SUFFIX} file in this folder")


def files_below(folder: str) -> Iterator[str]:
    """All specification files below a folder, by name; hidden folders are passed over."""
    for where, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if name.endswith(SUFFIX):
                yield os.path.join(where, name)
