"""The right form of what people are used to writing in another one: dates, places on the clock,
ranges, digits mistaken for letters, short words. For messages only."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Collection

from hts.language.vocabulary.types.amounts import Amount, OrRule, Range
from hts.language.vocabulary.types.base import Type
from hts.language.vocabulary.types.places import Clock
from hts.language.vocabulary.types.words import BookEdition, Day
from hts.syntax.pasted import letters_for_digits

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")

#: Short or other words, and what the language says; it is offered where it can stand only.
_LABELS = {
    "ch": "channel",
    "chn": "channel",
    "chan": "channel",
    "sch": "schedule",
    "sched": "schedule",
    "od": "outside diameter",
    "max": "at most",
    "maximum": "at most",
    "min": "at least",
    "minimum": "at least",
    "over": "above",
    "under": "below",
    "rec": "recorder",
    "thk": "thickness",
    "thick": "thickness",
    "ser": "serial",
    "rev": "revision",
    "code": "governed by",
    "codes": "governed by",
    "standard": "governed by",
    "weld": "joint",
    "tc": "thermocouples",
    "tcs": "thermocouples",
    "thermocouple": "thermocouples",
    "pwht": "cycle",
    "postheat": "bake",
    "bakeout": "bake",
    "bake-out": "bake",
    "soak": "hold",
    "dwell": "hold",
    "ramp": "heat",
}
_SHORT = re.compile(r"([A-Za-z]+)\.?[ \t]*(\d\w*)?")


def meant_label(word: str) -> str:
    """The language's own words for a short or other word; empty where there are none."""
    return _LABELS.get(word.lower(), "")


def right_form(rest: str, expected: Type | None, labels: Collection[str]) -> str:
    """What to write, empty where no habit is known.

    ``rest`` is the line from the misread place on, ``expected`` what is awaited there
    (None: the end, or a clause), and ``labels`` the clauses the entry can go on with.
    """
    rest = re.split(r"[#{\n\r]", rest, maxsplit=1)[0].rstrip()
    if "arc " in rest[:4] and "arc" in labels:
        measured = re.match(r"arc\s+[\d.]+\s*\w+", rest)
        return f"leave out `at`: {measured.group() if measured else 'arc 478.8 mm'}"
    if re.match(r"(beside|next to|near|close to)\b", rest) and "at" in labels:
        return "write where it sits by the clock and along the pipe: at 12:15, on weld"
    if isinstance(expected, OrRule):
        expected = expected.stated
    for kind, form in _BY_KIND:
        if isinstance(expected, kind):
            return form(rest)
    short = _SHORT.match(rest)
    if short is not None:
        word, number = short.groups()
        label = meant_label(word)
        if label in labels:
            # What has a unit goes on behind the number.
            shown = f" {number}" if number and label in ("channel", "schedule") else ""
            return f"write `{label}{shown}` in place of `{short.group() if shown else word}`"
    if "NPS" in labels and (size := re.match(r'(\d[\d /]*?)\s*(in|inch|")\b', rest)):
        return f"write the nominal size as NPS {size.group(1)}, the schedule as schedule 80"
    return ""


def _day(rest: str) -> str:
    year_first = re.match(r"(\d{4})[/.]?(\d{1,2})[/.]?(\d{1,2})(?!\d)", rest)
    if year_first is not None:
        return f"write the date as {_iso(*year_first.groups())} (year-month-day)"
    named = re.match(r"(\d{1,2})\.?[ -]([A-Za-z]{3})[a-z]*\.?,?[ -](\d{4})", rest)
    if named is not None and named.group(2).lower() in _MONTHS:
        day, name, year = named.groups()
        month = str(_MONTHS.index(name.lower()) + 1)
        return f"write the date as {_iso(year, month, day)} (year-month-day)"
    parts = re.match(r"(\d{1,2})[/-](\d{1,2})[/-](\d{4})", rest)
    if parts is None:
        return ""
    one, two, year = parts.groups()
    # Which of the two is the month differs from country to country.
    meant = [_iso(year, m, d) for m, d in ((two, one), (one, two)) if int(m) <= 12 and int(d) <= 31]
    if not meant:
        return ""
    return f"write the date with the year first: {' or '.join(dict.fromkeys(meant))}"


def _iso(year: str, month: str, day: str) -> str:
    return f"{year}-{int(month):02}-{int(day):02}"


def _clock(rest: str) -> str:
    hour = re.match(r"(\d{1,2})(?![\d:.])", rest)
    if hour is not None and 1 <= int(hour.group(1)) <= 12:
        return f"write the place on the clock with its minutes: {int(hour.group(1))}:00"
    return ""


def _range(rest: str) -> str:
    to = re.match(r"([\d.]+)\s*(\S+\s+)?(?:to|and|through)\s+([\d.]+)\s*(\S*)", rest)
    if to is None:
        return ""
    low, _, high, unit = to.groups()
    return f"write the range as {low} .. {high} {unit}".rstrip()


def _quantity(rest: str) -> str:
    if rest.startswith("="):
        return "remove the sign: the value follows after a blank"
    schedule = re.match(r"sch(?:ed(?:ule)?)?\.?\s*(\w+)", rest, re.I)
    if schedule is not None:
        return f"a schedule stands with the size: pipe NPS 12 schedule {schedule.group(1)}"
    first = rest.split()[0] if rest.split() else ""
    plain = unicodedata.normalize("NFKC", first)
    if plain != first and plain.isascii():
        return f"write {plain} with the digits of a keyboard"
    return letters_for_digits(rest)


def _book(rest: str) -> str:
    from hts.limits.books import UnknownEdition, book, books
    from hts.limits.titles import edition_in, meant

    # Several books stand in one line, with commas between them.
    title = rest.partition(",")[0]
    found = meant(title, books())
    if not found:
        return "`hts books` lists the books; grammar/ADD-A-BOOK.md shows how to bring one along"
    if len(found) > 2:
        return f"write one of these books: {', '.join(found)}"
    if len(found) == 2:
        return f"write {found[0]} or {found[1]}"
    (id,) = found
    try:
        book(id)
    except UnknownEdition as error:
        return f"write {id} edition {edition_in(title) or error.editions[-1]}"
    return f"write {id}"


_BY_KIND: tuple[tuple[type[Type], Callable[[str], str]], ...] = (
    (Day, _day),
    (Clock, _clock),
    (Range, _range),
    (Amount, _quantity),
    (BookEdition, _book),
)
