"""Pipe dimensions by nominal size and schedule, after ASME B36.10M and ASME B36.19M."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from hts.base.data import load
from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.number import read_number
from hts.science.tables.fact import cited


class UnknownSize(LookupError):
    """No such nominal size. `close` holds the sizes nearest to it, written as a spec would."""

    def __init__(self, size: str, close: tuple[str, ...]) -> None:
        super().__init__(f"no pipe of nominal size {size}; close: {', '.join(close)}")
        self.size = size
        self.close = close


class UnknownSchedule(LookupError):
    """The size has no such schedule. `available` holds those it has, thinnest first."""

    def __init__(self, nps: str, schedule: str, available: tuple[str, ...]) -> None:
        super().__init__(f"NPS {nps} has no schedule {schedule}; it has {', '.join(available)}")
        self.nps = nps
        self.schedule = schedule
        self.available = available


class Pipe:
    """Pipe of one size and schedule.

    `nps` and `dn` are the nominal size as text ("1 1/2", "40"). `outside_diameter` and `wall` are
    lengths as printed in mm, the `_inches` ones as printed in inches: NPS 24 is 610 mm and 24 in.
    `standard`, `source`, `basis` and `confidence` are those of the wall thickness.
    """

    __slots__ = (
        "basis", "confidence", "dn", "nps", "outside_diameter", "outside_diameter_inches",
        "schedule", "source", "standard", "wall", "wall_inches",
    )  # fmt: skip

    def __init__(self, size: dict[str, str], wall: dict[str, str], schedule: str) -> None:
        source = load("pipe")["sources"][wall["source"]]
        self.nps = size["nps"]
        self.dn = size["dn"]
        self.schedule = schedule
        self.outside_diameter = Quantity.of(size["mm"], "mm", LENGTH)
        self.outside_diameter_inches = Quantity.of(size["in"], "in", LENGTH)
        self.wall = Quantity.of(wall["mm"], "mm", LENGTH)
        self.wall_inches = Quantity.of(wall["in"], "in", LENGTH)
        self.standard: str = source["standard"]
        self.source = cited(source)
        self.basis = wall["basis"]
        self.confidence = wall["confidence"]

    def __repr__(self) -> str:
        return f"Pipe(NPS {self.nps} schedule {self.schedule})"


@lru_cache(maxsize=256)
def pipe(size: str, schedule: str) -> Pipe:
    """Return the pipe of a size ("12", "NPS 1 1/2", "DN 300") and schedule ("40", "STD", "10S").

    A bare number is an NPS. Case and blanks do not matter. Raises UnknownSize, UnknownSchedule.
    """
    row = _size(size)
    walls = _index().walls[row["nps"]]
    name = _squeezed(schedule).removeprefix("SCHEDULE").removeprefix("SCH")
    if name not in walls:
        raise UnknownSchedule(row["nps"], schedule, schedules(size))
    return Pipe(row, walls[name], name)


def schedules(size: str) -> tuple[str, ...]:
    """Return the schedules a size has, thinnest first. Raises UnknownSize."""
    walls = _index().walls[_size(size)["nps"]]
    return tuple(sorted(walls, key=lambda name: Fraction(walls[name]["mm"])))


def sizes() -> Iterator[tuple[str, Fraction, Quantity]]:
    """Each NPS of the table, from the smallest to the largest: as it is named, as a number, and its
    outside diameter in mm (ASME B36.10M)."""
    for row in load("pipe")["sizes"]:
        yield row["nps"], read_number(row["nps"]), Quantity.of(Fraction(row["mm"]), "mm", LENGTH)


def nps_of(outside_diameter: Quantity) -> str | None:
    """Return the NPS whose printed outside diameter this is, in mm or in inches, or None.

    The small tolerance of the data applies, since 273.0 and 273.1 mm are both in print.
    """
    tolerance = Fraction(load("pipe")["outside_diameter_tolerance"]["mm"])
    value = outside_diameter.value
    for row in load("pipe")["sizes"]:
        for printed in (Fraction(row["mm"]), Fraction(row["in"]) * Fraction("25.4")):
            if abs(value - printed) <= tolerance:
                nps: str = row["nps"]
                return nps
    return None


def nominal_size_of(outside_diameter: Quantity) -> Fraction:
    """The nominal size, as a number, by which limits by size are read for an outside diameter.

    One that is of no nominal size, such as a fitting's, is read as the next larger one; beyond the
    largest size, as a vessel shell's, it is the diameter in inches, as it is from NPS 14 up (ASME
    B36.10M). Read so, no limit that grows with the size is looser than for the pipe it fits.
    """
    nps = nps_of(outside_diameter)
    if nps is not None:
        return read_number(nps)
    larger = (row for row in load("pipe")["sizes"] if Fraction(row["mm"]) > outside_diameter.value)
    row = min(larger, key=lambda row: Fraction(row["mm"]), default=None)
    return read_number(row["nps"]) if row else outside_diameter.value / Fraction("25.4")


def inches_of(outside_diameter: Quantity) -> Fraction | None:
    """The outside diameter of that nominal size as printed in inches: 24 for 610 mm; None where it
    is none of a nominal size."""
    nps = nps_of(outside_diameter)
    return Fraction(_size(nps)["in"]) if nps is not None else None


class _Index(NamedTuple):
    """Size rows by normal form ("12", "DN300"), wall rows by NPS and schedule."""

    sizes: dict[str, dict[str, str]]
    walls: dict[str, dict[str, dict[str, str]]]


@lru_cache(maxsize=1)
def _index() -> _Index:
    data = load("pipe")
    sizes = {}
    walls: dict[str, dict[str, dict[str, str]]] = {}
    for row in data["sizes"]:
        sizes[row["nps"]] = row
        sizes["DN" + row["dn"]] = row
    for row in data["walls"]:
        for name in row["schedules"]:
            walls.setdefault(row["nps"], {})[name] = row
    return _Index(sizes, walls)


def _size(text: str) -> dict[str, str]:
    """Return the size row for `text`. Raises UnknownSize."""
    sizes = _index().sizes
    name = " ".join(text.upper().replace("-", " ").split())
    if name.startswith("DN"):
        name = _squeezed(name)
    else:
        name = name.removeprefix("NPS").strip()
    if name not in sizes:
        raise UnknownSize(text, _close(name))
    return sizes[name]


def _close(name: str) -> tuple[str, ...]:
    """Return up to three sizes near the number in `name`, nearest first; all NPS if it has none.

    A bare number that is a DN may have been meant as one, so that is offered first.
    """
    rows = load("pipe")["sizes"]
    is_dn = name.startswith("DN")
    try:
        wanted = _number(name.removeprefix("DN"))
    except ValueError:
        return tuple(f"NPS {row['nps']}" for row in rows)
    key = "dn" if is_dn else "nps"
    near = sorted(rows, key=lambda row: abs(_number(row[key]) - wanted))[:3]
    written = tuple(f"{'DN ' if is_dn else 'NPS '}{row[key]}" for row in near)
    if not is_dn and "DN" + name in _index().sizes:
        return (f"DN {name}", *written[:2])
    return written


_FIGURES = re.compile(r"[\d./ ]{1,20}", re.ASCII)


def _number(text: str) -> Fraction:
    """Return the value of "12", "1/2" or "1 1/2". Raises ValueError."""
    if not _FIGURES.fullmatch(text):  # 1E999999999 is a number, too, and takes hours to write out
        raise ValueError(text)
    try:
        return sum((Fraction(part) for part in text.split()), Fraction(0))
    except ZeroDivisionError:
        raise ValueError(text) from None


def _squeezed(text: str) -> str:
    return "".join(text.upper().split())
