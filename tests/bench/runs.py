"""Commands timed in processes of their own, out of an environment that holds only the wheel."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from copy import copy
from statistics import median
from typing import NamedTuple

PEERS = ("yamllint", "check-jsonschema", "black")
ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))


class Run(NamedTuple):
    """One finished process: wall clock and processor time in seconds, largest resident size of
    one process in MB."""

    seconds: float
    busy: float
    megabytes: float


class Environment:
    """A virtual environment with the project's wheel and the peers, as a user installs them."""

    def __init__(self, folder: str) -> None:
        self._caches = os.path.join(folder, "caches")
        self._forgets = False
        wheels = os.path.join(folder, "wheels")
        pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "-qq")
        subprocess.run([*pip, "wheel", "--no-deps", "-w", wheels, ROOT], check=True)
        place = os.path.join(folder, "environment")
        subprocess.run([sys.executable, "-m", "venv", place], check=True)
        self._bin = os.path.join(place, "Scripts" if os.name == "nt" else "bin")
        wheel = os.path.join(wheels, os.listdir(wheels)[0])
        install = (self._path("python"), *pip[1:], "install")
        subprocess.run([*install, wheel, *PEERS], check=True)

    def forgetting(self) -> Environment:
        """The same, with empty caches before every run."""
        made = copy(self)
        made._caches += "-forgotten"
        made._forgets = True
        return made

    def _path(self, program: str) -> str:
        return os.path.join(self._bin, program)

    def run(self, program: str, *arguments: str) -> Run:
        """Runs a program to its end. Raises RuntimeError where it finds anything wrong."""
        # Bytecode is kept as it is for users; a variable of the caller's must not prevent it.
        hidden = ("PYTHONDONTWRITEBYTECODE", "PYTHONPATH", "PYTHONUNBUFFERED")
        surroundings = {k: v for k, v in os.environ.items() if k not in hidden}
        for name in ("HTS_CACHE_DIR", "BLACK_CACHE_DIR"):
            surroundings[name] = os.path.join(self._caches, name)
        if self._forgets:
            shutil.rmtree(self._caches, ignore_errors=True)
        with tempfile.TemporaryFile() as output:
            start = time.perf_counter()
            process = subprocess.Popen(
                [self._path(program), *arguments],
                env=surroundings,
                stdout=output,
                stderr=subprocess.STDOUT,
            )
            _, status, used = os.wait4(process.pid, 0)
            seconds = time.perf_counter() - start
            process.returncode = os.waitstatus_to_exitcode(status)
            if process.returncode:
                output.seek(0)
                said = output.read(2000).decode("utf-8", "replace")
                raise RuntimeError(f"{program} ended with {process.returncode}: {said}")
        return Run(seconds, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def in_turn(times: int, *runs: tuple[Environment, tuple[str, ...]]) -> list[Run]:
    """Medians of several commands, run in turn so that a busy machine slows all of them alike.

    The first round of each only warms caches and does not count.
    """
    found: list[list[Run]] = [[] for _ in runs]
    for round_ in range(times + 1):
        for kept, (environment, command) in zip(found, runs, strict=True):
            run = environment.run(*command)
            if round_:
                kept.append(run)
    return [Run(*map(median, zip(*kept, strict=True))) for kept in found]
