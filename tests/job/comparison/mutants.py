"""`python -m tests.job.comparison.mutants --sample 2000 --seed 1`: wrong facts put to the diff.

Each is a good specification with one fact changed. What changes the meaning must be told, and what
could hurt somebody must ask for approval anew.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from hts.base.findings import Report
from hts.base.text import Source
from hts.job.comparison import compare
from hts.syntax import parse
from tests.corruption.changes import Mutant
from tests.corruption.harm import harm
from tests.corruption.meaning import meaning
from tests.corruption.share import FILES, Path, _mutants, _places, sample
from tests.job.comparison.texts import spec, text_of


class Put(NamedTuple):
    """A wrong fact and what the diff made of it; `verdict` is "" where it was not told."""

    file: str
    mutant: Mutant
    harm: str
    verdict: str
    kinds: tuple[str, ...]
    was: str


def put(path: Path, number: int) -> Put | None:
    """One wrong fact; None where it says the same as before, or cannot be read."""
    mutant = _mutants(path)[number]
    old = text_of(path)
    new = mutant.applied(old)
    report = Report()
    parse(Source(new, "text"), report)
    if report.findings or meaning(new) == meaning(old):
        return None
    found = compare(spec(path), spec(path, new))
    kinds = tuple(f"{c.area}/{c.kind} {c.action}" for c in found.changes)
    line = _places(path).line(mutant.start)
    was = old.splitlines()[line - 1].strip()
    return Put(path.name, mutant, harm(mutant.path), found.worst or "", kinds, was)


def puts(count: int, seed: int, files: Iterable[Path] = FILES) -> Iterator[Put]:
    for path, number in sample(count, seed, files):
        found = put(path, number)
        if found is not None:
            yield found


def main() -> int:
    parser = argparse.ArgumentParser("python -m tests.job.comparison.mutants", description=__doc__)
    parser.add_argument("--sample", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    said = parser.parse_args()
    table: Counter[tuple[str, str]] = Counter()
    soft: Counter[tuple[str, str]] = Counter()
    silent = []
    for each in puts(said.sample, said.seed):
        table[each.harm, each.verdict or "not told"] += 1
        if not each.verdict:
            silent.append(each)
        elif each.verdict != "re-approve":
            soft[each.harm, each.mutant.path] += 1
    for (hurts, verdict), count in sorted(table.items()):
        print(f"{hurts:20} {verdict:12} {count}")
    for each in silent:
        print(f"NOT TOLD {each.file} {each.mutant.path}: {each.mutant.change}: {each.was}")
    for (hurts, field), count in sorted(soft.items()):
        print(f"{hurts:20} {field:60} {count}")
    return 1 if silent else 0


if __name__ == "__main__":
    raise SystemExit(main())
