"""`python -m tests.corruption`: which share of wrong facts a check finds, by field and by harm."""

from __future__ import annotations

import argparse
import os
from collections import Counter, defaultdict
from collections.abc import Iterable
from pathlib import Path

from hts.base.findings import ADVICE
from tests.corruption.harm import NONE
from tests.corruption.share import FILES, FOUND, LEGAL, SAME, SURVIVED, Result, every, run, sample


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.corruption", description=__doc__)
    parser.add_argument("--spec", action="append", help="only files whose name has this in it")
    parser.add_argument("--field", help="only fields whose path has this in it")
    parser.add_argument("--sample", type=int, metavar="N", help="only N mutants, drawn")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--missed", action="store_true", help="list every survivor with its line")
    parser.add_argument("--legal", action="store_true", help="list what the reviewed list explains")
    parser.add_argument("--survivors", type=Path, help="write the survivors by field to this file")
    parser.add_argument(
        "--keep", type=Path, metavar="FILE", help="go on from the results in FILE, and add to it"
    )
    arguments = parser.parse_args()
    files = [f for f in FILES if not arguments.spec or any(s in f.name for s in arguments.spec)]
    jobs = sample(arguments.sample, arguments.seed, files) if arguments.sample else every(files)
    results = [
        result
        for result in run(jobs, arguments.processes, arguments.keep)
        if not arguments.field or arguments.field in result.mutant.path
    ]
    print(table(results, "harm", lambda r: r.harm))
    print(table(results, "change", lambda r: r.mutant.change))
    print(table(results, "field", lambda r: r.mutant.path))
    for result in results:
        if (arguments.missed and result.outcome == SURVIVED) or (
            arguments.legal and result.outcome == LEGAL
        ):
            print(f"{result.file}:{result.number}: {result.mutant.change}: {result.line}")
            if result.told:
                print(f"    legal: {result.told}")
    if arguments.legal:
        print(classes(results))
    if arguments.survivors:
        arguments.survivors.write_text(survivors(results), encoding="utf-8")
    print(totals(results))


def table(results: Iterable[Result], head: str, key: object) -> str:
    """How many were found of each kind, the worst first."""
    counts: dict[str, Counter[str]] = defaultdict(Counter)
    for result in results:
        counts[key(result)][result.outcome] += 1  # type: ignore[operator]
    width = max((len(name) for name in counts), default=0)
    lines = [f"{head:<{width}}  found   of wrong  legal  same"]
    for name, count in sorted(counts.items(), key=lambda item: _share(item[1])):
        wrong = count[FOUND] + count[SURVIVED]
        lines.append(
            f"{name:<{width}} {_share(count):6.1f} %  {wrong:>6} {count[LEGAL]:>6} {count[SAME]:>5}"
        )
    return "\n".join(lines) + "\n"


def _share(count: Counter[str]) -> float:
    wrong = count[FOUND] + count[SURVIVED]
    return 100 * count[FOUND] / wrong if wrong else 100.0


def totals(results: list[Result]) -> str:
    """The two figures all of this is for, with what they leave out."""
    whole = Counter(result.outcome for result in results)
    hurts = Counter(result.outcome for result in results if result.harm != NONE)
    mildly = sum(r.outcome == FOUND and r.told.startswith(ADVICE) for r in results)
    strict = whole[FOUND] + whole[SURVIVED] + whole[LEGAL]
    return (
        f"{len(results)} mutants, {whole[SAME]} of them say the same, {whole[LEGAL]} are legal\n"
        f"found of wrong facts:           {_share(whole):.1f} %"
        f" ({whole[FOUND]} of {whole[FOUND] + whole[SURVIVED]})\n"
        f"    of these told by advice alone: {mildly}\n"
        f"found of those that could hurt: {_share(hurts):.1f} %"
        f" ({hurts[FOUND]} of {hurts[FOUND] + hurts[SURVIVED]})\n"
        f"found of all changes, legal ones too: {100 * whole[FOUND] / max(strict, 1):.1f} %"
    )


def classes(results: list[Result]) -> str:
    """What the reviewed list explains, by its reasons: the difference between the share of wrong
    facts and that of all changes. In brackets those in fields that could hurt."""
    legal = [result for result in results if result.outcome == LEGAL]
    counts = Counter(result.told for result in legal)
    hurts = Counter(result.told for result in legal if result.harm != NONE)
    rows = [f"{n:5} ({hurts[why]})  {' '.join(why.split())}" for why, n in counts.most_common()]
    return "\n".join([f"legal, by reason: {len(legal)} of {len(results)}", *rows])


def survivors(results: list[Result]) -> str:
    """Survivors by field, those that could hurt first, each with a few lines."""
    by_field: dict[tuple[bool, str], list[Result]] = defaultdict(list)
    for result in results:
        if result.outcome == SURVIVED:
            by_field[(result.harm == NONE, result.mutant.path)].append(result)
    lines = ["# Survivors: wrong facts that no finding tells", "", "```", totals(results), "```"]
    order = sorted(by_field.items(), key=lambda item: (item[0][0], -len(item[1])))
    for (_, path), found in order:
        lines.append(f"\n## {path}: {len(found)} ({found[0].harm})")
        by_change: dict[str, list[Result]] = defaultdict(list)
        for result in found:
            by_change[result.mutant.change].append(result)
        for change, those in by_change.items():
            lines.append(f"- {change}: {len(those)}")
            step = max(1, len(those) // 3)
            for result in those[::step][:3]:
                lines.append(f"    - {result.file}:{result.number}: `{result.line}`")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    main()
