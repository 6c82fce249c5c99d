"""What is done when a treatment is interrupted."""

from __future__ import annotations

from hts.base.quantities import TIME, Quantity
from hts.language.vocabulary.declare import Entry, clause, value
from hts.language.vocabulary.types import Amount, Choice

#: What is done after a fault in cooling.
REPEAT_HOLD, REPEAT_HALF = "repeat the hold", "repeat half of the hold"
COOL_ON, ASK = "cool on at the allowed rate", "stop and ask"


class PowerLoss(
    Entry, words="on power loss", example="on power loss resume at the present temperature"
):
    """What is done when power fails; how fast the part cools meanwhile is limited all the same."""

    action: str = value(
        Choice("resume at the present temperature", "restart the cycle", "ask the engineer"),
        "What is done",
    )
    within: Quantity | None = clause(
        "within",
        Amount(TIME, usual="10 min .. 8 h"),
        "If power is back within this time",
        example="30 min",
        stricter="lower",
    )


class ThermocoupleLoss(
    Entry, words="on thermocouple loss", example="on thermocouple loss change to the spare"
):
    """What is done when a thermocouple fails."""

    action: str = value(
        Choice("change to the spare", "stop and repair", "ask the engineer"), "What is done"
    )


class HeaterLoss(
    Entry, words="on heater loss", example="on heater loss adjust neighbouring heaters"
):
    """What is done when a heater fails."""

    action: str = value(
        Choice("replace", "adjust neighbouring heaters", "stop and repair", "ask the engineer"),
        "What is done",
    )


class CoolingFault(
    Entry, words="on cooling fault", example="on cooling fault repeat half of the hold"
):
    """What is done when cooling was too fast, or control was lost while cooling."""

    action: str = value(Choice(REPEAT_HOLD, REPEAT_HALF, COOL_ON, ASK), "What is done")


class OverRate(Entry, words="on over-rate", example="on over-rate resume at the allowed rate"):
    """What is done when heating was too fast."""

    action: str = value(
        Choice("resume at the allowed rate", "stop and ask", "restart the cycle"), "What is done"
    )
