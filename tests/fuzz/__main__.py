"""`python -m tests.fuzz --count 20000 --seed 1`: checks damaged texts, shows those that break it.

`--only NUMBER` runs one trial again and prints its text.
"""

from __future__ import annotations

import argparse
import collections
import sys
import traceback

from tests.fuzz.trial import good_texts, trial_of, try_text


def main(arguments: list[str] | None = None) -> int:
    """Exit code 0 when every text was handled, 1 when one was not."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", type=int)
    options = parser.parse_args(arguments)
    good = good_texts()
    broken: dict[str, list[int]] = collections.defaultdict(list)
    codes: collections.Counter[str] = collections.Counter()
    numbers = range(options.count) if options.only is None else [options.only]
    for number in numbers:
        path, text, today = trial_of(options.seed, number, good)
        if options.only is not None:
            print(text)
        try:
            codes.update(finding.kind.code for finding in try_text(path, text, today))
        except Exception as error:
            where = traceback.extract_tb(error.__traceback__)[-1]
            broken[f"{type(error).__name__}: {error} ({where.name}:{where.lineno})"].append(number)
            if options.only is not None:
                traceback.print_exc()
    print(f"{len(numbers)} texts, findings: {dict(sorted(codes.items()))}")
    for message, found in broken.items():
        print(f"{len(found)} broke, first --only {found[0]}: {message}")
    return int(bool(broken))


if __name__ == "__main__":
    sys.exit(main())
