"""What cools in still air is not under insulation at the same time."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

_HOT = Quantity.of(200, "degC", TEMPERATURE)
_COOL = "  cool  in still air\n"


def _cooled(how: str, strip: str) -> tuple[tuple[str, str], ...]:
    return ((_COOL, f"  cool  in {how}\n  remove insulation below {strip}\n"),)


RULE = Rule(
    "Y148",
    "cooled-without-cover",
    "warning",
    summary="A treatment that cools in still air although its insulation stays on until the metal is nearly cold.",
    why="One of the two is a slip: blankets come off hot metal, or a rate that was worked out for air is not reached.",
    fix="Say `cool in insulation`, or at what temperature the insulation comes off.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _cooled("still air", "{}"),
            keeps="201 degC",
            breaks="200 degC",
            at="still air",
            says="cools in still air, and its insulation stays on down to 200 degC (392 degF)",
        ),
    ),
    good=(Good(_cooled("insulation", "80 degC")), Good(_cooled("still air", "300 degC"))),
    agrees=(
        Agreement("cycle.cool.in", "cycle.remove insulation below", "in air when the cover is off"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    strip = cycle.strip_below if cycle is not None else None
    if cycle is None or strip is None or strip > _HOT:
        return
    for cool in cycle.segments if cycle.sound else ():
        if isinstance(cool, Cool) and cool.medium == "still air":
            case.add(
                RULE.found(
                    f"{treatment.name} cools in still air, and its insulation stays on down to {strip.both()}",
                    cool.place("medium"),
                    address=treatment.address,
                    others=[Label(cycle.place("strip_below"), "the insulation")],
                    basis=RULE.basis,
                )
            )
