"""Colours of thermocouple wire and extension cable, and what a colour seen on site can mean."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from hts.base.provenance import Origin
from hts.science.thermocouples.errors import NotDefined, UnknownName
from hts.science.thermocouples.facts import facts, origin
from hts.science.thermocouples.reference import require_type

GRADES = ("thermocouple", "extension")
PARTS = ("jacket", "positive", "negative")

# ASTM and IEC use two words for one colour; British and American English two spellings.
_SAME = {"gray": "grey", "purple": "violet"}


class Colours(NamedTuple):
    """Colours of one cable. `current` is False for a withdrawn scheme."""

    standard: str
    type: str
    grade: str
    jacket: str
    positive: str
    negative: str
    current: bool
    origin: Origin


def cable_colours(standard: str, type: str, grade: str) -> Colours:
    """Colours of a type in a colour scheme, for grade "thermocouple" or "extension".

    Raises UnknownName for an unknown scheme, type or grade, NotDefined where the scheme has
    no colours for the combination.
    """
    if standard not in colour_standards():
        raise UnknownName("colour standard", standard, colour_standards())
    require_type(type)
    if grade not in GRADES:
        raise UnknownName("wire grade", grade, GRADES)
    for entry in _all():
        if (entry.standard, entry.type, entry.grade) == (standard, type, grade):
            return entry
    raise NotDefined(f"no {standard} colours are held for type {type}, {grade} grade")


def colour_standards() -> tuple[str, ...]:
    """Names of the colour schemes held, withdrawn ones included."""
    return tuple(dict.fromkeys(entry.standard for entry in _all()))


def meanings(part: str, colour: str) -> tuple[Colours, ...]:
    """Every cable of every scheme whose `part` (jacket, positive, negative) has this colour.

    More than one type among them is a trap: red is the negative leg in ASTM E230 but the
    positive one in the old JIS and DIN schemes. Raises UnknownName for an unknown part.
    """
    if part not in PARTS:
        raise UnknownName("part of a cable", part, PARTS)
    wanted = _plain(colour)
    return tuple(entry for entry in _all() if _plain(getattr(entry, part)) == wanted)


def intrinsically_safe_jacket(standard: str) -> str | None:
    """Jacket colour that marks an intrinsically safe circuit whatever the type, if any."""
    for entry in facts("intrinsically_safe"):
        if entry["standard"] == standard:
            return str(entry["jacket"])
    return None


def _plain(colour: str) -> str:
    word = colour.strip().lower()
    return _SAME.get(word, word)


@cache
def _all() -> tuple[Colours, ...]:
    return tuple(
        Colours(
            entry["standard"],
            entry["type"],
            entry["grade"],
            entry["jacket"],
            entry["positive"],
            entry["negative"],
            entry["current"],
            origin(entry),
        )
        for entry in facts("colours")
    )
