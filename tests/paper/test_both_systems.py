"""Every figure on the sheets of a job, in SI and in US units, is on the safe side of its value.

The sheets are made three times: in each system as they are printed, and with every figure written
out to six decimals. So each printed figure has its value in the same place. A least is never
printed lower than it is, a most never higher, and what is neither is the nearest; which of them it
is, is read off the words before the figure or its heading, as a person does. The values of the two
systems are the same by conversion, but where a book prints a pair. By definition: 1 in = 25.4 mm,
1 ft = 304.8 mm, 1 K = 1.8 degF, 0 degC = 32 degF.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from hts.base.quantities.number import short_text
from hts.base.text import Source
from hts.job.compiler import Job, compile_spec
from hts.job.outputs import files as tables
from hts.job.outputs import show
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.paper.packet.jobs import GOOD, ROOT
from tests.paper.packet.test_words import strings

JOBS = [*GOOD, *sorted((ROOT / "tests/specs/jobs").glob("*.hts"))]
#: Their packets have every block there is; those of the others would take long.
PACKETS = [path for path in JOBS if path.stem in ("p22-header", "induction-preheat", "vessel")]
_SHOW = re.compile(r"(?m)^(  show +).*$")


@cache
def in_units(path: Path, system: str) -> Job:
    """The job of a specification that asks for one system of units on paper."""
    text, changed = _SHOW.subn(rf"\g<1>{system}", path.read_text(encoding="utf-8"))
    assert changed == 1
    loader = Loader(root_of(str(path)))
    return compile_spec(Spec(Source(text, path.name, str(path)), loader))


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

    return _FIGURE.sub(taken, _PRINT.sub("", text.translate(_SPACES))), found


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


def sheets(job: Job) -> dict[str, str]:
    return {name: data.decode() for name, data in tables(job).items()}


def texts(job: Job) -> list[str]:
    """Every text of the packet but for the drawings."""
    found = (text for subject in subjects(job) for text in strings(pages(subject)))
    return [text for text in found if not text.startswith("<?xml")]


@pytest.fixture
def written_out(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Every figure with six decimals; a time of the clock stays as it is."""

    def whole(exact: Fraction, *_: object) -> str:
        return short_text(exact, 6)

    with monkeypatch.context() as patched:
        patched.setattr(show, "short_text", whole)
        patched.setattr(show, "_inches", whole)
        patched.setattr(show, "_inside", lambda value, _, symbol: whole(value.to(symbol)))
        patched.setattr(show, "_set", lambda value, _, symbol: whole(value.to(symbol)))
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


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
@pytest.mark.parametrize("system", ["SI", "US"])
def test_the_figures_of_the_sheets(path: Path, system: str, request: pytest.FixtureRequest) -> None:
    printed = sheets(in_units(path, system))
    request.getfixturevalue("written_out")
    exact = sheets(in_units(path, system))
    found = [
        told
        for name in printed
        if name.endswith((".csv", ".md"))
        for (side, _, cell), (_, _, whole) in zip(
            cells(printed[name]), cells(exact[name]), strict=True
        )
        for told in unsafe(cell, whole, side)
    ]
    assert found == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_the_values_of_the_sheets_in_both_systems(path: Path, written_out: None) -> None:
    ours, theirs = (sheets(in_units(path, system)) for system in ("SI", "US"))
    found = [
        told
        for name in ours
        if name.endswith(".md")
        for (_, unit, one), (_, other, two) in zip(
            cells(ours[name]), cells(theirs[name]), strict=True
        )
        for told in unlike(one, two, (unit, other))
    ]
    assert found == []


@pytest.mark.parametrize("path", PACKETS, ids=lambda path: path.stem)
@pytest.mark.parametrize("system", ["SI", "US"])
def test_the_figures_of_the_packet(path: Path, system: str, request: pytest.FixtureRequest) -> None:
    printed = texts(in_units(path, system))
    request.getfixturevalue("written_out")
    exact = texts(in_units(path, system))
    assert len(printed) == len(exact) > 1000
    found = [told for one, whole in zip(printed, exact, strict=True) for told in unsafe(one, whole)]
    assert found == []


@pytest.mark.parametrize(
    ("printed", "exact"),
    [
        ("at least 121 mm", "at least 121.2 mm"),
        ("at least 4 3/4 in", "at least 4.771654 in"),
        ("at most 139 °C/h above 300 °C", "at most 138.888889 °C/h above 300 °C"),
        ("at most 126 °C/h above 316 °C", "at most 126 °C/h above 315.555556 °C"),
        ("at least 177 °C", "at least 175 °C"),
        ("690 to 721 °C", "690 to 720.5 °C"),
        ("at 705 °C, at most 31 K", "at 705 °C, at most 30.6 K"),
    ],
)
def test_the_wrong_side_is_seen(printed: str, exact: str) -> None:
    assert len(list(unsafe(printed, exact))) == 1


@pytest.mark.parametrize(
    ("si", "us"),
    [
        ("at most 300 °C", "at most 540 °F"),
        ("at most 30 K", "at most 86 °F"),
        ("at least 122 mm", "at least 3.8 in"),
        ("channel 3", "channel 4"),
        ("at least 2 h", "at most 2 h"),
    ],
)
def test_another_value_is_seen(si: str, us: str) -> None:
    assert len(list(unlike(si, us))) == 1
