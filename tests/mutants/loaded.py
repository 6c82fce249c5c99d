"""The tests of a room loaded once, and run again with each slip: only those that come by it.

    python -m tests.mutants.loaded JOB.json

is what `python -m tests.mutants` starts in a copy of the tree. The tests run once as they are,
and it is noted which of them call which function. Then each slip is put into the living code of a
child process (`live`), which runs the tests that call its function until one fails. What a child
cannot show is tried in a fresh process: slips that the import runs, and all that nothing noticed.
"""

from __future__ import annotations

import json
import os
import resource
import select
import signal
import subprocess
import sys
import tempfile
import threading
import time
import types
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest
from _pytest.runner import runtestprotocol

from tests.mutants import live
from tests.mutants.code import Slip, apply, restore

#: What a process of tests ends with where all passed, and where none were chosen.
FINE = (0, 5)
#: What a process ends with that has used up its seconds.
OUT_OF_TIME = (-signal.SIGXCPU, -signal.SIGKILL)
PYTEST = ("-m", "pytest", "-x", "-q", "-n", "0")
_NOTHING = ""


class Room:
    """A plugin that takes the place of the run: `slips` of `root` judged by the tests collected."""

    def __init__(
        self, root: Path, slips: list[Slip], most: int, out: Path, quick: bool = False
    ) -> None:
        self.root, self.slips, self.most, self.out, self.quick = root, slips, most, out, quick
        self.items: list[Any] = []
        self.seconds: list[float] = []
        self.calls: dict[tuple[str, live.Key], list[int]] = {}
        self.starts_others: set[int] = set()
        self.steady: dict[int, bool] = {}
        self.by_import: set[tuple[str, live.Key]] = set()
        self._importing: set[types.CodeType] = set()

    def watch(self, seen: set[types.CodeType]) -> None:
        """Notes the code of each function that is called from now on."""

        def called(frame: types.FrameType, event: str, argument: object) -> None:
            seen.add(frame.f_code)

        threading.settrace(called)
        sys.settrace(called)

    def unwatch(self) -> None:
        sys.settrace(None)
        threading.settrace(None)  # type: ignore[arg-type]

    def _own(self, seen: Iterable[types.CodeType]) -> set[tuple[str, live.Key]]:
        start = f"{self.root}/hts/"
        return {
            (code.co_filename[len(str(self.root)) + 1 :], live.key(code))
            for code in seen
            if code.co_filename.startswith(start)
        }

    def pytest_collection(self) -> None:
        self.watch(self._importing)

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        self.unwatch()
        self.by_import = self._own(self._importing)
        self.items = list(session.items)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self._learn()
        for slip in self.slips:
            row = {"slip": list(slip), "noticed": self._judge(slip)}
            with self.out.open("a", encoding="utf-8") as out:
                out.write(json.dumps(row) + "\n")
        return True

    def _learn(self) -> None:
        """Each test once: what it calls, how long it works, and whether it passes."""
        popen = subprocess.Popen.__init__
        number = 0

        def noted(*arguments: Any, **named: Any) -> None:
            self.starts_others.add(number)
            popen(*arguments, **named)

        subprocess.Popen.__init__ = noted  # type: ignore[method-assign, assignment]
        try:
            for number, item in enumerate(self.items):
                seen: set[types.CodeType] = set()
                before = sum(os.times()[:4])
                self.watch(seen)
                passed = _passes(item)
                self.unwatch()
                self.seconds.append(sum(os.times()[:4]) - before)
                for called in self._own(seen) if passed else ():
                    self.calls.setdefault(called, []).append(number)
                if not passed:
                    self.starts_others.discard(number)
        finally:
            subprocess.Popen.__init__ = popen  # type: ignore[method-assign]

    def _judge(self, slip: Slip) -> str:
        function = live.holder(self.root, slip)
        chosen = set(self.calls.get((slip.path, function), ())) if function else set()
        before = apply(self.root, slip)
        try:
            if chosen:
                found = self._in_child(slip, self._order(slip, chosen))
                if found:
                    return found
                if self.quick and (slip.path, function) not in self.by_import:
                    return _NOTHING
            if function is None or (slip.path, function) in self.by_import:
                # A table that an import makes shows in tests that call nothing of its file, too.
                chosen = set(range(len(self.items)))
            return self._fresh(self._order(slip, chosen | self.starts_others), before, slip)
        finally:
            restore(self.root, slip, before)

    def _order(self, slip: Slip, chosen: set[int]) -> list[int]:
        """Its own tests first, then those that call something of the file, and the short ones
        before the long; no more than are run in the time there is."""
        own = f"test_{Path(slip.path).stem}.py"
        used = {n for (path, _), s in self.calls.items() if path == slip.path for n in s}
        ordered = sorted(
            chosen, key=lambda n: (own not in self.items[n].nodeid, n not in used,
                                   n in self.starts_others, self.seconds[n])
        )  # fmt: skip
        left, some = float(self.most), []
        for number in ordered:
            left -= self.seconds[number]
            if some and left < 0:
                break
            some.append(number)
        return some

    def _in_child(self, slip: Slip, chosen: list[int]) -> str:
        told = self._child(chosen, slip)
        if told == _NOTHING or not told.isdigit():
            return told
        number = int(told)
        if number not in self.steady:
            after = (self.root / slip.path).read_text(encoding="utf-8")
            self.steady[number] = self._child([number], None) == _NOTHING
            (self.root / slip.path).write_text(after, encoding="utf-8")
        if self.steady[number]:
            return str(self.items[number].nodeid)
        return self._in_child(slip, [n for n in chosen if n != number])

    def _child(self, chosen: list[int], slip: Slip | None) -> str:
        """What a child process makes of these tests: nothing, the number of the one that fails, or
        `no end`."""
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            self._run(chosen, slip, writing)
        os.close(writing)
        expected = sum(self.seconds[n] for n in chosen)
        try:
            told = _last(reading, time.monotonic() + 60 + 40 * expected)
        finally:
            os.close(reading)
            try:
                os.killpg(child, signal.SIGKILL)
            except ProcessLookupError:
                os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
        return "no end" if told is None else told

    def _run(self, chosen: list[int], slip: Slip | None, writing: int) -> None:
        told = "crash"
        try:
            os.setsid()
            expected = int(sum(self.seconds[n] for n in chosen))
            resource.setrlimit(resource.RLIMIT_CPU, (10 + 4 * expected, 15 + 4 * expected))
            os.environ["HTS_CACHE_DIR"] = tempfile.mkdtemp(dir=self.root)
            if slip is not None:
                live.put(self.root, slip)
            failed = next((n for n in chosen if not _passes(self.items[n])), None)
            told = "" if failed is None else str(failed)
        finally:
            os.write(writing, f"{told}\n".encode())
            os._exit(0)

    def _fresh(self, chosen: list[int], before: str, slip: Slip) -> str:
        """The same in a process that imports the changed file."""
        if not chosen:
            return ""
        named = [self.items[n].nodeid for n in chosen]
        ended = run(self.root, 4 * self.most, *PYTEST, *named)
        if ended in FINE:
            return ""
        restore(self.root, slip, before)
        sound = run(self.root, 4 * self.most, *PYTEST, *named) in FINE
        apply(self.root, slip)
        if not sound:
            return "?"
        return "no end" if ended in OUT_OF_TIME else "a fresh process"


def _passes(item: Any) -> bool:
    item._initrequest()
    return not any(r.failed for r in runtestprotocol(item, log=False, nextitem=None))


def _last(reading: int, until: float) -> str | None:
    """The line a child writes at its end, None where it ends without one or not in time."""
    text = b""
    while not text.endswith(b"\n"):
        ready, _, _ = select.select([reading], [], [], max(0.0, until - time.monotonic()))
        got = os.read(reading, 4096) if ready else b""
        if not got:
            return None
        text += got
    return text.decode().strip()


def run(root: Path, most: int, *arguments: str) -> int:
    """How a run of Python in this tree ends. `most` seconds of work, so that a busy machine makes
    no difference."""
    environment = {**os.environ, "PYTHONPATH": str(root), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, *arguments], cwd=root, env=environment, check=False,
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (most, most + 5)),
    ).returncode  # fmt: skip


def main() -> None:
    job = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    slips = [Slip(*slip) for slip in job["slips"]]
    room = Room(Path.cwd(), slips, job["most"], Path(job["out"]), job["quick"])
    pytest.main(["-q", "-n", "0", "-W", "ignore", *job["tests"]], plugins=[room])


if __name__ == "__main__":
    main()
