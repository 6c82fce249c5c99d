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
from hts.text import Source

SUFFIX = ".hts"


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

    @property
    def exit_code(self) -> int:
        """0 clean, 1 errors or warnings, 2 something could not be read."""
        if self.failures:
            return 2
        return int(any(finding.severity != "advice" for finding in self.findings))


def check_paths(
    paths: Iterable[str], *, today: str | None = None, stdin_path: str | None = None
) -> Results:
    """Checks files, folders and, for "-", standard input."""
    results = Results()
    loaders: dict[str, Loader] = {}
    for path in paths:
        if path == "-":
            _check_text(sys.stdin.buffer.read(), stdin_path, loaders, today, results)
            continue
        if not os.path.exists(path):
            results.failures.append(Failure(path, "there is no such file or folder"))
            continue
        root = root_of(path)
        loader = loaders.setdefault(root, Loader(root))
        found = list(files_below(path)) if os.path.isdir(path) else [path]
        if not found:
            results.failures.append(Failure(path, f"there is no {SUFFIX} file in this folder"))
        for file in found:
            try:
                source = loader.read(file)
            except Unreadable as error:
                results.failures.append(Failure(loader.name(file), str(error)))
                continue
            _check(source, loader, today, results)
    return results


def files_below(folder: str) -> Iterable[str]:
    """All specification files below a folder, by name; hidden folders are passed over."""
    for where, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if name.endswith(SUFFIX):
                yield os.path.join(where, name)


def _check_text(
    data: bytes, path: str | None, loaders: dict[str, Loader], today: str | None, results: Results
) -> None:
    name = path or "standard input"
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        results.failures.append(Failure(name, f"not UTF-8 text (byte {error.start})"))
        return
    where = os.path.abspath(path) if path else None
    root = root_of(where or os.getcwd())
    loader = loaders.setdefault(root, Loader(root))
    _check(Source(text, loader.name(where) if where else "<stdin>", where), loader, today, results)


def _check(source: Source, loader: Loader, today: str | None, results: Results) -> None:
    results.checked.append(source.name)
    results.findings += check_spec(Spec(source, loader), today)
