"""The working zone of a furnace is even enough for the hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Treatment


def _even(kelvin: str) -> tuple[tuple[str, str], ...]:
    return (
        ("heating by resistance", "heating by furnace"),
        (
            "    soak band      by rule\n    heated band    by rule\n    gradient band  by rule\n",
            "",
        ),
        (
            "    ends           closed",
            f'    furnace "Furnace 1" uniformity +/- {kelvin}\n    ends           closed',
        ),
    )


RULE = Rule(
    "Y127",
    "furnace-too-uneven",
    "warning",
    summary="A furnace that strays farther from its setpoint than the hold allows.",
    why="Part of the load leaves the range though the setpoint is right.",
    fix="Use a furnace that is more even, or a wider range where the documents allow one.",
    source="derived: the stray on both sides of the setpoint",
    basis="derived",
    edges=(
        Edge(
            _even("{}"),
            keeps="15.0 K",
            breaks="15.1 K",
            says="by 15.1 K (27.2 degF) to … is 30 K (54 degF) wide",
        ),
    ),
    agrees=(
        Agreement("joint.heating.furnace.uniformity", "cycle.hold.range", "twice it fits inside"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    heating = treatment.joint.entry.heating
    furnace = heating.furnace if heating is not None else None
    if furnace is None or furnace.uniformity is None:
        return
    for hold, held in holds(case, treatment):
        width = held.width
        if width is not None and furnace.uniformity * 2 > width:
            case.add(
                RULE.found(
                    f"the furnace strays by {furnace.uniformity.both()} to either side; the "
                    f"hold is {width.both()} wide",
                    furnace.place("uniformity"),
                    address=treatment.address,
                    others=[Label(hold.place("range"), "the hold")],
                )
            )
