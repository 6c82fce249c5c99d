"""Checks many files: finds them, reads each once, keeps their order."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from typing import NamedTuple

from hts.check.run import check_spec
from hts.findings import Finding
from hts.model import Loader, Spec
from hts.model.load import Unreadable, root_of
from hts.text import BYTE_ORDER_MARK, Source

SUFFIX = ".hts"
STDIN = "standard input"
#: Up to this many files, starting further processes costs more time than it saves.
FEW = 64


class Failure(NamedTuple):
    """A path that could not be read, and why."""

    name: str
    reason: str


class Results:
    """Findings of all files, in the order of the files' names."""

    __slots__ = ("checked", "failures", "findings")

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.failures: list[Failure] = []
        self.checked: list[str] = []

    def extend(self, more: Results) -> None:
        self.findings += more.findings
        self.failures += more.failures
        self.checked += more.checked

    @property
    def exit_code(self) -> int:
        """0 clean, 1 errors or warnings, 2 something could not be read."""
        if self.failures:
            return 2
        return int(any(finding.severity != "advice" for finding in self.findings))


class Task(NamedTuple):
    """One text to check: a file, or standard input's ``data`` taken for the file ``path``."""

    root: str
    path: str | None
    data: bytes | None = None


def check_paths(
    paths: Iterable[str],
    *,
    today: str | None = None,
    stdin_path: str | None = None,
    jobs: int | None = None,
) -> Results:
    """Checks files, folders and, for "-", standard input.

    ``jobs`` is the number of processes; None means one for a few files, every core for many. The
    results are the same, in the same order, for any number.
    """
    # What is named twice, as a file and by its folder, is checked once.
    tasks = list(
        dict.fromkeys(t for path in dict.fromkeys(paths) for t in _tasks(path, stdin_path))
    )
    if jobs == 1 or (jobs is None and len(tasks) <= FEW):
        return check(tasks, today)
    from hts.check.processes import check_in_processes, cores

    results = Results()
    for part in check_in_processes(tasks, today, jobs or cores()):
        results.extend(part)
    return results


def check(tasks: Iterable[Task | Failure], today: str | None) -> Results:
    """Checks texts one after another; a library they share is read once."""
    results = Results()
    loaders: dict[str, Loader] = {}
    for task in tasks:
        if isinstance(task, Failure):
            results.failures.append(task)
            continue
        loader = loaders.setdefault(task.root, Loader(task.root))
        try:
            source = _source(task, loader)
        except Unreadable as error:
            name = loader.name(task.path) if task.path else STDIN
            results.failures.append(Failure(name, str(error)))
            continue
        results.checked.append(source.name)
        results.findings += check_spec(Spec(source, loader), today)
    return results


def _tasks(path: str, stdin_path: str | None) -> Iterable[Task | Failure]:
    if path == "-":
        where = os.path.abspath(stdin_path) if stdin_path else None
        yield Task(root_of(where or os.getcwd()), where, sys.stdin.buffer.read())
        return
    if not os.path.exists(path):
        yield Failure(path, "there is no such file or folder")
        return
    found = list(files_below(path)) if os.path.isdir(path) else [path]
    if not found:
        yield Failure(path, f"there is no {SUFFIX} file in this folder")
    root = root_of(path)
    for file in found:
        yield Task(root, file)


def files_below(folder: str) -> Iterable[str]:
    """All specification files below a folder, by name; hidden folders are passed over."""
    for where, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if name.endswith(SUFFIX):
                yield os.path.join(where, name)


def _source(task: Task, loader: Loader) -> Source:
    """The text of a task. Raises Unreadable."""
    if task.data is None:
        assert task.path is not None
        return loader.read(task.path)
    try:
        text = task.data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise Unreadable(f"not UTF-8 text (byte {error.start})") from None
    name = loader.name(task.path) if task.path else "<stdin>"
    return Source(text.removeprefix(BYTE_ORDER_MARK), name, task.path)
