"""What inputs made to be costly cost: `python -m tests.bench.sizes` (`--only WORD`).

No input below the stated limits costs more than 2 s of the processor for each MB, or 500 MB.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
from typing import NamedTuple

from tests.bench.hostile import HOSTILE, Hostile
from tests.bench.runs import ROOT

#: What is allowed: seconds for each MB, beside those of a start, and MB of memory.
SECONDS = 2.0
START = 1.5
MEMORY = 500.0


class Cost(NamedTuple):
    """Of one run: MB of the input, seconds of the processor, MB of memory, exit code."""

    size: float
    seconds: float
    memory: float
    code: int

    @property
    def allowed(self) -> bool:
        return (
            self.code >= 0 and self.seconds <= START + SECONDS * self.size and self.memory <= MEMORY
        )


def cost(hostile: Hostile) -> Cost:
    """Runs the command on the input in a process of its own, for a minute of the processor."""
    with tempfile.TemporaryDirectory(prefix="hts-sizes-") as folder:
        files = hostile.make(hostile.megabytes)
        for name, text in files.items():
            with open(os.path.join(folder, name), "w", encoding="utf-8", newline="") as file:
                file.write(text)
        with subprocess.Popen(
            [sys.executable, "-m", "hts", *hostile.command],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            cwd=folder, preexec_fn=_for_a_minute,
            env={**os.environ, "PYTHONPATH": ROOT, "HTS_CACHE_DIR": os.path.join(folder, "cache")},
        ) as process:  # fmt: skip
            _, status, used = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
    size = len(next(iter(files.values())).encode()) / 1e6
    return Cost(size, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, process.returncode)


def _for_a_minute() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (60, 60))


def main(arguments: list[str] | None = None) -> int:
    """Exit code 1 where an input costs more than is allowed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.sizes", description=__doc__)
    parser.add_argument("--only", default="", help="of this area, or with this in its name")
    only = parser.parse_args(arguments).only
    worse = 0
    print("| area | input | MB | s | MB of memory | exit | |\n|---|---|---|---|---|---|---|")
    for one in HOSTILE:
        if only not in one.area and only not in one.name:
            continue
        found = cost(one)
        worse += not found.allowed
        print(
            f"| {one.area} | {one.name} | {found.size:.1f} | {found.seconds:.1f} | "
            f"{found.memory:.0f} | {found.code} | {'' if found.allowed else 'TOO MUCH'} |",
            flush=True,
        )
    return int(bool(worse))


if __name__ == "__main__":
    sys.exit(main())
