"""Spreads a check over processes; nothing but texts' names and findings travels between them."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from multiprocessing import get_all_start_methods, get_context

from hts.check.files import Failure, Results, Task, check
from hts.rules.catalogue import by_subject

#: Portions per process, so that none waits long for the last one.
_PORTIONS = 4
#: Files per portion at most, so that results come back before there are too many of them.
_LARGEST = 256


def check_in_processes(
    tasks: list[Task | Failure], today: str | None, jobs: int
) -> Iterator[Results]:
    """The results of the tasks, portion by portion, in the order of the tasks.

    Raises ChildProcessError where a process was ended from outside, as for want of memory.
    """
    size = max(1, min(_LARGEST, -(-len(tasks) // (jobs * _PORTIONS))))
    portions = [tasks[start : start + size] for start in range(0, len(tasks), size)]
    # What a forked process inherits it need not read again.
    by_subject()
    forks = "fork" in get_all_start_methods() and sys.platform != "darwin"
    context = get_context("fork" if forks else "spawn")
    with ProcessPoolExecutor(max(1, min(jobs, len(portions))), context) as pool:
        try:
            yield from pool.map(partial(check, today=today), portions)
        except BrokenProcessPool:
            raise ChildProcessError("a process that checked files was ended from outside") from None


def cores() -> int:
    """Processor cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
