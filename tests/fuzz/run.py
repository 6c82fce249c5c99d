"""Runs a command in this process, as its entry point would."""

from __future__ import annotations

import io
import os
import signal
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import NamedTuple

from hts.cli.main import TERMINATED, main

#: Seconds of the processor for one trial: the inputs are small.
PATIENCE = 20.0


class Broken(AssertionError):
    """Something that must hold for every input did not."""


class Ran(NamedTuple):
    """How a command ended: its exit code, both streams, seconds of the processor, and the processes
    and threads it began that still run."""

    code: int
    out: str
    err: str
    seconds: float
    running: frozenset[str] = frozenset()


def run(arguments: tuple[str, ...], given: bytes = b"") -> Ran:
    """Runs `hts` with these arguments; raises what the program did not catch."""
    before = sys.argv, sys.stdin, sys.stdout, sys.stderr
    others = running()
    out, err = io.BytesIO(), io.BytesIO()
    began = time.process_time()
    handler = signal.getsignal(signal.SIGTERM)
    sys.argv = ["hts", *arguments]
    # Named here, as a stream nobody holds any more closes what it writes into.
    streams = [io.TextIOWrapper(each, "utf-8", write_through=True) for each in (out, err)]
    sys.stdin = io.TextIOWrapper(io.BytesIO(given), "utf-8")
    sys.stdout, sys.stderr = streams
    try:
        main()
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else int(end.code is not None)
        if code == TERMINATED:
            os._exit(code)  # this process was told to end, not the command alone
    finally:
        sys.argv, sys.stdin, sys.stdout, sys.stderr = before
        signal.signal(signal.SIGTERM, handler)
    seconds = time.process_time() - began
    told = (stream.getvalue().decode("utf-8") for stream in (out, err))
    return Ran(code, *told, seconds, running() - others)


@contextmanager
def alarm(seconds: float = PATIENCE) -> Iterator[None]:
    """Raises Broken in what still runs after so many seconds of the processor."""

    def ring(_signal: int, _frame: FrameType | None) -> None:
        raise Broken(f"still running after {seconds:g} s")

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def running() -> frozenset[str]:
    """The processes this one has started, by number, and its threads but for those of libraries
    that wait for work."""
    path = f"/proc/self/task/{os.getpid()}/children"
    started = []
    if os.path.exists(path):
        with open(path) as file:
            started = file.read().split()
    main = threading.main_thread()
    threads = [f"thread {one.ident}" for one in threading.enumerate() if not one.daemon]
    return frozenset([*started, *threads]) - {f"thread {main.ident}"}
