"""The text of a first specification, piece by piece."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, pi
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.cli.starter.choices import BOOKS, Choices
from hts.cli.starter.kinds import ESTIMATED, directions, parts
from hts.cli.starter.treatment import USUALLY, WAIT, Soaked, treatment
from hts.cli.starter.words import words_of
from hts.science.tables.pipe import Pipe

#: Along the pipe from a controlling thermocouple to its spare, mm: close, and not on each other.
_SPARE_AT = 15


class Zone(NamedTuple):
    """A control zone: its names, what it heats, and where it is controlled."""

    lying: str
    upright: str
    arc: str
    at: str


#: Zones by their number, for a pipe that lies and for an upright one whose 12:00 is north. No limit
#: between two zones lies at the bottom, where it would stay cold.
_ZONES = {
    1: (Zone("all", "all", "all round", "12:00"),),
    2: (
        Zone("top", "north", "from 9:00 to 3:00", "12:00"),
        Zone("bottom", "south", "from 3:00 to 9:00", "6:00"),
    ),
    4: (
        Zone("top", "north", "from 10:30 to 1:30", "12:00"),
        Zone("right", "east", "from 1:30 to 4:30", "3:00"),
        Zone("bottom", "south", "from 4:30 to 7:30", "6:00"),
        Zone("left", "west", "from 7:30 to 10:30", "9:00"),
    ),
}


class Widths(NamedTuple):
    """What the rules ask of the joint: zones, and total widths of the bands; ``stated`` where the
    heated band is wider than its rule, to reach as far as preheat and bake. ``heavy``: the side so
    much thicker than the other that it is watched by itself, as the text calls it."""

    zones: int
    soak: Quantity
    heated: Quantity
    stated: bool = False
    heavy: str = ""


def written(
    choices: Choices,
    pipe: Pipe,
    run: Pipe | None = None,
    widths: Widths | None = None,
    soaked: Soaked = USUALLY,
) -> str:
    """The whole text. Without ``widths``, thermocouples are left out: a draft to ask the rules.
    ``run``: the pipe a branch stands on; ``soaked``: how it is baked, where it is."""
    made = [_head(choices), _joint(choices, pipe, run, widths), treatment(choices, soaked)]
    return "\n".join([*made, _equipment(choices), _around(choices)])


def _head(choices: Choices) -> str:
    words = words_of(choices)
    family = choices.family
    points = _open_points(choices)
    filler = _FILLER.format(classification=family.filler) if family.transforms else ""
    return f"""\
# A first specification, to be made the job's own. What nobody can know beforehand is left out and
# listed as open points: write it in, then close the point with `closed DAY`. While a point is open
# the document cannot be for construction. Replace title, number and roles, too.
spec 1

job {_quoted(choices.title)} {{
  number {_quoted(choices.number)}
  revision A on {choices.day} status for review
  history {{
    A on {choices.day} "First issue"
  }}
  governed by {choices.book} edition {BOOKS[choices.book]}, local-heating
  show {words.show}
{points}
  signed {{
    prepared "Heat-treatment engineer"
    checked "Welding engineer"
    approved "Owner's engineer"
  }}
}}

material pipe {{
  grade "{family.grade}"
}}
{filler}"""


#: Where the highest hold depends on the filler, with the most nickel and manganese reckoned with.
_FILLER = """
filler electrode {{
  classification "{classification}"
  nickel and manganese 1.0 %
}}
"""


#: What is left out or assumed, for the joint to be heated.
_OPEN = (
    "Heat number and analysis of the pipe",
    "Wall and cap width, to be measured: the wall is nominal, the cap width an estimate",
    "Qualification of the heat treatment (PQR) and the time at temperature it covers",
    "Welding procedure (WPS) and filler metal with its analysis and diffusible hydrogen",
    "Supports near the weld and whether the line is free to expand, as assumed",
    "Controller, recorder and power source: serial numbers, calibration, channels, errors, output",
    "Hardness after the heat: limits, method, and where and how often it is measured",
)


#: Where a filler is assumed.
_ASSUMED = "Filler metal and its nickel and manganese: assumed, to be read from its certificate"


def _open_points(choices: Choices) -> str:
    points = [*_OPEN, _ASSUMED] if choices.family.transforms else [*_OPEN]
    if choices.family.waits:
        points.append(f"How long the weld may stand before its treatment: {WAIT} is assumed")
    if choices.kind in ESTIMATED:
        points.append(ESTIMATED[choices.kind])
    if choices.bake:
        points.append("Bake: temperature and time, to be agreed with the welding engineer")
    return "\n".join(
        f"  open point {number} {_quoted(text)}" for number, text in enumerate(points, 1)
    )


def _by_compass(choices: Choices) -> bool:
    """Whether zones are called by the points of the compass: the pipe stands upright."""
    return choices.axis == "vertical" and choices.kind not in ("branch", "nozzle")


def _listed(choices: Choices) -> str:
    return ", ".join(choices.joints)


def _gap(choices: Choices, zones: tuple[Zone, ...]) -> str:
    """Where the gap between heaters lies: at the top, or between zones where the pipe stands."""
    if choices.axis != "vertical":
        return "12:00"
    first = zones[0].arc.split()
    return first[1] if first[0] == "from" else "6:00"


def _joint(choices: Choices, pipe: Pipe, run: Pipe | None, widths: Widths | None) -> str:
    words = words_of(choices)
    first, *more = choices.joints
    upright = _by_compass(choices)
    zones = _ZONES[widths.zones] if widths else _ZONES[1]
    heated = "\n".join(
        f"    zone {zone.upright if upright else zone.lying} {zone.arc}" for zone in zones
    )
    coil = choices.method == "induction"
    # The filler decides a limit there; the procedure it stands in is not known.
    welding = "  welding filler electrode\n" if choices.family.transforms else ""
    told = directions(choices)
    heated_band = "by rule"
    if widths and widths.stated:
        heated_band = f"{_rounded(choices, widths.heated.value)} total"
    gap = "" if coil else f"    gap at {_gap(choices, zones)}\n"
    thermocouples = "".join(_thermocouples(choices, pipe, widths)) if widths else ""
    others = "".join(f"\njoint {name} like {first} {{ }}\n" for name in more)
    return f"""\
joint {first} {{
{parts(choices, pipe, run)}  cap width {_cap_width(choices, pipe)}
  axis {choices.axis}
  datum {told.datum}
  viewed {told.viewed}
  made in field
  heat treatment asked for by design
{welding}  expansion free

  heating by {choices.method} accepted by "Owner's engineer" {{
    soak band by rule
    heated band {heated_band}
    gradient band by rule
    zones by rule
{heated}
{gap}    insulation "ceramic fibre blanket" thickness {words.thick} layers 2
    ends closed and vented
    bore drained and dry
  }}

  thermocouples type K {words.wire} gauge 20 {{
    attached capacitor discharge legs apart {words.legs} each leg apart energy 100 J
    extension KX {words.wire} {"shielded" if coil else ""}
    colours {words.standard}
    junction cover "refractory putty"
    lead at least {words.lead}
    reference junction {words.junction}
{thermocouples}  }}
}}
{others}"""


def _thermocouples(choices: Choices, pipe: Pipe, widths: Widths) -> Iterator[str]:
    """Controlling ones, their spares, then those that watch the edges of the bands."""
    zones = _ZONES[widths.zones]
    upright = _by_compass(choices)
    told = directions(choices)
    up, down = told.back, told.forth
    channel = len(zones)
    for number, zone in enumerate(zones, 1):
        name = zone.upright if upright else zone.lying
        both = f"channel {number} control channel {number}"
        yield f"    T{number} controls {name} at {zone.at} on weld {both}\n"
    minutes = _spare_minutes(pipe)
    for number, zone in enumerate(zones, 1):
        channel += 1
        place = f"{zone.at[:-2]}{minutes:02}"
        yield f"    T{number}S spare for T{number} at {place} on weld channel {channel}\n"
    tag = len(zones)
    watched = [("weld", "on weld", "on weld")] if len(zones) == 1 else []
    for edge, width in (("soak edge", widths.soak), ("heated edge", widths.heated)):
        half = _rounded(choices, width.value / 2)
        watched.append((edge, f"{half} {down}", f"{half} {up}"))
    for what, first, second in watched:
        for at, place in (("12:00", first), ("6:00", second)):
            if what == "weld" and at == "12:00":
                continue  # that is where the only zone is controlled
            tag += 1
            channel += 1
            comma = "" if place == "on weld" else ","
            yield f"    T{tag} monitors {what} at {at}{comma} {place} channel {channel}\n"
    if widths.heavy:
        place = f"{_rounded(choices, widths.soak.value / 2)} on {widths.heavy}"
        yield f"    T{tag + 1} monitors heavy section at 9:00, {place} channel {channel + 1}\n"


def _equipment(choices: Choices) -> str:
    words = words_of(choices)
    supply = "induction supply" if choices.method == "induction" else "transformer"
    return f"""\
controller C1 {{
  channels 6 type K range {words.scale}
  error +/- {words.error}
  segments 16
}}

recorder R1 {{
  channels 24 type K range {words.scale}
  interval 60 s
  error +/- {words.error}
}}

power source PS1 {{
  kind {supply}
  output 65 kVA
  circuits 6
}}
"""


def _around(choices: Choices) -> str:
    joint = _listed(choices)
    resists = choices.method == "resistance"
    to_earth = "  insulation resistance at least 1 Mohm\n" if resists else ""
    # Which supports there are is an open point, so that their check is not yet about any stated.
    return f"""\
before heat {joint} {{
  check "Work permit in force" about permit
  check "Bore drained, dried and vented" about drained and vented
  check "Ends closed against draught" about ends closed
  check "Supports free to move as planned"
  check "Heaters and leads continuous" about heater continuity
  check "Each thermocouple warmed by hand reads on its own channel" about tag matches channel
  check "Instruments within their calibration" about calibration in date
  check "Program agrees with this sheet" about program matches procedure
  check "Fire watch posted" about fire watch
{to_earth}  hold point "Start is released" by "Owner's engineer"
}}

during heat {joint} {{
  reading every 1 h
}}

after heat {joint} {{
  review point "Chart" by "Welding inspector"
  marking "Heat treated: no welding, no arc strikes"
}}
"""


def _cap_width(choices: Choices, pipe: Pipe) -> str:
    """An estimate: a V of 75 degrees up to some 15 mm, a steeper groove above; to be measured."""
    wall = pipe.wall.value
    width = min(wall * Fraction(3, 2) + 6, wall / 2 + 20)
    return _rounded(choices, width)


def _rounded(choices: Choices, mm: Fraction) -> str:
    """A length in mm as it is measured: whole mm, or eighths of an inch."""
    if choices.units == "SI":
        return f"{round(mm)} mm"
    whole, eighths = divmod(round(mm / Fraction("25.4") * 8), 8)
    part = str(Fraction(eighths, 8)) if eighths else ""
    return f"{' '.join(filter(None, (str(whole) if whole else '', part)))} in"


def _spare_minutes(pipe: Pipe) -> int:
    """How far round the pipe a spare lies from what it is the spare of, on the clock."""
    turn = pi * float(pipe.outside_diameter.value)
    return min(59, max(1, ceil(_SPARE_AT / turn * 720)))


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
