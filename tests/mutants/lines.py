"""Which test comes by which line, kept between runs as long as neither changes."""

from __future__ import annotations

import ast
import hashlib
import json
import sys
import tempfile
import threading
import types
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from tests.mutants.code import Slip


@dataclass
class Known:
    """Of one test: the `lines` it runs by path, its `seconds` of work, whether it `passes`, and
    whether it `starts` other processes."""

    lines: dict[str, list[int]] = field(default_factory=dict)
    seconds: float = 0.0
    passes: bool = True
    starts: bool = False


class Watch:
    """Notes each line of the files below `folders` (from `root`) that is run while it is on."""

    def __init__(self, root: Path, folders: Iterable[str]) -> None:
        self._root = f"{root}/"
        self._starts = tuple(f"{root}/{folder}" for folder in folders)
        self._left: dict[types.CodeType, set[int] | None] = {}
        self._seen: set[tuple[str, int]] = set()

    def __enter__(self) -> Watch:
        self._left, self._seen = {}, set()
        threading.settrace(self._called)
        sys.settrace(self._called)
        return self

    def __exit__(self, *ended: object) -> None:
        sys.settrace(None)
        threading.settrace(None)  # type: ignore[arg-type]

    def lines(self) -> dict[str, list[int]]:
        """What was run, by path from the root."""
        found: dict[str, list[int]] = {}
        for path, line in sorted(self._seen):
            found.setdefault(path[len(self._root) :], []).append(line)
        return found

    def _called(self, frame: types.FrameType, event: str, argument: object) -> Any:
        code = frame.f_code
        if code not in self._left:
            ours = code.co_filename.startswith(self._starts)
            self._left[code] = {n for *_, n in code.co_lines() if n} if ours else None
        return self._line if self._left[code] else None

    def _line(self, frame: types.FrameType, event: str, argument: object) -> Any:
        left = self._left[frame.f_code]
        if left and frame.f_lineno in left:
            left.discard(frame.f_lineno)
            self._seen.add((frame.f_code.co_filename, frame.f_lineno))
        if not left:
            frame.f_trace_lines = False
        return self._line


class Kept:
    """What is known of the tests of `folders`, in a file of the folder for passing things. It lasts
    as long as the test, what tests share, and the files the test runs lines of are the same."""

    def __init__(self, root: Path, folders: Iterable[str]) -> None:
        self._root = root
        about = hashlib.sha256(" ".join(sorted(folders)).encode())
        for path in sorted(root.glob("tests/**/*.py")):
            if not path.name.startswith("test_"):
                about.update(path.read_bytes())
        self._file = (
            Path(tempfile.gettempdir()) / f"hts-mutants-lines-{about.hexdigest()[:16]}.json"
        )
        self._digests: dict[str, str] = {}
        self.read()

    def read(self) -> None:
        self._rows = json.loads(self._file.read_text()) if self._file.exists() else {}

    def get(self, test: str) -> Known | None:
        row = self._rows.get(test)
        if row is None or any(self._digest(path) != was for path, was in row["files"].items()):
            return None
        return Known(**row["known"])

    def put(self, test: str, known: Known) -> None:
        files = {path: self._digest(path) for path in (test.partition("::")[0], *known.lines)}
        self._rows[test] = {"files": files, "known": asdict(known)}

    def write(self) -> None:
        mine = self._rows
        self.read()
        self._rows.update(mine)
        self._file.write_text(json.dumps(self._rows), encoding="utf-8")

    def _digest(self, path: str) -> str:
        """Of a file as it was first seen, before any slip."""
        if path not in self._digests:
            file = self._root / path
            content = file.read_bytes() if file.exists() else b""
            self._digests[path] = hashlib.sha256(content).hexdigest()[:12]
        return self._digests[path]


def around(root: Path, slip: Slip) -> range:
    """The lines of the smallest statement the slip is in; of one with a body, those of its head."""
    tree = ast.parse((root / slip.path).read_text(encoding="utf-8"))
    found = range(slip.line, slip.line + 1)
    for node in _statements(tree):
        if node.lineno <= slip.line <= (node.end_lineno or node.lineno):
            body = getattr(node, "body", None)
            last = max(node.lineno, body[0].lineno - 1) if body else node.end_lineno
            if slip.line <= (last or node.lineno):
                found = range(node.lineno, (last or node.lineno) + 1)
    return found


def _statements(node: ast.AST) -> Iterator[ast.stmt]:
    """Outer ones before inner ones."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.stmt):
            yield child
        yield from _statements(child)
