"""`python -m tests.fuzz --count 20000 --seed 1`: gives spoiled input to every command.

Prints a table of areas, inputs and failures. `--only NUMBER` runs one trial again and shows its
files, its command and all of the fault; `--jobs N` shares the trials out. Ctrl-C ends a long run
with the table of what was tried until then.
"""

from __future__ import annotations

import argparse
import collections
import multiprocessing
import signal
import sys
import time
from collections.abc import Iterator

from tests.fuzz.run import run
from tests.fuzz.trials import Outcome, trial_of, trials_of_part, try_one
from tests.fuzz.workplace import Workplace

_PART = 40


def main(arguments: list[str] | None = None) -> int:
    """Exit code 0 when every input was handled, 1 when one was not."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--only", type=int)
    options = parser.parse_args(arguments)
    if options.only is not None:
        return _again(options.seed, options.only)
    # A shell has what it runs in the background ignore interruptions.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    began = time.monotonic()
    end = options.first + options.count
    parts = [(options.seed, at, min(at + _PART, end)) for at in range(options.first, end, _PART)]
    outcomes: list[Outcome] = []
    with multiprocessing.get_context("spawn").Pool(options.jobs) as pool:
        try:
            for part in pool.imap_unordered(trials_of_part, parts):
                outcomes += part
                for one in part:
                    if one.failure:
                        print(f"--only {one.number} ({one.area}): {one.failure}", flush=True)
        except KeyboardInterrupt:
            print("interrupted; what was tried until then:")
    for line in table(outcomes):
        print(line)
    print(f"{time.monotonic() - began:.0f} s")
    return int(any(one.failure for one in outcomes))


def table(outcomes: list[Outcome]) -> Iterator[str]:
    """Areas, inputs, how they ended, failures, and the slowest input of each."""
    yield "| area | inputs | exit 0 | exit 1 | exit 2 | failures | slowest, s | of input |"
    yield "|---|---|---|---|---|---|---|---|"
    areas: dict[str, list[Outcome]] = collections.defaultdict(list)
    for one in outcomes:
        areas[one.area].append(one)
        areas["all"].append(one)
    for name in sorted(areas, key=lambda name: (name == "all", name)):
        found = areas[name]
        codes = collections.Counter(one.code for one in found)
        slow = max(found, key=lambda one: one.seconds)
        failures = sum(1 for one in found if one.failure)
        yield (
            f"| {name} | {len(found)} | {codes[0]} | {codes[1]} | {codes[2]} | {failures} | "
            f"{slow.seconds:.1f} | {slow.number} |"
        )


def _again(seed: int, number: int) -> int:
    place = Workplace()
    area, trial = trial_of(seed, number, place)
    for name, content in trial.files.items():
        print(f"----- {name}\n{content.decode('utf-8', 'backslashreplace')}")
    print("----- hts", *trial.arguments)
    outcome = try_one(area, number, trial, place)
    print(f"----- exit {outcome.code}, {outcome.seconds:.2f} s: {outcome.failure or 'all held'}")
    if outcome.failure:
        place.write(trial.files)
        ran = run(trial.arguments)
        print(ran.out, ran.err, sep="\n")
    place.close()
    return int(bool(outcome.failure))


if __name__ == "__main__":
    sys.exit(main())
