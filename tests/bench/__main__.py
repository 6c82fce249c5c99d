"""Times `hts check` beside peers on the same content: `python -m tests.bench`."""

from __future__ import annotations

import argparse
import os
import tempfile

from tests.bench import texts
from tests.bench.runs import ROOT, Environment, in_turn

SCHEMA = os.path.join(ROOT, "grammar", "spec.schema.json")


def cold(environment: Environment, folder: str, rounds: int) -> None:
    """One specification in a fresh process, against yamllint: checked for the first time, and, as
    for editors and hooks, with the outcome kept from an earlier run."""
    spec, twin = os.path.join(folder, "one.hts"), os.path.join(folder, "one.yaml")
    for path, content in ((spec, texts.ONE), (twin, texts.as_yaml(texts.ONE))):
        with open(path, "w", encoding="utf-8") as file:
            file.write(content)
    first, kept, theirs = in_turn(
        rounds,
        (environment, ("hts", "check", "--no-cache", spec)),
        (environment, ("hts", "check", spec)),
        (environment, ("yamllint", twin)),
    )
    lines = texts.ONE.count("\n")
    print(f"one specification of {lines} lines, fresh process; wall clock, and processor time")
    _row("hts, first check", first.seconds, f"{first.busy * 1e3:9.1f} ms")
    _row("hts, outcome kept", kept.seconds, f"{kept.busy * 1e3:9.1f} ms")
    _row("yamllint", theirs.seconds, f"{theirs.busy * 1e3:9.1f} ms")
    _goal("first check / yamllint", first.busy / theirs.busy, 0.9)
    _goal("outcome kept / yamllint", kept.busy / theirs.busy, 0.9)


def as_many_lines(folder: str) -> list[str]:
    """The first YAML twins in a folder that together have as many lines as all specifications: the
    twin of a specification is some three times as long."""
    paths = sorted(os.path.join(folder, name) for name in os.listdir(folder))
    left = sum(_lines(path) for path in paths if path.endswith(".hts"))
    found = []
    for path in paths:
        if path.endswith(".yaml") and left > 0:
            found.append(path)
            left -= _lines(path)
    return found


def _lines(path: str) -> int:
    with open(path, encoding="utf-8") as file:
        return sum(1 for _ in file)


def many(environment: Environment, folder: str, count: int, rounds: int) -> None:
    """Many specifications at once, against yamllint with the check against the schema on as many
    lines of YAML, and against black on as many of Python; with and without a cache."""
    place = os.path.join(folder, f"many{count}")
    texts.write(place, count, twins=True)
    twins = as_many_lines(place)
    empty = environment.forgetting()
    environment.run("hts", "fmt", "--no-cache", place)
    two, one, first, warm, lint, schema, black, black_warm, layout, layout_warm = in_turn(
        rounds,
        (environment, ("hts", "check", "--no-cache", "--jobs", "2", place)),
        (environment, ("hts", "check", "--no-cache", "--jobs", "1", place)),
        (empty, ("hts", "check", place)),
        (environment, ("hts", "check", place)),
        (environment, ("yamllint", *twins)),
        (environment, ("check-jsonschema", "--schemafile", SCHEMA, *twins)),
        (empty, ("black", "--check", "--quiet", place)),
        (environment, ("black", "--check", "--quiet", place)),
        (empty, ("hts", "fmt", "--check", place)),
        (environment, ("hts", "fmt", "--check", place)),
    )
    print(f"{count} specifications, {os.cpu_count()} cores; wall clock, and processor time of all")
    for name, run in (
        ("hts, 2 processes", two),
        ("hts, 1 process", one),
        ("hts, cache empty", first),
        ("hts, cache warm", warm),
        ("yamllint", lint),
        ("check-jsonschema", schema),
        ("black, cache empty", black),
        ("black, cache warm", black_warm),
        ("hts fmt, cache empty", layout),
        ("hts fmt, cache warm", layout_warm),
    ):
        _row(name, run.seconds, f"{run.busy * 1e3:9.1f} ms")
    # Processor time over two processes: other work of the machine does not bear on it.
    _goal("hts on two / both of YAML", two.busy / 2 / (lint.busy + schema.busy), 0.1)
    _goal("hts fmt / black", layout.seconds / black.seconds, 0.2)
    _goal("warm hts / warm black", warm.seconds / black_warm.seconds, 0.5)


def memory(environment: Environment, folder: str, counts: tuple[int, ...]) -> None:
    """Resident size, and whether the time of each specification stays the same."""
    print("more and more specifications, one process")
    each = []
    for count in counts:
        place = os.path.join(folder, f"n{count}")
        texts.write(place, count)
        run = environment.run("hts", "check", "--jobs", "1", place)
        # Processor time: how busy the machine is with other work does not bear on it.
        each.append(run.busy / count)
        _row(
            f"{count} files", run.seconds, f"{each[-1] * 1e3:5.2f} ms each {run.megabytes:5.0f} MB"
        )
    _goal("MB at the most files", run.megabytes, 150)
    _goal("ms each, most / fewest", each[-1] / each[0], 1.1)


def _row(name: str, seconds: float, more: str = "") -> None:
    print(f"  {name:24} {seconds * 1e3:9.1f} ms  {more}".rstrip())


def _goal(name: str, reached: float, most: float) -> None:
    verdict = "reached" if reached <= most else "MISSED"
    print(f"  {name:24} {reached:9.2f}     at most {most:g}: {verdict}", flush=True)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--rounds", type=int, default=15, help="rounds of the cold start")
    parser.add_argument(
        "--count", type=int, nargs="+", default=[1000], help="specifications at once"
    )
    parser.add_argument("--most", type=int, default=10_000, help="specifications for memory")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        environment = Environment(folder)
        cold(environment, folder, asked.rounds)
        for count in asked.count:
            many(environment, folder, count, 3)
        memory(environment, folder, (100, 1000, asked.most))


if __name__ == "__main__":
    main()
