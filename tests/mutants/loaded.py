"""The tests of a room loaded once, and run again with each slip: only those that come by it.

    python -m tests.mutants.loaded JOB.json

is what `python -m tests.mutants` starts in a copy of the tree. The tests run once as they are,
and it is noted which of them run which lines (`lines`). Then each slip is put into the living code
of a child process (`live`), which runs the tests that come by its line until one fails. What a
child cannot show is tried in a fresh process: slips that the import runs, and all that nothing
noticed.
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
import time
from pathlib import Path
from typing import Any

import pytest
from _pytest.runner import runtestprotocol

from tests.mutants import data, live
from tests.mutants.code import Slip, apply, restore
from tests.mutants.lines import Kept, Known, Watch, around

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
        self.known: list[Known] = []
        self.steady: dict[int, bool] = {}
        self.by_import: dict[str, set[int]] = {}
        folders = {"/".join(s.path.split("/")[:2]) for s in slips}
        self.watch, self.kept = Watch(root, folders), Kept(root, folders)

    def pytest_collection(self) -> None:
        self.watch.__enter__()

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        self.watch.__exit__()
        self.by_import = {path: set(lines) for path, lines in self.watch.lines().items()}
        self.items = list(session.items)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self._learn()
        for slip in self.slips:
            row = {"slip": list(slip), "noticed": self._judge(slip)}
            with self.out.open("a", encoding="utf-8") as out:
                out.write(json.dumps(row) + "\n")
        return True

    def _learn(self) -> None:
        """What is known of each test. A child runs those that are new: what libraries start in it,
        as threads, would stand still in the children of this process."""
        child = os.fork()
        if child == 0:
            try:
                self._run_new()
            finally:
                os._exit(0)
        os.waitpid(child, 0)
        self.kept.read()
        # One that ended the child tells nothing.
        self.known = [self.kept.get(i.nodeid) or Known(passes=False) for i in self.items]

    def _run_new(self) -> None:
        """Each test once that is not known yet: what it runs, how long it works, and whether it
        passes."""
        written = time.monotonic()
        popen = subprocess.Popen.__init__
        started: list[object] = []

        def noted(*arguments: Any, **named: Any) -> None:
            started.append(arguments)
            popen(*arguments, **named)

        subprocess.Popen.__init__ = noted  # type: ignore[method-assign]
        try:
            for item in self.items:
                known = self.kept.get(item.nodeid)
                if known is None or not known.passes:
                    started.clear()
                    live.forget(self.slips[0].path.split("/")[1])
                    before = sum(os.times()[:4])
                    with self.watch:
                        passes = _passes(item)
                    known = Known(
                        self.watch.lines(), sum(os.times()[:4]) - before, passes, bool(started)
                    )
                    self.kept.put(item.nodeid, known)
                    if time.monotonic() - written > 10:
                        self.kept.write()
                        written = time.monotonic()
        finally:
            subprocess.Popen.__init__ = popen  # type: ignore[method-assign]
            self.kept.write()

    def _judge(self, slip: Slip) -> str:
        passing = {n for n, known in enumerate(self.known) if known.passes}
        if slip.path.endswith(".yaml"):
            # Whatever reads data keeps it, so that no line tells which test has to do with it, and
            # tests that read it as they are imported see it in a fresh process alone.
            imported, chosen = True, passing
        else:
            lines = set(around(self.root, slip))
            imported = live.holder(self.root, slip) is None
            imported = imported or bool(lines & self.by_import.get(slip.path, set()))
            chosen = {n for n in passing if lines & set(self.known[n].lines.get(slip.path, ()))}
        before = _make(self.root, slip)
        try:
            if chosen:
                found = self._in_child(slip, before, self._order(slip, chosen))
                if found:
                    return found
            if imported:
                # A table that an import makes shows in tests that run nothing of its file, too.
                chosen = passing
            elif self.quick:
                return _NOTHING
            chosen = chosen | {n for n in passing if self.known[n].starts}
            return self._fresh(self._order(slip, chosen), before, slip)
        finally:
            _unmake(self.root, slip, before)

    def _order(self, slip: Slip, chosen: set[int]) -> list[int]:
        """Its own tests first, of a rule those of its name, then those that run something of the
        file, and the short ones before the long; no more than are run in the time there is, but
        always what the whole room tells, which is long and notices most."""
        stem = Path(slip.path).stem
        own = (f"test_{stem}.py", f"[{stem.replace('_', '-')}]")
        ordered = sorted(
            chosen, key=lambda n: (not any(name in self.items[n].nodeid for name in own),
                                   slip.path not in self.known[n].lines,
                                   self.known[n].starts, self.known[n].seconds)
        )  # fmt: skip
        some: list[int] = []
        left = float(self.most)
        for number in ordered:
            left -= self.known[number].seconds
            if not some or left >= 0 or "/test_told.py" in self.items[number].nodeid:
                some.append(number)
        return some

    def _in_child(self, slip: Slip, before: str, chosen: list[int]) -> str:
        told = self._child(chosen, slip)
        if not told.isdigit():
            return told
        number = int(told)
        if number not in self.steady:
            _unmake(self.root, slip, before)
            self.steady[number] = self._child([number], None) == _NOTHING
            _make(self.root, slip)
        if self.steady[number]:
            return str(self.items[number].nodeid)
        return self._in_child(slip, before, [n for n in chosen if n != number])

    def _child(self, chosen: list[int], slip: Slip | None) -> str:
        """What a child process makes of these tests: nothing, the number of the one that fails,
        `no end`, or `?` where it stands still."""
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            self._run(chosen, slip, writing)
        os.close(writing)
        expected = sum(self.known[n].seconds for n in chosen)
        try:
            told = _last(reading, time.monotonic() + 60 + 8 * min(expected, self.most))
        except TimeoutError:
            told = "?"
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
            expected = int(sum(self.known[n].seconds for n in chosen))
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
        named = {self.items[n].nodeid: n for n in chosen}
        ended, failed = told(self.root, 4 * self.most, *named)
        if ended in FINE:
            return ""
        if ended in OUT_OF_TIME:
            return "no end"
        _unmake(self.root, slip, before)
        # What fails without the slip, too, tells nothing of it.
        sound = run(self.root, 4 * self.most, *PYTEST, *(failed or named)) in FINE
        _make(self.root, slip)
        if sound:
            return failed[0] if failed else "a fresh process"
        left = [n for name, n in named.items() if name not in failed]
        return self._fresh(left, before, slip) if failed and len(left) < len(named) else "?"


def _make(root: Path, slip: Slip) -> str:
    """Makes the slip in the files; returns the text that stood there."""
    before = apply(root, slip)
    if slip.path.endswith(".yaml"):
        data.compiled(root, slip)
    return before


def _unmake(root: Path, slip: Slip, before: str) -> None:
    restore(root, slip, before)
    if slip.path.endswith(".yaml"):
        data.compiled(root, slip)


def _passes(item: Any) -> bool:
    item._initrequest()
    return not any(r.failed for r in runtestprotocol(item, log=False, nextitem=None))


def _last(reading: int, until: float) -> str | None:
    """The line a child writes at its end, None where it ends without one. Raises TimeoutError."""
    text = b""
    while not text.endswith(b"\n"):
        ready, _, _ = select.select([reading], [], [], max(0.0, until - time.monotonic()))
        if not ready:
            raise TimeoutError
        got = os.read(reading, 4096)
        if not got:
            return None
        text += got
    return text.decode().strip()


def run(root: Path, most: int, *arguments: str) -> int:
    """How a run of Python in this tree ends. `most` seconds of work, so that a busy machine makes
    no difference."""
    return _process(root, most, *arguments).returncode


def told(root: Path, most: int, *tests: str) -> tuple[int, list[str]]:
    """How a run of these tests ends, and those that failed or could not be run."""
    done = _process(root, most, *PYTEST, "--tb=no", "-rfE", *tests)
    begun = [line.split(" ", 1)[1] for line in done.stdout.splitlines()
             if line.startswith(("FAILED ", "ERROR "))]  # fmt: skip
    failed = [test for test in tests if any(f"{line} ".startswith(f"{test} ") for line in begun)]
    return done.returncode, failed


def _process(root: Path, most: int, *arguments: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": str(root), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, *arguments], cwd=root, env=environment, check=False,
        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (most, most + 5)),
    )  # fmt: skip


def main() -> None:
    job = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    slips = [Slip(*slip) for slip in job["slips"]]
    room = Room(Path.cwd(), slips, job["most"], Path(job["out"]), job["quick"])
    pytest.main(["-q", "-n", "0", "-W", "ignore", *job["tests"]], plugins=[room])


if __name__ == "__main__":
    main()
