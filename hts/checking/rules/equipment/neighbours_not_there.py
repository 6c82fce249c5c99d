"""Where one zone heats alone, no neighbour makes up for a heater that fails."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

_TWO = (
    "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n"
    "    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n"
)
_ONE = (_TWO, "    zone top       all round power 18 kW heaters 4\n")
_NO_SECOND = (
    (
        "controls bottom         at 6:00  on weld              channel 2   control channel 2",
        "monitors weld at 6:00 on weld channel 2",
    ),
    ("    T2S  spare for T2            at 6:10  on weld              channel 8\n", ""),
)
_LOSS = ("  rate margin  ", "  on heater loss {}\n  rate margin  ")


_WAIVED = (
    "controller C1 {",
    'waive too-few-zones on W12/heating {\n  reason "The furnace of the shop is out of order"\n  by "Welding engineer"\n'
    "  until 2027-01-31\n}\n\ncontroller C1 {",
)


def _on_loss(what: str) -> tuple[str, str]:
    return _LOSS[0], _LOSS[1].format(what)


RULE = Rule(
    "E122",
    "neighbours-not-there",
    "warning",
    summary="A treatment that adjusts neighbouring heaters when one fails, of a joint with one zone.",
    why="All heaters of a zone hang on one circuit: there is nothing to turn up, and the weld goes cold on one side.",
    fix="Replace the heater, or stop and repair.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (_ONE, *_NO_SECOND, _WAIVED, _on_loss("adjust neighbouring heaters")),
            at="adjust neighbouring heaters",
            says="adjusts neighbouring heaters, and W12 has one zone",
        ),
    ),
    good=(
        Good((_on_loss("adjust neighbouring heaters"),)),
        Good((_ONE, *_NO_SECOND, _WAIVED, _on_loss("stop and repair"))),
    ),
    agrees=(
        Agreement("cycle.on heater loss.action", "joint.heating.zone", "neighbours there are"),
    ),
)

_NEIGHBOURS = "adjust neighbouring heaters"


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    joint, cycle = treatment.joint, treatment.cycle
    loss = cycle.heater_loss if cycle is not None else None
    # Of joints heated together the neighbour may be another's.
    if cycle is None or loss is None or cycle.together or len(joint.zones) != 1:
        return
    if loss.action != _NEIGHBOURS:
        return
    case.add(
        RULE.found(
            f"{treatment.name} adjusts neighbouring heaters, and {joint.name} has one zone",
            loss.place("action"),
            address=treatment.address,
            others=[Label(joint.zones[0].place(), "the zone")],
            basis=RULE.basis,
        )
    )
