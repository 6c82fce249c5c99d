"""A command in a process of its own, which is hindered or ended at a step of what it writes.

Each comes from a process that does nothing but this: one forked from the tests would share what
their libraries have begun, and a library that waits for a thread it no longer has waits for ever.
"""

from __future__ import annotations

import errno
import os
import resource
import signal
import sys
from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from pkgutil import walk_packages
from typing import NamedTuple

import hts.checking
import hts.cli
import hts.job
from hts.predict import foresee
from tests.fuzz.run import run

#: Seconds after which a command is taken to hang, and is ended by SIGALRM.
PATIENCE = 120

#: What commands are made of, and begins no thread when it is imported.
_MADE_OF = (hts.checking, hts.job, hts.cli)
_CONTEXT = get_context("forkserver")
_CONTEXT.set_forkserver_preload(
    [__name__]
    + [
        module.name
        for package in _MADE_OF
        for module in walk_packages(package.__path__, f"{package.__name__}.")
    ]
)

#: What the system calls each way to change a disk, and which of what it is told are paths.
_CHANGES = {"open": 1, "os.mkdir": 1, "os.rmdir": 1, "os.remove": 1, "os.rename": 2, "os.link": 2,
            "os.symlink": 2, "os.chmod": 1, "os.truncate": 1}  # fmt: skip


class Ended(NamedTuple):
    """How a command ended: its exit code, or minus a signal, what it said, and the changes of the
    disk it came to."""

    code: int
    said: str
    steps: int


class At(NamedTuple):
    """Sends itself a signal before the change of that number, from 1."""

    step: int
    sign: int

    def __call__(self, step: int) -> None:
        if step == self.step:
            os.kill(os.getpid(), self.sign)


def only_read(step: int) -> None:
    raise OSError(errno.EROFS, "Read-only file system")


def unhindered(step: int) -> None: ...


def in_child(
    arguments: tuple[str, ...],
    at_step: Callable[[int], None] = unhindered,
    *,
    most: int | None = None,
    predicted: object = None,
) -> Ended:
    """Runs a command here: `at_step` is called before each change of the disk here, with its number
    from 1; `most`: no file gets longer than so many bytes; `predicted`: what is known beforehand of
    a prediction. Functions are passed by their names."""
    read, write = _CONTEXT.Pipe(duplex=False)
    setting = os.path.realpath("."), os.environ.get("HTS_CACHE_DIR", "")
    child = _CONTEXT.Process(
        target=_run, args=(write, setting, arguments, at_step, most, predicted)
    )
    child.start()
    write.close()
    told = b""
    while part := os.read(read.fileno(), 65536):
        told += part
    child.join()
    assert child.exitcode is not None
    return Ended(child.exitcode, told.replace(b"\0", b"").decode(), told.count(0))


def _run(
    told: Connection,
    setting: tuple[str, str],
    arguments: tuple[str, ...],
    at_step: Callable[[int], None],
    most: int | None,
    predicted: object,
) -> None:
    code = 99
    try:
        signal.alarm(PATIENCE)
        # Python would keep half of a module where files may not get longer.
        sys.dont_write_bytecode = True
        place, os.environ["HTS_CACHE_DIR"] = setting
        os.chdir(place)
        if predicted is not None:
            foresee.foresee_all = lambda *_: predicted  # type: ignore[assignment, return-value]
        steps = 0

        def hook(event: str, about: tuple[object, ...]) -> None:
            nonlocal steps
            if event not in _CHANGES or (event == "open" and not _writes(about)):
                return
            paths = [each for each in about[: _CHANGES[event]] if isinstance(each, str)]
            if any(os.path.abspath(each).startswith(place + os.sep) for each in paths):
                steps += 1
                os.write(told.fileno(), b"\0")
                at_step(steps)

        sys.addaudithook(hook)
        if most is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, resource.RLIM_INFINITY))
        ran = run(arguments)
        os.write(told.fileno(), ran.err.encode())
        code = ran.code
    finally:
        os._exit(code)


def _writes(about: tuple[object, ...]) -> bool:
    flags = about[2]
    return isinstance(flags, int) and bool(flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
