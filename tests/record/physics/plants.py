"""The jobs of Tern Island that runs are made for, and what each run must keep.

The limits are read from the text of the specification and of P-07 by hand, so that the judge of
this generator owes nothing to the compiler it grades. Only the places of the thermocouples are
taken from the compiled job.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from shutil import copytree
from tempfile import TemporaryDirectory
from typing import NamedTuple

import hts

SPECS = Path(__file__).parents[3] / "specs"


class Limits(NamedTuple):
    """degC, K, K/h, s. `first_rate` is up to 300 degC, a limit for W33 alone; `lag` is how far the
    program may run ahead of the slowest control."""

    target: float
    low: float
    high: float
    hold: float
    longest: float
    heating: float
    cooling: float
    heating_spread: float
    holding_spread: float
    excursion: float
    lag: float
    starts_at: float
    ends_at: float
    first_rate: float = 210.0
    adds_up: bool = True
    too_fast: float = 0.0


class Plant(NamedTuple):
    """`diameter` and `wall` in mm, `power` in W for each zone; `type` the letter of the wire. Lines
    that begin with one of `without` are left out of the specification and of its procedure, and
    `instead` are texts put in the place of others."""

    spec: str
    joint: str
    cycle: str
    number: str
    revision: str
    type: str
    interval: float
    diameter: float
    wall: float
    zones: tuple[str, ...]
    power: float
    limits: Limits
    without: tuple[str, ...] = ()
    instead: tuple[tuple[str, str], ...] = ()

    @property
    def path(self) -> Path:
        return _changed(self) if self.without or self.instead else SPECS / self.spec

    @property
    def name(self) -> str:
        """The joint, and what was changed in its specification."""
        changes = [*(f"without {word}" for word in self.without), *(new for _, new in self.instead)]
        return " ".join(" ".join([self.joint, *changes]).split())


class Place(NamedTuple):
    """Where a junction sits: `angle` in degrees from the datum, `mm` from the weld, negative on
    the first side. `required` must be in range during the hold."""

    tag: str
    angle: float
    mm: float
    zone: str
    partner: str
    required: bool
    channel: int


HOUR = 3600.0
MINUTE = 60.0

#: W12: 2 h; W07: 2.5 min/mm x 29.1 mm; W33: 2 h for P15E; W23: 1 h 15 min. Rates: the tighter of
#: the cycle's and of P-07, 220 degC/h x 25 mm / t and 150 degC/h.
PLANTS = (
    Plant(
        "p22-header.hts",
        "W12",
        "stress-relief",
        "HT-0147",
        "B",
        "K",
        60.0,
        610.0,
        39.6,
        ("top", "right", "bottom", "left"),
        21600.0,
        Limits(705, 690, 720, 2 * HOUR, 6 * HOUR, 120, 120, 100, 30, 10 * MINUTE, 15, 300, 300),
    ),
    Plant(
        "carbon-steel-butt.hts",
        "W07",
        "stress-relief",
        "HT-0151",
        "B",
        "K",
        30.0,
        273.0,
        29.1,
        ("top", "bottom"),
        10800.0,
        Limits(625, 605, 645, 72.75 * MINUTE, 1e9, 150, 150, 140, 40, 10 * MINUTE, 20, 300, 300),
    ),
    Plant(
        "p91-pipe.hts",
        "W33",
        "tempering",
        "HT-0153",
        "1",
        "N",
        30.0,
        273.0,
        26.0,
        ("north", "south"),
        10800.0,
        Limits(750, 740, 760, 2 * HOUR, 4 * HOUR, 100, 100, 80, 20, 5 * MINUTE, 10, 80, 300, 150),
    ),
    Plant(
        "turnaround-many.hts",
        "W23",
        "single",
        "HT-0160",
        "C",
        "K",
        30.0,
        323.9,
        21.4,
        ("top", "bottom"),
        10800.0,
        Limits(685, 670, 700, 75 * MINUTE, 1e9, 180, 140, 140, 25, 10 * MINUTE, 15, 300, 300),
    ),
)


def _changed(plant: Plant) -> Path:
    """A copy of the specification, changed as the plant says, in a folder that ends with the
    process."""
    folder = _folder(plant)
    path = folder / plant.spec
    if not path.exists():
        copytree(SPECS / "library", folder / "library")
        for file in (path, *(folder / "library").iterdir()):
            text = (SPECS / file.relative_to(folder)).read_text(encoding="utf-8")
            for word in plant.without:
                text = re.sub(rf"(?m)^ *{word} .*\n", "", text)
            for old, new in plant.instead:
                text = text.replace(old, new)
            file.write_text(text, encoding="utf-8")
    return path


_KEPT: list[TemporaryDirectory[str]] = []


#: The same jobs under stricter words: no excursion stated anywhere; a hold that starts again; no
#: word on it.
STRICT = (
    PLANTS[0]._replace(without=("excursion",), limits=PLANTS[0].limits._replace(excursion=0.0)),
    PLANTS[1]._replace(
        instead=(("interrupted hold      adds up", "interrupted hold      starts again"),),
        limits=PLANTS[1].limits._replace(adds_up=False),
    ),
    PLANTS[1]._replace(
        without=("interrupted hold",), limits=PLANTS[1].limits._replace(adds_up=False)
    ),
    PLANTS[3]._replace(
        instead=(
            (
                "  rate margin           10 %",
                "  rate margin           10 %\n  rate excursion        at most 15 min each",
            ),
        ),
        limits=PLANTS[3].limits._replace(too_fast=15 * MINUTE),
    ),
)


@cache
def _folder(plant: Plant) -> Path:
    _KEPT.append(TemporaryDirectory())
    return Path(_KEPT[-1].name)


@cache
def places(plant: Plant) -> tuple[Place, ...]:
    """The junctions of the joint, in the order of their channels."""
    job = hts.compile(hts.load(str(plant.path)))
    sheet = next(sheet for sheet in job.joints if sheet.joint.name == plant.joint)
    first = next(tag.offset.side for tag in sheet.tags if tag.offset is not None)
    made = []
    for tag in sheet.tags:
        mm = 0.0
        if tag.offset is not None:
            mm = float(tag.offset.distance.to("mm"))
            mm = -mm if tag.offset.side == first else mm
        watches = tag.place in ("soak edge", "weld")
        made.append(
            Place(
                tag.tag,
                float(tag.degrees),
                mm,
                tag.zone,
                tag.spare_of,
                tag.duty == "controls" or watches,
                tag.recorder.number,
            )
        )
    return tuple(sorted(made, key=lambda place: place.channel))
