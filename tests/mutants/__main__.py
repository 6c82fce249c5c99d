"""Do the tests notice a small slip? Makes many, one at a time, and lists those nobody saw.

    python -m tests.mutants --count 100 --seed 3            slips of code, drawn by chance
    python -m tests.mutants --count 100 --seed 3 --data     figures of the data
    python -m tests.mutants --room hts/limits --count 40    of one room or file
    … --tests tests/limits/test_engine.py                   what these alone notice, far sooner

Works in copies of the tree, one for each process. What was judged is kept in the file named
with `--kept`; the same command again goes on where it stopped.
"""

from __future__ import annotations

import argparse
import collections
import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import Queue

from tests.mutants import code, data
from tests.mutants.judges import judges

_TOP = Path(__file__).parents[2]


def main() -> int:
    """Prints the share noticed, by room, and every slip that was not; 1 if there was one. What
    could not be judged counts for neither."""
    asked = _asked()
    drawn = _draw(asked)
    kept = Path(asked.kept or f"{tempfile.gettempdir()}/mutants-{asked.seed}-{asked.data:d}.jsonl")
    done = _read(kept)
    waiting: dict[tuple[str, ...], list[code.Slip]] = {}
    for slip in drawn:
        if list(slip) not in done:
            tests = tuple(asked.tests or judges(_TOP, slip.path))
            waiting.setdefault(tests, []).append(slip)
    copies: Queue[Path] = Queue()
    with tempfile.TemporaryDirectory() as folder:
        for number in range(asked.processes):
            copies.put(_copy(Path(folder) / str(number)))

        def one(tests: tuple[str, ...]) -> None:
            copy = copies.get()
            try:
                _loaded(copy, waiting[tests], tests, asked, kept)
            finally:
                copies.put(copy)

        with ThreadPoolExecutor(asked.processes) as pool:
            list(pool.map(one, waiting))
    return _report(kept, drawn)


def _loaded(
    copy: Path,
    slips: list[code.Slip],
    tests: tuple[str, ...],
    asked: argparse.Namespace,
    kept: Path,
) -> None:
    """Slips of one room, by its tests loaded once."""
    job = {
        "tests": tests, "slips": slips, "most": asked.most, "quick": asked.quick,
        "out": str(kept.absolute()),
    }  # fmt: skip
    (copy / "job.json").write_text(json.dumps(job), encoding="utf-8")
    subprocess.run(
        [sys.executable, "-m", "tests.mutants.loaded", "job.json"], cwd=copy, check=False,
        env={**os.environ, "PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1"},
        stdout=subprocess.DEVNULL,
    )  # fmt: skip


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--room", default="hts", help="only files whose path begins so")
    parser.add_argument("--data", action="store_true", help="figures of the data, not code")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--most", type=int, default=120, help="seconds of work of one run of tests")
    parser.add_argument(
        "--quick", action="store_true",
        help="no fresh process for what a running one did not notice: a few more go unnoticed",
    )  # fmt: skip
    parser.add_argument("--tests", nargs="+", help="judge by these tests alone: quick, and too low")
    parser.add_argument("--kept", help="file that keeps what was judged")
    return parser.parse_args()


def _draw(asked: argparse.Namespace) -> list[code.Slip]:
    """Slips by chance, each file as likely as it has lines to slip in."""
    listed = subprocess.run(
        ["git", "ls-files", "hts"], cwd=_TOP, capture_output=True, text=True, check=True
    ).stdout.split()
    if asked.data:
        paths = [p for p in listed if p.startswith("hts/base/data") and p.endswith(".yaml")]
        maker = data.slips
    else:
        paths = [p for p in listed if p.endswith(".py")]
        maker = code.slips
    every = [s for p in paths if p.startswith(asked.room) for s in maker(_TOP, p)]
    return random.Random(asked.seed).sample(every, min(asked.count, len(every)))


def _copy(folder: Path) -> Path:
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=_TOP, capture_output=True, text=True, check=True
    ).stdout.split("\0")
    for path in filter(None, listed):
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(_TOP / path, target)
    # Compiled, so that fresh processes start soon.
    for compiled in ("hts", "tests"):
        for source in (_TOP / compiled).rglob("__pycache__"):
            shutil.copytree(source, folder / source.relative_to(_TOP), dirs_exist_ok=True)
    return folder


def _read(kept: Path) -> list[list[object]]:
    if not kept.exists():
        return []
    return [json.loads(line)["slip"] for line in kept.read_text().splitlines()]


def _report(kept: Path, drawn: list[code.Slip]) -> int:
    rows = [json.loads(line) for line in kept.read_text().splitlines()]
    wanted = {tuple(s) for s in drawn}
    rows = [row for row in rows if tuple(row["slip"]) in wanted]
    total: collections.Counter[str] = collections.Counter()
    seen: collections.Counter[str] = collections.Counter()
    asked = [row for row in rows if row["noticed"] != "?"]
    for row in asked:
        room = "/".join(row["slip"][0].split("/")[1 : 3 if row["slip"][0].count("/") > 2 else 2])
        total[room] += 1
        seen[room] += bool(row["noticed"])
    print()
    for room in sorted(total):
        print(f"{room:32}{seen[room]:5} of {total[room]:4}")
    print(f"{'all':32}{sum(seen.values()):5} of {sum(total.values()):4}")
    missed = [row["slip"] for row in rows if not row["noticed"]]
    for told, slips in (
        ("not noticed", missed),
        ("not judged", [row["slip"] for row in rows if row["noticed"] == "?"]),
    ):
        for path, line, _, _, before, after in sorted(slips):
            print(f"{told}: {path}:{line}: {before!r} -> {after!r}")
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
