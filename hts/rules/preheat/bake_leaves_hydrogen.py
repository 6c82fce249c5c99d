"""A bake lasts long enough for the hydrogen to come out of the wall."""

from __future__ import annotations

from hts.govern.case import Case
from hts.model.joint import Treatment
from hts.quantities import Quantity
from hts.rules.rule import Bad, Good, Rule
from hts.rules.steps import hold_range
from hts.vocabulary.segments import Hold

#: Of the hydrogen of the wall: what is left then is less than what came out.
_MOST_LEFT = 0.5

RULE = Rule(
    "P112",
    "bake-leaves-hydrogen",
    "advice",
    summary="A bake after which more than half of the hydrogen is estimated to be in the wall yet.",
    why="The time goes with the square of the thickness: hours by the inch do too little for "
    "heavy walls, and the weld cracks days later.",
    fix="Bake longer or hotter, or heat treat without cooling in between.",
    source="derived: diffusion out of a plane wall, free on both faces, with the diffusivities "
    "that Coe and Moreton measured (1969); one half is a choice of this program",
    basis="derived",
    bad=(
        Bad(
            (
                ("bake time at least 2 h", "bake time at least 30 min"),
                ("300 .. 350 degC for 3 h", "300 .. 350 degC for 30 min"),
            ),
            at="30 min",
            base="bake",
        ),
    ),
    good=(Good((("300 .. 350 degC for 3 h", "300 .. 350 degC for 2 h"),), base="bake"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if not treatment.is_bake:
        return
    limits = case.limits(treatment.joint, treatment)
    wall = limits.thickness
    longest: tuple[Hold, Quantity, float] | None = None
    for segment in treatment.entry.segments:
        if not isinstance(segment, Hold):
            continue
        held, time = hold_range(case, treatment, segment), limits.hold_time(segment)
        if held is None or held.low is None or time is None:
            return
        if longest is None or time > longest[1]:
            longest = segment, time, float(held.low.value)
    if wall is None or longest is None:
        return
    asked = limits.derived("bake time", "minimum")
    if asked is not None and isinstance(asked.value, Quantity) and longest[1] < asked.value:
        return  # told as too short already
    from hts.heat.inputs import NotCovered
    from hts.metallurgy.hydrogen import measured_diffusivity, share_left

    hold, time, celsius = longest
    try:
        dose = measured_diffusivity(celsius) * float(time.value)
    except NotCovered:
        return
    left = share_left(dose, float(wall.value))
    if left > _MOST_LEFT:
        case.add(
            RULE.found(
                f"after {time} about {left:.0%} of the hydrogen is left in {wall.both()}",
                hold.place("time"),
                address=treatment.address,
                notes=["estimated at the low end of the range, without heating and cooling"],
            )
        )
