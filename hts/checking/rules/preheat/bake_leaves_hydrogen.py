"""A bake lasts long enough for the hydrogen to come out of the wall."""

from __future__ import annotations

from math import ceil

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import slow_for_hydrogen
from hts.checking.rules.helpers.steps import hold_range
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.cycle import Bake
from hts.language.vocabulary.segments import Hold

#: Of the hydrogen of the wall: what is left then is less than what came out.
_MOST_LEFT = 0.5
_SLOWLY = (
    "of steel with 5 % chromium and more, or with vanadium, at 1e-5 cm2/s, a slow bound from memory: "
    "figures for such steels differ by much"
)

RULE = Rule(
    "P112",
    "bake-leaves-hydrogen",
    "advice",
    summary="A bake after which more than half of the hydrogen is estimated to be still in the "
    "wall.",
    why="The time needed goes with the square of the thickness: hours per inch are too few for "
    "heavy walls, and the weld cracks days later.",
    fix="Bake longer or hotter, or heat treat without cooling in between.",
    source="derived: diffusion out of a plane wall, free on both faces, with the diffusivities "
    "that Coe and Moreton measured in 0.73 % C steel (1969); for steels with 5 % chromium and more, "
    "or with vanadium, at 1e-5 cm2/s, a slow bound from memory; one half is a choice of this program",
    basis="derived",
    bad=(
        Bad(
            (
                ("bake time at least 2 h", "bake time at least 30 min"),
                ("300 .. 350 degC for 3 h", "300 .. 350 degC for 30 min"),
            ),
            at="30 min",
            base="bake",
            says="after 30 min about 72.7 % … 25.4 mm (1 in)",
        ),
        # All holds count: twice as long lets out sqrt(2) times as much, 38.6 %.
        Bad(
            (
                ("bake time at least 2 h", "bake time at least 30 min"),
                (
                    "300 .. 350 degC for 3 h",
                    "300 .. 350 degC for 30 min\n  hold  300 .. 350 degC for 30 min",
                ),
            ),
            at="30 min",
            base="bake",
            says="after 60 min about 61.4 % … 25.4 mm (1 in)",
        ),
        # 3 h at 1e-5 cm2/s, 0.108 cm2: 8/pi2 (exp(-0.16522) + exp(-1.487)/9 + exp(-4.131)/25) = 70.801 %.
        Bad(
            (
                ('"A335 P22"', '"A335 P5"'),
                ("Cr 2.20 %, Mo 0.98 %", "Cr 5.00 %, Mo 0.50 %"),
                ("p-number  1, 4, 5A", "p-number  1, 4, 5B"),
                ("condition below lower critical", "condition below lower critical baked"),
                ("lining            none", "lining            none\n  hydrogen left at most 50 %"),
            ),
            at="3 h",
            base="bake",
            says="after 3 h about 70.9 % … 25.4 mm (1 in) … at most 50 %",
        ),
        Bad(
            (("lining            none", "lining            left"),),
            at="3 h",
            base="bake",
            says="after 3 h about 66.6 % … 25.4 mm (1 in)",
        ),
        Bad(
            (
                (
                    "lining            none",
                    "lining            none\n  hydrogen left at most 10 %",
                ),
            ),
            at="3 h",
            base="bake",
            says="after 3 h about 34.1 % … 25.4 mm (1 in) … at most 10 %",
        ),
    ),
    edges=(
        Edge(
            (
                ("bake time at least 2 h", "bake time at least {} min"),
                ("300 .. 350 degC for 3 h", "300 .. 350 degC for {} min"),
            ),
            keeps="101",
            breaks="100",
            base="bake",
            says="after 100 min about 50.2 % … 25.4 mm (1 in)",
        ),
        Edge(
            (("lining            none", "lining            none\n  hydrogen left at most {} %"),),
            keeps="35",
            breaks="34",
            at="3 h",
            base="bake",
            says="after 3 h about 34.1 % … 25.4 mm (1 in) … at most 34 %",
        ),
    ),
    good=(Good((("300 .. 350 degC for 3 h", "300 .. 350 degC for 2 h"),), base="bake"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    bake = treatment.entry
    if not isinstance(bake, Bake):
        return
    limits = case.limits(treatment.joint, treatment)
    wall = limits.thickness
    asked_for, lined = bake.hydrogen_left, bake.lining == "left"
    # By a slow bound from memory no bake in use would come out: without a share that is asked for a
    # bake is held to what even carbon steel would keep.
    slow = slow_for_hydrogen(treatment.joint) and (asked_for is not None or lined)
    dose, longest, total = 0.0, None, None
    for segment in bake.segments:
        if not isinstance(segment, Hold):
            continue
        held, time = hold_range(case, treatment, segment), limits.hold_time(segment)
        if held is None or held.low is None or time is None:
            return
        if longest is None or time > longest[1]:
            longest = segment, time
        total = time if total is None else total + time
        from hts.base.arguments import NotCovered
        from hts.science.metallurgy.hydrogen import SLOW_BOUND, measured_diffusivity

        try:
            quick = measured_diffusivity(float(held.low.value))
        except NotCovered:
            return
        # Below the temperatures the bound is given for, it is too quick rather than too slow.
        dose += (min(SLOW_BOUND, quick) if slow else quick) * float(time.value)
    if wall is None or longest is None:
        return
    hold, time = longest
    asked = limits.derived("bake time", "minimum")
    if asked is not None and isinstance(asked.value, Quantity) and time < asked.value:
        return  # told as too short already
    from hts.science.metallurgy.hydrogen import share_left

    left = share_left(dose, float(wall.value), faces=1 if lined else 2)
    if left > (float(asked_for.value) / 100 if asked_for is not None else _MOST_LEFT):
        out = "out of one face only, because of the lining, " if lined else ""
        case.add(
            RULE.found(
                f"after {total} about {ceil(left * 1000) / 10:g} % of the hydrogen is left in {wall.both()}"
                + (f", and at most {asked_for} is asked for" if asked_for is not None else ""),
                hold.place("time"),
                address=treatment.address,
                notes=[
                    f"estimated for a wall charged throughout, {out}at the low end of the range, "
                    "without heating and cooling",
                    *([_SLOWLY] if slow else []),
                    *(
                        ["the bake time that governs is kept all the same"]
                        if asked is not None
                        else []
                    ),
                ],
                basis="memory" if slow else RULE.basis,
            )
        )
