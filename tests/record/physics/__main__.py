"""`python -m tests.record.physics --records N --seed S`: the confusion table on standard output.

`--only TEXT` keeps the kinds whose name holds it, `--keep FOLDER` keeps the files.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from tests.record.physics import table
from tests.record.physics.grading import grade, sample


def main() -> None:
    asked = argparse.ArgumentParser(prog="python -m tests.record.physics")
    asked.add_argument("--records", type=int, default=140)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--only", default="")
    asked.add_argument("--keep", type=Path)
    said = asked.parse_args()
    if said.keep is not None:
        said.keep.mkdir(parents=True, exist_ok=True)
    graded = []
    for kind, plant, number in sample(said.records):
        if said.only in kind.name:
            graded.append(grade(kind, plant, said.seed, number, said.keep))
            print(f"\r{len(graded)}", end="", file=sys.stderr)
    print(file=sys.stderr)
    print(f"Records: {len(graded)}, seed {said.seed}.\n\n{table.write(graded)}", end="")


if __name__ == "__main__":
    main()
