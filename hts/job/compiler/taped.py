"""Where a tape finds a place about a branch: lengths along the outsides of branch and run."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.arguments import NotCovered
from hts.base.quantities import LENGTH, Quantity
from hts.language.model.branching import Branching
from hts.science.saddle.crossing import OnRun

#: Lengths a tape does not tell from nought, mm.
_NONE = 0.5
ON_BRANCH, ON_RUN = "on branch", "on run"


class Measure(NamedTuple):
    """One length to tape, and in words from where to where."""

    words: str
    length: Quantity


class Taped(NamedTuple):
    """The lengths that lead to a place; none, and why, where it lies out of reach."""

    measures: tuple[Measure, ...]
    why: str = ""


def middle(branching: Branching) -> OnRun:
    """On the run, half way between the weld at the crotch and opposite it."""
    crotch, heel = branching.crossing.on_run(0.0), branching.crossing.on_run(180.0)
    return OnRun((crotch.along + heel.along) / 2, crotch.round)


def taped(
    branching: Branching, degrees: Fraction, side: str, distance: Quantity, cap: Quantity | None
) -> Taped:
    """The lengths to a place seen at a clock position, whose shortest distance from the weld
    centreline along the outside is given; `cap` is the width of the weld."""
    crossing, turn = branching.crossing, branching.turn(float(degrees))
    far, half = float(distance.value), float(cap.value) / 2 if cap is not None else 0.0
    weld = "toe" if cap is not None else "centreline"
    if far <= half:
        return Taped((), "it lies on the weld, not beside it")
    shortest = Measure(f"shortest from the weld {weld}", _mm(far - half))
    try:
        if side == ON_BRANCH:
            up = crossing.place_on_branch(turn, far) - crossing.place_on_branch(turn, half)
            measures = [Measure(f"along the branch from the weld {weld}", _mm(up))]
            if up - (far - half) > _NONE:
                measures.append(shortest)
            return Taped(tuple(measures))
        place = crossing.place_on_run(turn, far)
    except NotCovered:
        return Taped((), "it is more than half way round the run")
    start = middle(branching)
    along, round_ = place.along - start.along, place.round - start.round
    measures = [
        Measure(f"{way} the run toward {_toward(branching, length, turn)}", _mm(abs(length)))
        for way, length, turn in (("along", along, 0), ("round", round_, 90))
        if abs(length) > _NONE
    ]
    return Taped((*measures, shortest))


def _toward(branching: Branching, length: float, turn: float) -> str:
    return str(branching.clock(turn if length >= 0 else turn + 180))


def _mm(length: float) -> Quantity:
    return Quantity.of(Fraction(round(length * 1000), 1000), "mm", LENGTH)
