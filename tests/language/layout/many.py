"""`python -m tests.language.layout.many --count 10000 --seed 1`: lays out many texts.

The texts are good specifications, texts made from the grammar, and both of them damaged and with
their white space in disorder. `--only NUMBER` runs one trial again and prints its text.
"""

from __future__ import annotations

import argparse
import collections
import sys

from tests.language.layout.texts import good_texts
from tests.language.layout.trial import text_of, try_text


def main(arguments: list[str] | None = None) -> int:
    """Exit code 0 when every text was laid out or left alone as it must be, else 1."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.language.layout.many", description=__doc__
    )
    parser.add_argument("--count", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", type=int)
    options = parser.parse_args(arguments)
    good = list(good_texts().values())
    broken: dict[str, list[int]] = collections.defaultdict(list)
    changed = unchanged = left = 0
    for number in range(options.count) if options.only is None else [options.only]:
        text = text_of(options.seed, number, good)
        if options.only is not None:
            print(text)
        try:
            after = try_text(text)
        except Exception as error:
            broken[f"{type(error).__name__}: {error}"[:200]].append(number)
            continue
        left += after is None
        changed += after is not None and after != text
        unchanged += after == text
    failed = sum(map(len, broken.values()))
    print(
        f"{changed} laid out, {unchanged} already so, {left} left alone for syntax errors, "
        f"{failed} broken"
    )
    for message, numbers in broken.items():
        print(f"{len(numbers)} broke, first --only {numbers[0]}: {message}")
    return int(bool(broken))


if __name__ == "__main__":
    sys.exit(main())
