"""What formulas of metallurgy give for the welding of a joint: preheat, and the time it cools in.

None where an input is not stated, and where one is out of the range a formula holds for. Elements
that an analysis does not state count as zero, but carbon and manganese are needed.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import NamedTuple

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Quantity
from hts.base.quantities.number import round_to
from hts.language.model.joint import Joint
from hts.syntax.formula import Fact

Analysis = dict[str, float]
#: Walls that lead the heat of a weld away, by the side they stand on: of a branch the run goes on
#: to both sides, and so does the part that a fillet sits on.
_THREE_WAYS = ("branch", "socket", "fillet", "attachment", "seal")


class _Welded(NamedTuple):
    """What all the formulas begin with; heat input in kJ/mm, hydrogen in ml/100 g."""

    walls: tuple[Quantity, ...]
    heat_input: float
    hydrogen: float | None
    deposit: Analysis


def facts_of_preheat(joint: Joint) -> dict[str, Fact]:
    """The facts that can be worked out of the joint as stated."""
    welded = _welded(joint)
    if welded is None:
        return {}
    made = {
        "combined_thickness": combined(joint, welded.walls),
        "preheat_by_cet": _by_cet(joint, welded),
        "preheat_by_ce": _by_ce(joint, welded),
        **_cooling(joint, welded),
    }
    return {name: fact for name, fact in made.items() if fact is not None}


def combined(joint: Joint, walls: tuple[Quantity, ...]) -> Quantity:
    """Combined thickness of EN 1011-2 method A: of all ways in which the heat flows off."""
    from hts.science.metallurgy.preheat_thickness import combined_thickness

    ways = list(walls) if len(walls) > 1 else [*walls, *walls]
    if joint.entry.kind in _THREE_WAYS and len(walls) > 1:
        run = next((n for n, side in enumerate(joint.sides) if side.name == "run"), None)
        ways.append(walls[run] if run is not None else max(walls))
    total = combined_thickness(*(wall.value for wall in ways))
    return Quantity.of(total, LENGTH.canonical, LENGTH).in_unit(walls[0].unit.symbol)


def _welded(joint: Joint) -> _Welded | None:
    welding = joint.entry.welding
    if welding is None or welding.heat_input is None or not welding.heat_input.value:
        return None
    filler = welding.filler.target if welding.filler is not None else None
    values = [side.wall.value for side in joint.sides if side.wall is not None]
    walls = tuple(value for value in values if isinstance(value, Quantity) and value.value)
    if not walls or len(walls) != len(joint.sides):
        return None
    hydrogen = filler.hydrogen if filler is not None else None
    return _Welded(
        walls,
        float(welding.heat_input.value),
        None if hydrogen is None else float(hydrogen.value),
        {share.element: float(share.fraction.value) for share in filler.composition}
        if filler is not None
        else {},
    )


def _analyses(joint: Joint) -> list[Analysis]:
    """Those of all sides; none where one side has none that would do."""
    materials = [side.material for side in joint.sides if side.material is not None]
    analyses = [
        {share.element: float(share.fraction.value) for share in material.composition}
        for material in materials
    ]
    enough = all("C" in analysis and "Mn" in analysis for analysis in analyses)
    return analyses if enough and len(analyses) == len(joint.sides) else []


def _by_cet(joint: Joint, welded: _Welded) -> Quantity | None:
    """EN 1011-2 method B, in whole degC, rounded up; of the parts the thickest and the richest."""
    analyses = _analyses(joint)
    if not analyses or welded.hydrogen is None:
        return None
    # Most joints state no heat input: the formulas are read only for those that do.
    from hts.science.metallurgy.carbon_equivalent import CET
    from hts.science.metallurgy.preheat import governing_cet, method_b

    deposit = welded.deposit
    weld = CET(deposit).value if "C" in deposit and "Mn" in deposit else None
    cet = governing_cet(max(CET(analysis).value for analysis in analyses), weld)
    if not cet:
        return None
    found = method_b(cet, _mm(max(welded.walls)), welded.hydrogen, welded.heat_input)
    return None if found.outside else _whole(found.celsius)


def _by_ce(joint: Joint, welded: _Welded) -> Quantity | None:
    """EN 1011-2 method A as far as its Table C.1 goes: what may be welded without preheat."""
    analyses = _analyses(joint)
    if not analyses or welded.hydrogen is None:
        return None
    from hts.science.metallurgy.carbon_equivalent import CE
    from hts.science.metallurgy.preheat_thickness import method_a

    estimates = [CE(analysis) for analysis in analyses]
    if any(estimate.outside for estimate in estimates):
        return None
    found = method_a(
        max(estimate.value for estimate in estimates),
        _mm(combined(joint, welded.walls)),
        welded.hydrogen,
        welded.heat_input,
    )
    return None if found is None else _whole(found)


def _cooling(joint: Joint, welded: _Welded) -> dict[str, Fact]:
    """t8/5: the shortest, at the least preheat and the thickest wall, and the longest, at the
    highest interpass temperature and the thinnest. In tenths of a second."""
    from hts.science.metallurgy.cooling_time import HIGHEST_PREHEAT, cooling_time, shape_factors

    preheat, kind = joint.preheat, joint.entry.kind
    if preheat is None or kind is None:
        return {}
    ends = (
        ("cooling_time", preheat.at_least, _mm(max(welded.walls)), "down"),
        (
            "longest_cooling_time",
            preheat.interpass.at_most if preheat.interpass is not None else None,
            _mm(min(welded.walls)),
            "up",
        ),
    )
    found: dict[str, Fact] = {}
    for name, stated, wall, toward in ends:
        if isinstance(stated, Quantity) and stated.to("degC") <= HIGHEST_PREHEAT:
            celsius = float(stated.to("degC"))
            factors = shape_factors(fillet=kind in _THREE_WAYS, longest=toward == "up")
            time = cooling_time(celsius, welded.heat_input, wall, *factors)
            seconds = Fraction(time.seconds).limit_denominator(10**6)
            found[name] = Quantity.of(round_to(seconds, 1, toward), "s", TIME)
    return found


def _mm(wall: Quantity) -> float:
    return float(wall.to("mm"))


def _whole(celsius: float) -> Quantity:
    return Quantity.of(ceil(celsius), "degC", TEMPERATURE)
