"""Printed figures held against their values, and against the same in the other system of units.

By definition: 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 K = 1.8 degF, 0 degC = 32 degF.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from typing import NamedTuple
from unittest import mock

from hts.base.quantities.number import short_text
from hts.job.compiler import Job
from hts.job.outputs import files, show
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.paper.packet.test_words import strings


class Figure(NamedTuple):
    """A printed number, the step it is rounded to, and its unit, empty if it stands elsewhere."""

    value: Fraction
    step: Fraction
    unit: str


_UNIT = r"mm|in|ft|m|°C/h|°F/h|°C|°F|K"
_NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?"
_FIGURE = re.compile(
    rf"(?<![\w./:-])(?P<n>-?(?:{_NUMBER}))(?P<u> (?:{_UNIT})(?![\w²³/]))?(?!\d|[:/.-]\d|\w)"
)
_SPACES = {ord("\N{NO-BREAK SPACE}"): " ", ord("\N{ZERO WIDTH SPACE}"): None}
#: A narrow column has `742–766`, a wide one `742 to 766`.
_TO = re.compile(r"(?<=\d)–(?=\d)")
#: The fingerprint is of the text with the units it asks for.
_PRINT = re.compile(r"[0-9a-f]{4}(?:-[0-9a-f]{4}){2}")


def figures(text: str) -> tuple[str, list[Figure]]:
    """A text with a sign in place of each figure and its unit, and the figures."""
    found: list[Figure] = []

    def taken(match: re.Match[str]) -> str:
        number, unit = match["n"], (match["u"] or "").strip()
        places = len(number.partition(".")[2])
        step = Fraction(1, 16) if "/" in number or (unit == "in" and not places) else Fraction(1)
        value = sum((Fraction(part) for part in number.split()), Fraction(0))
        found.append(Figure(value, Fraction(1, 10**places) if places else step, unit))
        return "#"

    return _FIGURE.sub(taken, _PRINT.sub("", _TO.sub(" to ", text.translate(_SPACES)))), found


#: What is rounded up, and what down, by the last of these words before a figure; what stands
#: behind one of the third is the nearest.
_UP = ("at least", "thickness", "width", "from #", "within")
_DOWN = ("at most", "to", "above")
_NEAREST = ("resistance", "density", "diameter")
_WORDS = re.compile(rf"\b(?:{'|'.join((*_UP, *_DOWN, *_NEAREST))})(?![a-z])", re.IGNORECASE)
#: So much the six decimals may be off.
_SLACK = Fraction(1, 100_000)


def unsafe(printed: str, exact: str, head: str = "") -> Iterator[str]:
    """The figures of a text that are on the wrong side of their values, or further off than their
    step. ``head``: words of a heading that say which side."""
    words, shown = figures(printed)
    same, values = figures(exact)
    if words != same:
        yield f"{printed!r} is {exact!r} written out"
        return
    parts = f"{head} {words}".split("#")
    sides: list[str] = []
    for number, (one, value) in enumerate(zip(shown, values, strict=True)):
        found = _WORDS.findall("#".join(parts[: number + 1]) + "#")
        word = found[-1].lower() if found else ""
        if parts[number].endswith("(") and sides:
            # The same in the other system: `742 to 766 (1368 to 1410)`.
            word = sides[-2] if parts[number + 1].strip() == "to" and len(sides) > 1 else sides[-1]
        sides.append(word)
        off = one.value - value.value
        wrong = (word in _UP and off < -_SLACK) or (word in _DOWN and off > _SLACK)
        if abs(off) >= one.step + _SLACK or wrong:
            yield f"{printed!r}: {float(one.value)} for {float(value.value)} behind {word!r}"


#: What is set on an instrument of the other system stands in its unit, that of the paper behind.
_SPAN = rf"-?(?:{_NUMBER})(?: to (?:{_NUMBER}))?(?:[ \N{{NO-BREAK SPACE}}](?:{_UNIT}))?"
_BOTH = re.compile(rf"(?<![\w.]){_SPAN} \(({_SPAN})\)")
#: Factor, zero and kind of each unit.
_UNITS = {
    "mm": (Fraction(1), 0, "length"), "m": (Fraction(1000), 0, "length"),
    "in": (Fraction("25.4"), 0, "length"), "ft": (Fraction("304.8"), 0, "length"),
    "°C": (Fraction(1), 0, "temperature"), "°F": (Fraction(5, 9), 32, "temperature"),
    "°C/h": (Fraction(1), 0, "rate"), "°F/h": (Fraction(5, 9), 0, "rate"),
    "K": (Fraction(1), 0, "difference"), "mV": (Fraction(1), 0, "emf"),
}  # fmt: skip


def unlike(si: str, us: str, units: tuple[str, str] = ("", "")) -> Iterator[str]:
    """Where two texts, written out, say another thing in the other system. ``units``: those of
    their headings. Figures without any are counts, times or written as the text has them."""
    words, values = figures(_BOTH.sub(r"\1", si))
    same, others = figures(_BOTH.sub(r"\1", us))
    if words != same:
        yield f"{si!r} {us!r}"
        return
    for one, other in zip(values, others, strict=True):
        factor, zero, kind = _UNITS.get(one.unit or units[0], (Fraction(1), 0, ""))
        too, its_zero, its_kind = _UNITS.get(other.unit or units[1], (Fraction(1), 0, ""))
        if kind == "difference" and its_kind == "temperature":
            its_zero, its_kind = 0, kind
        apart = abs((one.value - zero) * factor - (other.value - its_zero) * too)
        # A book may print 600 mm for 24 in; a setpoint is a whole degree of what governs.
        most = max(abs(one.value) * factor / 40, Fraction(1)) if kind else _SLACK
        if kind == "emf":  # of the setpoint: 0.042 mV/K
            most = Fraction("0.05")
        if kind != its_kind or apart > most:
            yield f"{si!r} {us!r}"


@contextmanager
def written_out() -> Iterator[None]:
    """Every figure on paper with six decimals; a time of the clock stays as it is."""

    def whole(exact: Fraction, *_: object) -> str:
        return short_text(exact, 6)

    with mock.patch.multiple(
        show,
        short_text=whole,
        _inches=whole,
        _inside=lambda value, _, symbol: whole(value.to(symbol)),
        _set=lambda value, _, symbol: whole(value.to(symbol)),
    ):
        yield


#: Which side the cells of a column are on, by the beginning of its heading.
_COLUMNS = {
    "rate limit": "at most", "set rate": "at most", "programmed rate": "at most",
    "limit counts from": "at most", "alarm above": "at most", "alarm below": "at least",
    "hold range from": "at least", "hold range to": "at most", "limit of error": "at least",
    "every reading within": "at least", "in total": "at least", "on each side": "at least",
}  # fmt: skip
_HEADED = re.compile(r"(.*?)(?:, | \[)(?:.* \()?((?:°|deg)[CF](?:/h)?|mm|in|K|mV)\b\)?.*")


def cells(text: str) -> Iterator[tuple[str, str, str]]:
    """Side, unit and text of each cell of the tables of a sheet, and of each line between them."""
    if not text.startswith("joint,"):
        lines = [[cell.strip("| ") for cell in line.split(" | ")] for line in text.splitlines()]
    else:
        lines = list(csv.reader(io.StringIO(text)))
    heads = lines[0] if text.startswith("joint,") else []
    for number, line in enumerate(lines):
        if number + 1 < len(lines) and lines[number + 1][0].startswith("---"):
            heads = line
        elif line is not heads and not line[0].startswith("---"):
            for head, cell in zip(heads if len(heads) == len(line) else line, line, strict=True):
                named = _HEADED.fullmatch(head)
                name, unit = named.groups() if named and head is not cell else ("", "")
                sides = (side for word, side in _COLUMNS.items() if name.lower().startswith(word))
                yield next(sides, ""), unit.replace("deg", "°"), cell


PARTED = "tables are parted otherwise"


def sheets(job: Job) -> dict[str, str]:
    """The tables of a job, by name of the file."""
    return {name: data.decode() for name, data in files(job).items()}


def texts(job: Job) -> list[str]:
    """Every text of the packet but for the drawings."""
    found = (text for subject in subjects(job) for text in strings(pages(subject)))
    return [text for text in found if not text.startswith("<?xml")]


def unsafe_sheets(job: Job) -> Iterator[str]:
    """Every figure of the tables of a job that is not on the safe side of its value."""
    printed = sheets(job)
    with written_out():
        exact = sheets(job)
    for name in printed:
        if name.endswith((".csv", ".md")):
            both = zip(cells(printed[name]), cells(exact[name]), strict=True)
            for (side, _, cell), (_, _, whole) in both:
                yield from unsafe(cell, whole, side)


def unsafe_packet(job: Job) -> Iterator[str]:
    """The same of its packet; PARTED alone where the long figures part its tables otherwise."""
    printed = texts(job)
    with written_out():
        exact = texts(job)
    ours, theirs = ([figures(text)[0] for text in each] for each in (printed, exact))
    # The same words in another order, too: what stood in one column stands in another.
    if len(ours) != len(theirs) or (ours != theirs and sorted(ours) == sorted(theirs)):
        yield PARTED
        return
    for one, whole in zip(printed, exact, strict=True):
        yield from unsafe(one, whole)


def unlike_sheets(si: Job, us: Job) -> Iterator[str]:
    """Where the sheets of a job have another value in the other system."""
    with written_out():
        ours, theirs = sheets(si), sheets(us)
    for name in ours:
        if name.endswith(".md"):
            both = zip(cells(ours[name]), cells(theirs[name]), strict=True)
            for (_, unit, one), (_, other, two) in both:
                yield from unlike(one, two, (unit, other))
