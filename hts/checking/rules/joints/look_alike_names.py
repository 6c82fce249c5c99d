"""Two welds do not have numbers that are taken for each other."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from hts.base.findings import Label
from hts.base.text import Span
from hts.base.text.alike import as_seen, foreign_letter
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.rows.table_source import TableSource


def _two(first: str, second: str) -> tuple[tuple[str, str], ...]:
    """A second weld like W12, treated with it; the first renamed."""
    both = f"{first}, {second}"
    return (
        ("joint W12 {", f"joint {first} {{"),
        ("preheat W12 {", f"joint {second} like {first} {{\n}}\n\npreheat {both} {{"),
        ("for W12 {", f"for {both} {{"),
    )


RULE = Rule(
    "J214",
    "look-alike-names",
    "warning",
    summary="Two welds, or two thermocouples of a weld, whose names differ in a hyphen, a leading "
    "nought, capitals, or letters that look alike; and a name with a letter of another alphabet.",
    why="On a flag, a chart or over the radio one is taken for the other: the wrong weld is heated "
    "and the other is released. Spreadsheets and typing make such a second weld out of the first.",
    fix="Find out whether they are two, and give each a name that nobody takes for the other.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_two("W12", "W-12"), at="W-12", says="W12 and W-12"),
        Bad(_two("W012", "W12"), at="W12", says="W012 and W12"),
        Bad(_two("W101", "W1O1"), at="W1O1", says="W101 and W1O1"),
        Bad(_two("W12", "\u041212"), at="\u041212", says="U+0412"),
        Bad((("T2S  spare", "T02  spare"),), at="T02", says="T2 and T02"),
    ),
    good=(Good(_two("W1-12", "W11-2")), Good(_two("W12", "W12R1"))),
)


class _Named(NamedTuple):
    name: str
    at: Span
    address: str


@RULE.for_spec
def check(case: Case) -> None:
    joints = [
        _Named(joint.name, (joint.row or joint.entry).place("names"), joint.address)
        for joint in case.spec.own
    ]
    _tell(case, "welds", joints)
    looked: set[int] = set()
    for joint in case.spec.own:
        block = joint.entry.thermocouples
        if block is None or id(block) in looked:
            continue
        looked.add(id(block))
        named = [
            _Named(each.name, each.place("name"), f"{joint.address}/thermocouples/{each.name}")
            for each in block.each
            if isinstance(each.name, str)
        ]
        _tell(case, "thermocouples", named)


def _tell(case: Case, what: str, named: Iterable[_Named]) -> None:
    named = list(named)
    for first, second in _alike(named):
        case.add(
            RULE.found(
                f"{what} {first.name} and {second.name} look alike",
                second.at,
                address=second.address,
                others=[Label(first.at, first.name)],
                basis=RULE.basis,
            )
        )
    if all(each.name.isascii() for each in named):
        return
    latin = any(letter.isascii() and letter.isalpha() for each in named for letter in each.name)
    for each in named if latin else ():
        letter = foreign_letter(each.name)
        if letter is not None:
            alphabet = unicodedata.name(letter).split()[0].capitalize()
            case.add(
                RULE.found(
                    f"the {letter} of {each.name} is a {alphabet} letter (U+{ord(letter):04X}) "
                    "and looks like a Latin one",
                    each.at,
                    address=each.address,
                    help="Write the name with the letters of the other names.",
                    basis=RULE.basis,
                )
            )


def _alike(named: Iterable[_Named]) -> Iterator[tuple[_Named, _Named]]:
    """Each that looks like one before it, with that. What differs in capitals alone within one
    table is told when the table is read; a name with a foreign letter is told by itself."""
    seen: dict[str, _Named] = {}
    for each in named:
        first = seen.setdefault(as_seen(each.name), each)
        if first.name == each.name or foreign_letter(each.name) or foreign_letter(first.name):
            continue
        same_table = each.at.source is first.at.source and isinstance(each.at.source, TableSource)
        if same_table and first.name.casefold() == each.name.casefold():
            continue
        yield first, each
