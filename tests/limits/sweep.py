"""Figures of the books that no check value would miss: each a tenth greater and a tenth smaller.

    python -m tests.limits.sweep    writes unvalued.txt anew: look at the difference

A check value is a line of `values.txt`: facts of a joint and what the book gives for them, in one
system of units. A figure is held where a line changes with it, upwards and downwards, so that there
are values on both sides of a step, in the system it is printed in. What is not held is listed in
`unvalued.txt` with the basis of its row, and watched by the double entry of `figures.txt` and,
where it has them, by the values of `test_book_*.py`.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import hts.base.data
from hts.limits.books import books
from tests.limits.figures import _NUMBER, places, text_at
from tests.limits.test_values import VALUES, answer

UNVALUED = Path(__file__).parent / "unvalued.txt"


def unvalued(id: str) -> Iterator[str]:
    """`book row part: figure too great, too small (basis)` for each figure no line would miss."""
    data = hts.base.data.load(f"books/{id}")
    lines: dict[str, list[str]] = {}
    for line in VALUES:
        if line.split()[0] == id:
            lines.setdefault(line.split("|")[2].strip(), []).append(line)
    for row, steps in places(data):
        entry = data["rows"][steps[1]]
        asked = lines.get(entry["quantity"], [])
        for number, found in enumerate(_NUMBER.finditer(text_at(data, steps)), 1):
            missed = [
                word
                for word, factor in (("greater", Fraction(11, 10)), ("smaller", Fraction(9, 10)))
                if not any(_differs(line, _changed(data, steps, found, factor)) for line in asked)
            ]
            if missed:
                part = ".".join(str(step) for step in steps[2:])
                basis = entry["basis"]
                if isinstance(basis, dict):
                    basis = basis[next((at for at in steps if at in basis), "SI")]
                yield (f"{id} {row} {part} {number}: {found[0]} {' and '.join(missed)} ({basis})")


def _changed(data: Any, steps: tuple[str | int, ...], found: Any, factor: Fraction) -> Any:
    """The book with one figure another: the rows beside it are shared."""
    text = text_at(data, steps)
    new = f"{float(Fraction(found[0]) * factor):.6g}"
    rows = list(data["rows"])
    rows[int(steps[1])] = row = copy.deepcopy(rows[int(steps[1])])
    place: Any = {"rows": {steps[1]: row}}
    for step in steps[:-1]:
        place = place[step]
    place[steps[-1]] = text[: found.start()] + new + text[found.end() :]
    return {**data, "rows": rows}


def _differs(line: str, data: Any) -> bool:
    try:
        said = answer(line, data)  # type: ignore[no-untyped-call]
        return bool(said != line.rpartition("|")[2].strip())
    except Exception:  # a figure that makes no sense in its place is noticed
        return True


def main() -> None:
    found = [line for id in books() for line in unvalued(id)]
    UNVALUED.write_text("\n".join(found) + "\n", encoding="utf-8")
    print(f"{UNVALUED.name}: {len(found)} figures")


if __name__ == "__main__":
    main()
