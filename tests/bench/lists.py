"""Times a check of weld lists of more and more rows, and that of 300 rows beside yamllint with
check-jsonschema on the same joints written out as YAML: `python -m tests.bench.lists`."""

from __future__ import annotations

import argparse
import csv
import os
import shutil
import tempfile

from hts.language.model import Loader, Spec
from hts.language.vocabulary.export import export
from tests.bench.__main__ import SCHEMA, _goal, _row
from tests.bench.runs import ROOT, Environment, in_turn

NAME = "turnaround-list"
SPECS = os.path.join(ROOT, "specs")


def job(folder: str, rows: int) -> str:
    """The example of 120 welds with so many rows; the path of its text."""
    place = os.path.join(folder, f"rows{rows}")
    os.makedirs(place)
    shutil.copytree(os.path.join(SPECS, "library"), os.path.join(place, "library"))
    with open(os.path.join(SPECS, f"{NAME}.csv"), encoding="utf-8", newline="") as file:
        heads, *welds = csv.reader(file)
    treated = [weld for weld in welds if weld[heads.index("PWHT")] == "yes"]
    with open(os.path.join(place, f"{NAME}.csv"), "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(heads)
        for number in range(rows):
            writer.writerow([f"W{1000 + number}", *treated[37 * number % len(treated)][1:]])
    with open(os.path.join(SPECS, f"{NAME}.hts"), encoding="utf-8") as file:
        text = file.read()
    path = os.path.join(place, f"{NAME}.hts")
    with open(path, "w", encoding="utf-8") as file:
        file.write(text.replace(f"rows      {len(welds)}", f"rows      {rows}"))
    return path


def as_yaml(path: str) -> str:
    """The same joints and treatments written out as YAML; the path."""
    import yaml

    loader = Loader(os.path.dirname(path))
    exported = export(Spec(loader.read(path), loader).file)
    exported.pop("weld_lists")
    written = f"{os.path.splitext(path)[0]}.yaml"
    with open(written, "w", encoding="utf-8") as file:
        yaml.safe_dump(exported, file, sort_keys=False, allow_unicode=True, explicit_start=True)
    return written


def edited(environment: Environment, folder: str) -> None:
    """One row of 300 changed after a check that kept its outcomes, beside a check of all."""
    path = job(folder, 302)
    table = f"{os.path.splitext(path)[0]}.csv"
    whole = environment.run("hts", "check", path)
    with open(table, encoding="utf-8", newline="") as file:
        heads, *rows = csv.reader(file)
    times = []
    for number in range(3):
        rows[150 + number][heads.index("ISO")] += " rev 2"
        with open(table, "w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows([heads, *rows])
        times.append(environment.run("hts", "check", path).busy)
    print("one row of 302 changed, processor time of a fresh process")
    _row("all judged", whole.seconds, f"{whole.busy:6.2f} s")
    _row("one judged again", 0.0, f"{sorted(times)[1]:6.2f} s")
    _goal("one / all", sorted(times)[1] / whole.busy, 0.3)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.lists", description=__doc__)
    parser.add_argument("--rows", type=int, nargs="+", default=[30, 300, 3000])
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        environment = Environment(folder)
        print("weld lists, one process; wall clock, and processor time")
        each = []
        for rows in asked.rows:
            path = job(folder, rows)
            (run,) = in_turn(1, (environment, ("hts", "check", "--no-cache", path)))
            each.append(run.busy / rows)
            _row(
                f"{rows} rows",
                run.seconds,
                f"{run.busy:6.2f} s, {each[-1] * 1e3:5.2f} ms each {run.megabytes:5.0f} MB",
            )
        edited(environment, folder)
        many = job(folder, 301)
        twin = as_yaml(many)
        ours, lint, schema = in_turn(
            1,
            (environment, ("hts", "check", "--no-cache", many)),
            (environment, ("yamllint", "-d", "relaxed", twin)),
            (environment, ("check-jsonschema", "--schemafile", SCHEMA, twin)),
        )
        for name, run in (("hts, 301 rows", ours), ("yamllint", lint), ("jsonschema", schema)):
            _row(name, run.seconds, f"{run.busy:6.2f} s")
        _goal("hts / both of YAML", ours.busy / (lint.busy + schema.busy), 1.0)


if __name__ == "__main__":
    main()
