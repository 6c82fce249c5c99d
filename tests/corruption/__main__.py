"""`python -m tests.corruption`: which share of single-fact corruptions a check catches."""

from __future__ import annotations

import argparse
from collections import Counter

from tests.corruption.share import SPECS, results


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.corruption")
    parser.add_argument("--missed", action="store_true", help="list every one that was missed")
    arguments = parser.parse_args()
    total: Counter[str] = Counter()
    caught: Counter[str] = Counter()
    for path in SPECS:
        found = results(path)
        hits = sum(result.caught for result in found)
        print(
            f"{path.name:<26} {len(found):>4} corruptions, {hits:>4} caught"
            f" ({100 * hits / len(found):.1f} %)"
        )
        for result in found:
            total[result.corruption.kind] += 1
            caught[result.corruption.kind] += result.caught
            if arguments.missed and not result.caught:
                corruption = result.corruption
                print(
                    f"    missed, line {corruption.line + 1}, {corruption.kind}: "
                    f"{(corruption.new or '(left out)').strip()}"
                )
    print()
    for kind, count in sorted(total.items(), key=lambda item: caught[item[0]] / item[1]):
        print(f"{kind:<40} {caught[kind]:>4} of {count:>4}")
    share = 100 * sum(caught.values()) / sum(total.values())
    print(f"{'all':<40} {sum(caught.values()):>4} of {sum(total.values()):>4}  {share:.1f} %")


main()
