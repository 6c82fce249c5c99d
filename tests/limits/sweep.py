"""Figures of the books that no check value would miss: each a tenth greater and a tenth smaller.

    python -m tests.limits.sweep    writes unvalued.txt anew: look at the difference

A check value is a line of `values.txt`, facts of a joint and what the book gives for them in one
system of units, or a test of `test_book_*.py` that works one out by hand. A figure is held where
one of them changes with it, upwards and downwards, so that there are values on both sides of a
step, in the system it is printed in. What is not held is listed in `unvalued.txt` with the basis of
its row, and watched by the double entry of `figures.txt`.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

import hts.base.data
from hts.limits.books import books
from tests.limits.figures import _NUMBER, places, text_at
from tests.limits.noticed import in_place_of
from tests.limits.test_values import VALUES, answer

HERE = Path(__file__).parent
UNVALUED = HERE / "unvalued.txt"
#: Tests of values worked out by hand, and those named like them that hold a book to other things.
_WORKED = ("test_book_*.py", "test_asme_b31_3.py", "test_local_heating.py")
_NOT_WORKED = {"test_book_agreement.py", "test_book_facts.py", "test_book_file.py"}


class Changed(NamedTuple):
    """A book with one figure another: ``word``, which way; ``told``, how the figure is listed."""

    told: str
    word: str
    basis: str
    quantity: str
    data: Any


def unvalued(id: str) -> list[str]:
    """`book row part: figure too great, too small (basis)` for each figure no value would miss."""
    lines: dict[str, list[str]] = {}
    for line in VALUES:
        if line.split()[0] == id:
            lines.setdefault(line.split("|")[2].strip(), []).append(line)
    left = [
        changed
        for changed in _every(id)
        if not any(_differs(line, changed.data) for line in lines.get(changed.quantity, ()))
    ]
    noticed = _noticed(id, [changed.data for changed in left])
    missed: dict[tuple[str, str], list[str]] = {}
    for changed, seen in zip(left, noticed, strict=True):
        if not seen:
            missed.setdefault((changed.told, changed.basis), []).append(changed.word)
    return [f"{told} {' and '.join(words)} ({basis})" for (told, basis), words in missed.items()]


def _every(id: str) -> Iterator[Changed]:
    data = hts.base.data.load(f"books/{id}")
    for row, steps in places(data):
        entry = data["rows"][steps[1]]
        part = ".".join(str(step) for step in steps[2:])
        basis = entry["basis"]
        if isinstance(basis, dict):
            basis = basis[next((at for at in steps if at in basis), "SI")]
        for number, found in enumerate(_NUMBER.finditer(text_at(data, steps)), 1):
            for word, factor in (("greater", Fraction(11, 10)), ("smaller", Fraction(9, 10))):
                told = f"{id} {row} {part} {number}: {found[0]}"
                new = _changed(data, steps, found, factor)
                yield Changed(told, word, basis, entry["quantity"], new)


def _changed(data: Any, steps: tuple[str | int, ...], found: Any, factor: Fraction) -> Any:
    """The book with one figure another: the rows beside it are shared."""
    text = text_at(data, steps)
    # A tenth of nothing is nothing: one more, or one less.
    value = Fraction(found[0]) * factor or 10 * (factor - 1)
    new = f"{float(value):.6g}"
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


def _noticed(id: str, changed: list[Any]) -> list[bool]:
    """Whether a test of values worked by hand fails with each of these instead of the book."""
    tests = [
        str(path)
        for pattern in _WORKED
        for path in sorted(HERE.glob(pattern))
        if path.name not in _NOT_WORKED and f'"{id}"' in path.read_text(encoding="utf-8")
    ]
    return in_place_of(id, changed, tests)


def main() -> None:
    found = [line for id in books() for line in unvalued(id)]
    UNVALUED.write_text("\n".join(found) + "\n", encoding="utf-8")
    print(f"{UNVALUED.name}: {len(found)} figures")


if __name__ == "__main__":
    main()
