"""What a run is to check: files found, named and read."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import (
    TABLE_ENDINGS,
    Unreadable,
    decoded,
    name_below,
    read_bytes,
    root_of,
)
from hts.checking.checker.left_out import Ignored
from hts.checking.checker.results import JointOutcomes, UncheckedFile
from hts.checking.checker.setting import PLAIN, Setting
from hts.language.model.defaults import Quieted

SUFFIX = ".hts"
STDIN = "standard input"


class Task(NamedTuple):
    """One text to check: a file, or standard input's ``data`` taken for the file ``path``.

    ``name`` is what findings call it. ``joints``: what is known of its joints from an earlier run.
    """

    root: str
    name: str
    path: str | None
    data: bytes | None = None
    setting: Setting = PLAIN
    joints: JointOutcomes | None = None

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

    def failure(self, error: Unreadable) -> UncheckedFile:
        return UncheckedFile(self.name if self.path else STDIN, str(error))


#: What is configured for the file at a path.
Settings = Callable[[str], Setting]


def plain(path: str) -> Setting:
    """Nothing configured."""
    return PLAIN


def is_table(task: Task | UncheckedFile) -> bool:
    """Whether a file named is the table of a weld list, and no specification."""
    return isinstance(task, Task) and task.name.lower().endswith(TABLE_ENDINGS)


def tasks_of(
    paths: Iterable[str],
    stdin_path: str | None = None,
    settings: Settings = plain,
    left_out: list[Quieted] | None = None,
) -> list[Task | UncheckedFile]:
    """What the paths name: files, folders and, for "-", standard input.

    A file that is reached by two ways, by name and by its folder or through a link, is there once.
    What settings leave out is put into ``left_out``.
    """
    seen: set[str] = set()
    found: list[Task | UncheckedFile] = []
    for path in dict.fromkeys(paths):
        for task, real in _tasks(path, stdin_path, settings, left_out):
            if real not in seen:
                seen.add(real)
                found.append(task)
    return found


def _tasks(
    path: str, stdin_path: str | None, settings: Settings, left_out: list[Quieted] | None
) -> Iterator[tuple[Task | UncheckedFile, str]]:
    """The tasks of a path, each with what tells it from others: where the file really lies."""
    if path == "-":
        where = os.path.abspath(stdin_path) if stdin_path else None
        near = where or os.getcwd()
        root = root_of(near)
        name = name_below(where, root) if where else "<stdin>"
        yield Task(root, name, where, sys.stdin.buffer.read(), settings(near)), "-"
        return
    if not os.path.exists(path):
        yield UncheckedFile(path, "there is no such file or folder"), f"- {path}"
        return
    root = root_of(path)
    name = name_below(path, root)
    if not os.path.isdir(path):
        yield Task(root, name, path, None, settings(path)), os.path.realpath(path)
        return
    # Names and settings are worked out once for a folder, not for each of its thousands of files.
    prefix = "" if name == "." else f"{name}/"
    known: dict[str, tuple[Setting, str]] = {}
    failed = False
    for file in files_below(path, Ignored(path)):
        if isinstance(file, UncheckedFile):
            below = file.name[len(path) :].replace(os.sep, "/").lstrip("/")
            failed = True
            yield UncheckedFile(prefix + below or file.name, file.reason), f"- {file.name}"
            continue
        folder = os.path.dirname(file)
        if folder not in known:
            known[folder] = settings(folder), os.path.realpath(folder)
        setting, real = known[folder]
        if setting.excluded is not None and setting.excludes(file):
            if left_out is not None:
                left_out.append(setting.excluded.told)
            continue
        below = file[len(path) :].replace(os.sep, "/").lstrip("/")
        there = os.path.join(real, os.path.basename(file))
        if os.path.islink(file):
            there = os.path.realpath(file)
        yield Task(root, prefix + below, file, None, setting), there
    if not known and not failed:
        yield UncheckedFile(path, f"there is no {SUFFIX} file in this folder"), f"- {path}"


def files_below(folder: str, ignored: Ignored | None = None) -> Iterator[str | UncheckedFile]:
    """All specification files below a folder, by name, and what below it could not be looked at;
    without what is ``ignored``.

    Hidden folders are passed over. No link leads out of the folder's repository: what lies there is
    not part of it, and its text is nobody's business. A link to another folder of the repository is
    not followed, since its files are found where they are.
    """
    root = os.path.join(root_of(folder), "")
    unread: list[UncheckedFile] = []

    def note(error: OSError) -> None:
        reason = (error.strerror or str(error)).lower()
        unread.append(
            UncheckedFile(error.filename or folder, f"the folder cannot be read: {reason}")
        )

    for where, folders, names in os.walk(folder, onerror=note):
        if ignored is not None:
            ignored.seen(names)
            folders[:] = [f for f in folders if os.path.join(where, f) not in ignored]
            names = [n for n in names if os.path.join(where, n) not in ignored]
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in folders:
            path = os.path.join(where, name)
            if os.path.islink(path) and not _within(path, root):
                yield UncheckedFile(path, "a link to a folder outside the repository; not followed")
        for name in sorted(names):
            if name.lower().endswith(SUFFIX):
                path = os.path.join(where, name)
                if os.path.islink(path) and os.path.exists(path) and not _within(path, root):
                    yield UncheckedFile(path, "a link to a file outside the repository; not read")
                else:
                    yield path
    yield from unread


def _within(path: str, root: str) -> bool:
    return os.path.join(os.path.realpath(path), "").startswith(root)
