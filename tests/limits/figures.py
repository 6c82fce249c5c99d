"""Every figure of the books a second time: `figures.txt`, and mutants of single numbers.

Double entry, as bookkeepers have it: a number of `hts/base/data/books` that is changed, by a slip
or on purpose, has to be changed here, too, by somebody who has the page before them. It proves no
figure right; that is for the check values in `test_book_*.py`, worked from the pages by hand.

    python -m tests.limits.figures                  writes figures.txt anew: look at the difference
    python -m tests.limits.figures --mutants 200    how many changed numbers the values notice
"""

from __future__ import annotations

import argparse
import copy
import re
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import hts.base.data
from hts.limits.books import books
from tests.limits.noticed import in_place_of

HERE = Path(__file__).parent
FIGURES = HERE / "figures.txt"
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:/\d+)?(?![\w])")
#: Parts of a row that hold figures; numbers in words, ids and citations are none.
_PARTS = ("when", "at_least", "at_most", "between", "is", "above", "within")
_OF_ANY_BOOK = {
    "test_book_file.py", "test_books.py", "test_figures.py", "test_sweep.py", "test_titles.py",
    "test_values.py", "test_words.py",
}  # fmt: skip
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


def not_noticed(count: int, seed: int) -> list[str]:
    """Of so many mutants those no test that names the book notices, the double entry apart."""
    by_book: dict[str, list[tuple[str, Any]]] = {}
    for id, change, data in mutants(Random(seed), count):
        by_book.setdefault(id, []).append((change, data))
    return [
        f"{id} {change}"
        for id, made in by_book.items()
        for (change, _), seen in zip(
            made, in_place_of(id, [data for _, data in made], _tests(id)), strict=True
        )
        if not seen
    ]


def _tests(id: str) -> list[str]:
    """The tests of this folder that name the book, but for those of how any book is made."""
    named = [
        str(path)
        for path in sorted(HERE.glob("test_*.py"))
        if path.name not in _OF_ANY_BOOK and id in path.read_text(encoding="utf-8")
    ]
    lines = (HERE / "values.txt").read_text(encoding="utf-8").splitlines()
    if any(line.split()[0] == id for line in lines):
        named.append(f"{HERE / 'test_values.py'}::test_the_book_says_so[{id}]")
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
    left = not_noticed(asked.mutants, asked.seed)
    for change in left:
        print(f"not noticed: {change}")
    print(f"{asked.mutants - len(left)} of {asked.mutants} changed numbers noticed by check values")


if __name__ == "__main__":
    main()
