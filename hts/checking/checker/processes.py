"""Spreads a check over processes; nothing but texts' names and findings travels between them."""

from __future__ import annotations

import gc
import os
import signal
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from functools import partial
from multiprocessing import get_all_start_methods, get_context
from threading import Thread

from hts.checking.checker.outcome import outcomes
from hts.checking.checker.packs import checks
from hts.checking.checker.results import Outcome, UncheckedFile
from hts.checking.checker.tasks import Task

#: s between two looks whether the parent is still there.
_LOOK_EVERY = 0.5
#: Portions per process, so that none waits long for the last one.
_PORTIONS = 4
#: Of many files, those checked before there are other processes.
_FIRST = 8
#: Files per portion at most, so that results come back before there are too many of them.
_LARGEST = 256


def check_in_processes(
    tasks: list[Task | UncheckedFile], today: str | None, jobs: int, keep: bool = False
) -> Iterator[Outcome | UncheckedFile]:
    """The outcomes of the tasks, in the order of the tasks.

    Raises ChildProcessError where a process was killed, as for want of memory, and
    PackError.
    """
    # What a forked process inherits it need not read again: rules, and the books and tables that
    # the first files ask for.
    for packs in {task.setting.rule_packs for task in tasks if isinstance(task, Task)}:
        checks(packs)
    few = min(_FIRST, len(tasks) // 16)
    first, tasks = tasks[:few], tasks[few:]
    yield from outcomes(first, today, keep)
    size = max(1, min(_LARGEST, -(-len(tasks) // (jobs * _PORTIONS))))
    portions = [tasks[start : start + size] for start in range(0, len(tasks), size)]
    # Nor need it look for cycles among it, over and over, in every process.
    gc.freeze()
    try:
        with pool_of(max(1, min(jobs, len(portions))), "checking files") as pool:
            for portion in pool.map(partial(outcomes, today=today, keep=keep), portions):
                yield from portion
    finally:
        gc.unfreeze()


@contextmanager
def pool_of(
    jobs: int, doing: str, begin: Callable[[], None] | None = None, *, forks: bool = True
) -> Iterator[ProcessPoolExecutor]:
    """So many processes, which end with this one; each first does `begin`. `forks` False: they
    share nothing with this one, as threads of a library would not survive it.

    Raises ChildProcessError where one was killed, which says what it was `doing`.
    """
    forks = forks and "fork" in get_all_start_methods() and sys.platform != "darwin"
    context = get_context("fork" if forks else "spawn")
    with ProcessPoolExecutor(
        jobs, context, initializer=_begin, initargs=(os.getpid(), begin)
    ) as pool:
        try:
            yield pool
        except BrokenProcessPool:
            raise ChildProcessError(f"a process that was {doing} was killed") from None
        except BaseException:
            # What has not begun need not be done any more.
            pool.shutdown(wait=False, cancel_futures=True)
            raise


def _begin(parent: int, begin: Callable[[], None] | None) -> None:
    _end_with(parent)
    if begin is not None:
        begin()


def _end_with(parent: int) -> None:
    """Ends this process soon after the one that started it, however that ended."""
    # An interruption is the parent's to answer: it tells the others.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(_LOOK_EVERY)
        os._exit(1)

    Thread(target=watch, daemon=True).start()


def cores() -> int:
    """Processor cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
