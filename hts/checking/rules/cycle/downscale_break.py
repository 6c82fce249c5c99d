"""A broken thermocouple takes the power away."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y114",
    "downscale-break",
    "warning",
    summary="A controller whose reading goes downscale when a thermocouple breaks.",
    why="The controller takes the metal for cold and gives full power, and nothing stops it.",
    fix="Write `sensor break upscale`.",
    source="common practice, no source",
    basis="practice",
    about=(
        "cycle.sensor break",
        "bake.sensor break",
    ),
    bad=(Bad((("sensor break        upscale", "sensor break        downscale"),), at="downscale"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if entry.sensor_break == "downscale" and treatment.controller is not None:
        case.add(
            RULE.found(
                f"a broken thermocouple makes {treatment.controller.name} heat on in "
                f"{treatment.name}",
                entry.place("sensor_break"),
                address=treatment.address,
                basis=RULE.basis,
            )
        )
