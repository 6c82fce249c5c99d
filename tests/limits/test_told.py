"""All that governs for many welds under one book and under several, and all that is told of a book
with a slip in each of its lines, word for word."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from hts.limits import book, demands
from hts.limits.book_file import read as read_book
from hts.limits.demand import Demand, Governing
from hts.limits.looser import looser
from hts.limits.quantities import LIMITED
from hts.syntax.formula import Fact
from tests.limits.conftest import in_system, read
from tests.limits.test_book_file import ISLAND
from tests.limits.test_values import OPTIONS, VALUES
from tests.told import each_once, without_figures

TOLD = Path(__file__).with_name("told")
#: Of the lines of check values each so many-th is asked for all that governs.
_EVERY = 12


def facts_of(line: str) -> tuple[str, str, str, dict[str, Fact], list[str]]:
    head, stated, *_ = (column.strip() for column in line.split("|"))
    id, edition, system, *options = head.split()
    facts = {"weld_kind": "girth-butt"}
    for fact in stated.split(";"):
        name, _, value = fact.strip().partition(" ")
        facts[name] = value
    for name in ("thicker_wall", "thinner_wall"):
        facts.setdefault(name, facts["wall"])
    known = {name: in_system(read(name, value), system) for name, value in facts.items()}
    return id, edition, system, known, [OPTIONS[option] for option in options]


def limits_of(line: str) -> tuple[object, ...]:
    id, edition, system, *_ = facts_of(line)
    return tuple(book(id, None if edition == "-" else edition, system).limits)  # type: ignore[arg-type]


def asked(demand: Demand | None) -> str:
    if demand is None:
        return "-"
    shown = ", ".join(f"{way} {demand.shown(way)}" for way in demand.bounds)
    more = [
        f"above {demand.above}" if demand.above else "",
        f"within {demand.within}" if demand.within else "",
    ]
    more += [demand.limit.status or "", f"of {demand.side}" if demand.side else ""]
    return " ".join(
        part for part in (demand.limit.source.name, demand.limit.id, shown, *more) if part
    )


def governing(found: Mapping[str, Governing]) -> Iterator[str]:
    for quantity in LIMITED:
        one = found.get(quantity)
        if one is None:
            continue
        more = f"{one.exactly or ''} {one.status or ''}"
        yield f"  {quantity}: {one.minimum} .. {one.maximum} {more}".rstrip()
        for way in ("minimum", "maximum", "exactly"):
            for demand in one.ordered(way):
                yield f"    {way}: {asked(demand)}"
            if one.margin(way) is not None:
                yield f"    {way} by {one.margin(way)} before {asked(one.runner_up(way))}"
        for threshold in one.thresholds() if quantity.endswith("rate") else ():
            for way in ("minimum", "maximum"):
                yield f"    {way} from {threshold}: {asked(one.rate_at(threshold, way))}"
        for item in one.unanswered:
            side = f" of {item.side}" if item.side else ""
            yield f"    unanswered{side}: {item.limit.id} {', '.join(item.names)} {item.reason}"
        if one.conflict() is not None:
            yield f"    conflict: {' / '.join(map(asked, one.conflict()))}"
        for pair in one.exclusive():
            yield f"    exclusive: {' / '.join(map(asked, pair))}"


CASES = VALUES[::_EVERY]


def of_any_side(line: str) -> str:
    return re.sub(r" of (up|down)stream", "", without_figures(line))


def test_all_that_is_told_to_govern() -> None:
    """Under one book; and under two, each of them on a side of its own."""
    texts: dict[str, list[str]] = {}
    for line in CASES:
        id, *_, facts, options = facts_of(line)
        texts.setdefault(id, []).extend(
            [
                line.rpartition("|")[0],
                *governing(demands(limits_of(line), {"both": facts}, options)),
            ]
        )
    lines = texts["two books"] = []
    for one, other in zip(CASES, CASES[len(CASES) // 2 :], strict=False):
        first, second = facts_of(one), facts_of(other)
        if first[2] != second[2]:
            continue
        sides = {"upstream": first[3], "downstream": {**first[3], **second[3]}}
        found = demands([*limits_of(one), *limits_of(other)], sides, first[4])
        lines += [f"{one.rpartition('|')[0]} & {other.rpartition('|')[0]}", *governing(found)]
        ours, theirs = (demands(limits_of(each), sides) for each in (one, other))
        for item in looser(ours, theirs):
            lines.append(f"    looser {item.quantity} {item.direction} {item.above}: "
                         f"{asked(item.procedure)} / {asked(item.book)}")  # fmt: skip
    each_once(
        TOLD / "governs.txt", {name: "\n".join(lines) for name, lines in texts.items()}, of_any_side
    )


def slips(line: str) -> Iterator[str]:
    """A line of a book with its value gone, another word, and a figure without its unit."""
    head, colon, value = line.partition(": ")
    if not colon:
        yield line.replace("- ", "- xx", 1) if "- " in line else f"{line} xx"
        return
    yield f"{head}: xx"
    yield f"{head[:-2]}{colon}{value}"
    bare = re.sub(r"(\d) ?[A-Za-z/]+", r"\1", value)
    if bare != value:
        yield f"{head}: {bare}"


def told_of_slips() -> list[str]:
    """A slip in each line of a book."""
    lines = ISLAND.split("\n")
    told = []
    for number, line in enumerate(lines):
        for wrong in dict.fromkeys(slips(line)) if line.strip() and line.strip()[0] != "#" else ():
            if wrong != line:
                text = "\n".join([*lines[:number], wrong, *lines[number + 1 :]])
                told.append(wrong)
                for fault in read_book(text).faults:
                    told.append(
                        f"    <{text[fault.start : fault.end]}> {fault.message} | {fault.help}"
                    )
    return told


def told_of_what_is_no_book() -> list[str]:
    texts = ["", "\n# only this\n", "[]", "a", "id: x\n", "id: x\nid: y\n", "rows: [",
    "a: &b 1\nc: *b\n",
             "id: 5\n", "id: 2024-01-01\n", "rows: !!python/name:os.system\n", "a: \0\n",
             "- [" * 60]  # fmt: skip
    told = []
    for text in texts:
        told.append(ascii(text[:40]))
        told += [
            f"    {fault.start}:{fault.end} {fault.message} | {fault.help}"
            for fault in read_book(text).faults
        ]
    return told


def test_what_is_told_of_books_with_slips() -> None:
    texts = {"a slip in each line": told_of_slips(), "no book": told_of_what_is_no_book()}
    each_once(TOLD / "books.txt", {name: "\n".join(lines) for name, lines in texts.items()})
