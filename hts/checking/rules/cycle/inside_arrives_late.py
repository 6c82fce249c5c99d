"""The inside of a wall heated from outside is in range soon after the outside is."""

from __future__ import annotations

from math import log

from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hold_range
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Heat, Hold

#: m2/s. Ferritic steels at 600 degC: 5.0 (9Cr), 5.1 (2.25Cr) and 5.7 (carbon) mm2/s.
_DIFFUSIVITY = 5.0e-6
#: s. What is shorter than a reading of the chart is not told.
_NOTICED = 60.0

_HOLD = "  hold  700 .. 730 degC for 2 h"
_NARROW = (_HOLD, "  hold  714.5 .. 731 degC for 2 h")
_EDGE = "T4   monitors soak edge      at 6:00,  40 mm upstream      channel 4"

RULE = Rule(
    "Y117",
    "inside-arrives-late",
    "advice",
    summary="A heating rate at which the inside of the wall is below the range when the outside "
    "reaches the hold.",
    why="The time counts from the outside, and the root of the weld gets less of it.",
    fix="Put a thermocouple inside, heat more slowly, or hold that much longer.",
    source="derived: lag t²/(2a) times the rate across a plate heated from one face, a of ferritic "
    "steel at 600 degC (5 mm2/s, handbook figures from memory)",
    basis="derived",
    edges=(
        Edge(
            (
                ("  hold  700 .. 730 degC for 2 h", "  hold  714.5 .. 731 degC for 2 h"),
                ("715 degC   at most 200 degC/h", "715 degC   at most {}"),
            ),
            keeps="97 degC/h",
            breaks="98 degC/h",
            says="about 1.6 K … 715 degC … below 714.5 degC for about 1 min",
        ),
    ),
    good=(
        Good(()),
        Good((_NARROW, ("715 degC   at most 200 degC/h", "715 degC   at most 50 degC/h"))),
        Good(
            (
                _NARROW,
                (
                    _EDGE,
                    f"{_EDGE}\n    T7   monitors inside on weld at 6:00 surface inside channel 9",
                ),
            )
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    joint = treatment.joint
    heating, wall = joint.entry.heating, _wall(joint)
    # A furnace heats both faces, and burners may stand on either side.
    if wall is None or heating is None or heating.method not in ("resistance", "induction"):
        return
    if any("inside" in (tc.surface, tc.entry.monitors) for tc in joint.thermocouples):
        return
    before = None
    for segment in treatment.entry.segments:
        if isinstance(segment, Hold) and isinstance(before, Heat):
            _judge(case, treatment, before, segment, wall)
        before = segment


def _judge(case: Case, treatment: Treatment, heat: Heat, hold: Hold, wall: float) -> None:
    held = hold_range(case, treatment, hold)
    if held is None or held.low is None or heat.to is None or not isinstance(heat.rate, Quantity):
        return
    room = float((heat.to - held.low).value)
    if room <= 0:
        return
    from hts.science.heat.lag import plate_lag, time_constant

    margin = treatment.entry.rate_margin
    part = 1 - float(margin.value) / 100 if margin is not None else 1.0
    behind = plate_lag(wall, _DIFFUSIVITY, part * float(heat.rate.value))
    if behind <= room:
        return
    late = time_constant(wall, _DIFFUSIVITY) * log(behind / room)
    if late < _NOTICED:
        return
    lag = Quantity.rounded(behind, 1, "K", DIFFERENCE)
    case.add(
        RULE.found(
            f"the inside is about {lag} behind when the outside reaches {heat.to}, and below "
            f"{held.low} for about {late / 60:.0f} min more",
            heat.place("rate"),
            address=treatment.address,
            notes=["estimated for a plate that loses no heat inside; a draught makes it worse"],
        )
    )


def _wall(joint: Joint) -> float | None:
    """The thickest wall, m."""
    walls = [
        float(side.wall.value.value) / 1000
        for side in joint.sides
        if side.wall is not None and isinstance(side.wall.value, Quantity)
    ]
    return max(walls, default=None)
