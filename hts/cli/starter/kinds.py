"""The kinds of weld a first specification can be of: its parts, and how places on it are told."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.cli.starter.choices import Choices
from hts.science.tables.pipe import Pipe


class Directions(NamedTuple):
    """Datum and view of the clock, and the words for the two ways from the weld."""

    datum: str
    viewed: str
    back: str
    forth: str


def directions(choices: Choices) -> Directions:
    upright = choices.axis == "vertical"
    if choices.kind in ("branch", "nozzle"):
        return Directions("flow arrow" if upright else "top", "from branch", "on run", "on branch")
    if choices.kind == "socket" and not upright:
        return Directions("top", "from side A", "side A", "side B")
    if upright:
        return Directions("north", "from above", "above", "below")
    return Directions("top", "with flow", "upstream", "downstream")


def parts(choices: Choices, pipe: Pipe, run: Pipe | None) -> str:
    """The lines of kind, parts, sizes and walls. Walls are nominal, what else nobody knows is an
    estimate to be measured: an open point says so."""
    own = _sized(choices, pipe)
    if choices.kind == "branch":
        assert run is not None
        return f"""\
  kind branch
  side run of pipe {_sized(choices, run)}
  side branch of pipe {own}
  branch weld sketch 1 cover fillet {_fillet(choices, pipe)} angle 90 deg crotch at 12:00
"""
    if choices.kind == "nozzle":
        shell = f"outside diameter {choices.shell} wall {choices.shell_wall} nominal"
        return f"""\
  kind branch
  side run of pipe {shell} part vessel shell
  side branch of pipe {own} part nozzle
  branch weld sketch 1 cover fillet {_fillet(choices, pipe)} angle 90 deg crotch at 12:00
"""
    if choices.kind == "socket":
        thick = pipe.wall.value * Fraction(5, 4)
        outside = wall(choices, pipe.outside_diameter.value + 2 * thick)
        fitting = f"outside diameter {outside} wall {wall(choices, thick)} nominal"
        return f"""\
  kind socket
  side A of pipe {own}
  side B of pipe {fitting} part socket fitting
  throat {wall(choices, pipe.wall.value)}
"""
    return f"""\
  kind girth butt
  between pipe and pipe
  pipe NPS {pipe.nps} schedule {pipe.schedule}
  wall {wall(choices, pipe.wall.value)} nominal
"""


def _sized(choices: Choices, pipe: Pipe) -> str:
    return f"NPS {pipe.nps} schedule {pipe.schedule} wall {wall(choices, pipe.wall.value)} nominal"


def _fillet(choices: Choices, pipe: Pipe) -> str:
    """A cover fillet as deep as 0.7 of the branch wall, 3 mm (1/8 in) at least and 6 mm (1/4 in)
    at most: common practice."""
    deep = pipe.wall.value * Fraction(7, 10)
    return wall(choices, min(max(deep, Fraction("3.175")), Fraction("6.35")))


def wall(choices: Choices, mm: Fraction) -> str:
    """A length in mm as it stands in tables: to 0.01 mm, or to a thousandth of an inch."""
    if choices.units == "US":
        return f"{round(float(mm) / 25.4, 3):g} in"
    return f"{round(float(mm), 2):g} mm"


#: What is assumed of such a weld besides, to be listed as an open point.
ESTIMATED = {
    "branch": "Branch weld: sketch of the code, cover fillet and angle are assumed",
    "nozzle": "Nozzle: shell, sketch of the code, cover fillet and angle are assumed",
    "socket": "Socket: diameter and wall of the fitting and throat of the weld are estimates",
}
