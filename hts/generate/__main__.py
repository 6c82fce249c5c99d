"""Command line of the generators: `python -m hts.generate [--check]`."""

import argparse
import os
import sys

from hts.generate import GenerateError, stale, write


def main(arguments: list[str] | None = None) -> int:
    """Rewrite what is stale, or with --check only list it; return the exit code.

    0: everything is fresh (or was made so). 1: --check found stale files, or a leftover needs
    removing by hand. 2: a source is wrong.
    """
    parser = argparse.ArgumentParser(prog="python -m hts.generate", description=__doc__)
    parser.add_argument("--check", action="store_true", help="write nothing, list what is stale")
    check: bool = parser.parse_args(arguments).check
    try:
        items = stale()
    except GenerateError as error:
        print(error, file=sys.stderr)
        return 2
    if not check:
        write(items)
    for item in items:
        written = not check and item.text is not None
        print(f"{item.path}: {'written' if written else item.reason}", flush=True)
    if any(not check and item.path.startswith("hts/base/data/") and item.text for item in items):
        # The references are written from the compiled data: read it anew in a fresh process.
        os.execv(sys.executable, [sys.executable, "-m", "hts.generate"])
    return int(any(check or item.text is None for item in items))


if __name__ == "__main__":
    sys.exit(main())
