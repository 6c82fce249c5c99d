"""How a branch stands on its run, as far as the text tells: the crossing of two cylinders."""

from __future__ import annotations

from functools import lru_cache
from math import floor
from typing import NamedTuple

from hts.base.arguments import NotCovered
from hts.base.quantities import Quantity
from hts.base.quantities.clock import ClockPosition
from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation
from hts.science.saddle.crossing import Crossing

_SQUARE = 90.0
#: Parts whose outside is no cylinder.
_NOT_ROUND = ("elbow", "bend", "reducer", "cap", "valve", "vessel head", "tube sheet", "plate")


class Branching(NamedTuple):
    """A branch on its run, lengths in mm.

    `crotch`: clock position of the crotch. `sense`: 1 where the clock is seen along the branch at
    the run, -1 where it is seen from the run. `assumed`: what the text leaves open and was taken
    to be usual, in words.
    """

    crossing: Crossing
    crotch: ClockPosition
    sense: int
    assumed: tuple[str, ...]

    def turn(self, degrees: float) -> float:
        """The angle from the crotch of a clock position in degrees."""
        return (self.sense * (degrees - float(self.crotch.degrees))) % 360

    def clock(self, turn: float) -> ClockPosition:
        """The clock position at an angle from the crotch, to the minute."""
        degrees = self.sense * turn + float(self.crotch.degrees)
        return ClockPosition.from_minutes(floor(2 * degrees + 0.5))


class NotPlaced(NamedTuple):
    """Why places about a branch cannot be worked out, and the entry that would tell."""

    why: str
    entry: str


def branching(joint: Joint) -> Branching | NotPlaced:
    """How the branch of a joint of kind `branch` stands."""
    run, branch = _radius(joint, "run"), _radius(joint, "branch")
    if run is None or branch is None:
        return NotPlaced(
            "the outside diameter of run or branch is not known", "`side run …` and `side branch …`"
        )
    part = next((side.part for side in joint.entry.sides if side.name == "run"), None)
    if part in _NOT_ROUND:
        return NotPlaced(f"the outside of the run, a {part}, is no cylinder", "")
    sense = Orientation(joint.entry).sign("on run")
    if sense is None:
        return NotPlaced("it is not told from where the clock is seen", "`viewed from branch`")
    entry = joint.entry.branch
    assumed = []
    if entry is not None and entry.angle is not None:
        angle = float(entry.angle.value)
    else:
        angle = _SQUARE
        assumed.append("that the branch stands square on its run")
    if entry is not None and entry.crotch is not None:
        crotch = entry.crotch
    elif joint.entry.datum == "flow arrow" and angle == _SQUARE:
        # The arrow points along the run.
        crotch = ClockPosition(0)
    else:
        return NotPlaced(
            "it is not told which clock position lies at the crotch", "`branch weld … crotch at …`"
        )
    offset = 0.0
    if entry is None or entry.offset is None:
        assumed.append("that the axes of branch and run meet")
    else:
        turned = sense * (entry.toward.degrees - crotch.degrees) % 360 if entry.toward else None
        if turned not in (90, 270):
            return NotPlaced(
                "the offset of the branch is not told as toward a clock position square to the "
                "crotch",
                "`branch weld … offset … toward …`",
            )
        offset = float(entry.offset.value) * (1 if turned == 90 else -1)
    try:
        crossing = _crossing(run, branch, angle, offset)
    except NotCovered:
        return NotPlaced("the branch leans too far or reaches past the side of its run", "")
    return Branching(crossing, crotch, sense, tuple(assumed))


#: Joints that are alike have one, with what was found on it.
_crossing = lru_cache(maxsize=64)(Crossing)


def _radius(joint: Joint, name: str) -> float | None:
    for side in joint.sides:
        if side.name == name and side.outside_diameter is not None:
            value = side.outside_diameter.value
            assert isinstance(value, Quantity)
            return float(value.value) / 2
    return None
