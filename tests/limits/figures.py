"""Every figure of the books a second time: `figures.txt`, and mutants of single numbers.

Double entry, as bookkeepers have it: a number of `hts/base/data/books` that is changed, by a slip
or on purpose, has to be changed here, too, by somebody who has the page before them. It proves no
figure right; that is for the check values in `test_book_*.py`, worked from the pages by hand.

    python -m tests.limits.figures                  writes figures.txt anew: look at the difference
    python -m tests.limits.figures --mutants 200    how many changed numbers the values notice
"""

from __future__ import annotations

import argparse
import contextlib
import copy
import io
import re
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest

import hts.base.data
from hts.limits.books import book, books

HERE = Path(__file__).parent
FIGURES = HERE / "figures.txt"
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:/\d+)?(?![\w])")
#: Parts of a row that hold figures; numbers in words, ids and citations are none.
_PARTS = ("when", "at_least", "at_most", "between", "is", "above", "within")
Place = tuple[str, tuple[str | int, ...]]


def places(data: Any) -> Iterator[Place]:
    """Each text of the rows of a book that holds figures, with the steps that lead to it."""
    for number, row in enumerate(data["rows"]):
        for part in _PARTS:
            if part in row:
                yield from _texts(row["id"], row[part], ("rows", number, part))


def _texts(id: str, value: Any, steps: tuple[str | int, ...]) -> Iterator[Place]:
    if isinstance(value, str):
        if _NUMBER.search(value):
            yield id, steps
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from _texts(id, one, (*steps, key))
    else:
        for number, one in enumerate(value):
            yield from _texts(id, one, (*steps, number))


def text_at(data: Any, steps: tuple[str | int, ...]) -> str:
    for step in steps:
        data = data[step]
    return str(data)


def listed(id: str, data: Any) -> list[str]:
    """The figures of a book, one line for each part of a row: `asme-ix row part: 1 2 3`."""
    lines = []
    for row, steps in places(data):
        part = ".".join(str(step) for step in steps[2:])
        lines.append(f"{id} {row} {part}: {' '.join(_NUMBER.findall(text_at(data, steps)))}")
    return lines


def mutants(random: Random, count: int) -> Iterator[tuple[str, str, Any]]:
    """Books with one number changed: id, what was changed, and the data."""
    all_places = [
        (id, place) for id in books() for place in places(hts.base.data.load(f"books/{id}"))
    ]
    for id, (row, steps) in random.sample(all_places, min(count, len(all_places))):
        data = copy.deepcopy(hts.base.data.load(f"books/{id}"))
        text = text_at(data, steps)
        found = random.choice(list(_NUMBER.finditer(text)))
        new = _changed(found[0], random)
        place = data
        for step in steps[:-1]:
            place = place[step]
        place[steps[-1]] = text[: found.start()] + new + text[found.end() :]
        yield id, f"{row} {'.'.join(map(str, steps[2:]))}: {text!r}: {found[0]} -> {new}", data


def _changed(number: str, random: Random) -> str:
    """Another number, as slips make them: a digit changed, one more, one less, ten times."""
    head, slash, tail = number.partition("/")
    if slash:
        return f"{int(head) + 1}/{tail}"
    whole = [str(int(float(head)) + 1), head + "0" if "." not in head else head + "9"]
    if len(head) > 1 and head.isdigit() and head[0] != head[1]:
        whole.append(head[1] + head[0] + head[2:])
    return random.choice([one for one in whole if float(one) != float(head)])


def notice(id: str, data: Any) -> bool:
    """Whether the tests that name the book, the double entry apart, notice a mutant."""
    # What `load` gives is shared: a book changed in it is changed for every test.
    shared = hts.base.data.load(f"books/{id}")
    kept = dict(shared)
    try:
        shared.clear()
        shared.update(data)
        book.cache_clear()
        with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
            options = ["-q", "-x", "-n", "0", "-p", "no:cacheprovider", "-W", "ignore"]
            return pytest.main([*options, *_tests(id)]) == pytest.ExitCode.TESTS_FAILED
    finally:
        shared.clear()
        shared.update(kept)
        book.cache_clear()


def _tests(id: str) -> list[str]:
    """The test files of this folder that name the book."""
    named = [
        str(path)
        for path in sorted(HERE.glob("test_*.py"))
        if path.name != "test_figures.py"
        and (id in path.read_text(encoding="utf-8") or path.name == "test_values.py")
    ]
    return named or [str(HERE / "test_books.py")]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--mutants", type=int, metavar="N")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    if not asked.mutants:
        lines = [line for id in books() for line in listed(id, hts.base.data.load(f"books/{id}"))]
        FIGURES.write_text("\n".join(lines) + "\n", encoding="utf-8")
        print(f"{FIGURES.name}: {len(lines)} lines")
        return
    noticed = 0
    for id, change, data in mutants(Random(asked.seed), asked.mutants):
        if notice(id, data):
            noticed += 1
        else:
            print(f"not noticed: {id} {change}", flush=True)
    print(f"{noticed} of {asked.mutants} changed numbers noticed by check values")


if __name__ == "__main__":
    main()
