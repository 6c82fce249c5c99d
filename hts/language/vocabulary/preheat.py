"""Preheat: the joint before and between passes."""

from __future__ import annotations

from hts.base.quantities import LENGTH, RATE, TEMPERATURE, TIME, Quantity
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value
from hts.language.vocabulary.job import METHODS
from hts.language.vocabulary.types import (
    Amount,
    ByRule,
    Choice,
    Joints,
    OrRule,
    Reference,
    To,
    Width,
    WidthValue,
)


class Measured(
    Entry, words="measured by", example="measured by contact probe at 76 mm from 0 degC to 300 degC"
):
    """A way of measuring preheat, with its place and range."""

    how: str = value(
        Choice("thermocouple", "contact probe", "temperature-indicating crayon", "pyrometer"),
        "Instrument",
    )
    at: Quantity | None = clause(
        "at",
        Amount(LENGTH, usual="10 .. 300 mm"),
        "Distance from the edge of the groove",
        example="76 mm",
    )
    face: str | None = clause(
        "on",
        Choice("face toward the welder", "face away from the heat", "heated face"),
        "Face it is measured on",
    )
    lowest: Quantity | None = clause(
        "from",
        Amount(TEMPERATURE, usual="-50 .. 400 degC"),
        "Lower end of its range",
        example="0 degC",
    )
    highest: Quantity | None = clause(
        "to",
        Amount(TEMPERATURE, usual="50 .. 1400 degC"),
        "Upper end of its range",
        example="300 degC",
    )
    placed: str | None = clause(
        "placed",
        Choice("in the middle of the heat", "at the edge of the heat"),
        "Where in the heated zone it stays while heating",
    )
    kept: str | None = clause(
        "kept",
        Choice("under the blanket", "over the blanket", "beside the blanket"),
        "Where it stays, seen from the insulation: under it, it lies on the metal",
    )
    only: bool = flag("only", "Nothing else is used")


class Interpass(Entry, words="interpass", example="interpass at most 315 degC"):
    """Highest temperature before the next pass."""

    at_most: Quantity | ByRule | None = clause(
        "at most",
        OrRule(Amount(TEMPERATURE, usual="80 .. 450 degC")),
        "Highest temperature",
        required=True,
        example="315 degC",
    )
    at_least: Quantity | None = clause(
        "at least",
        Amount(TEMPERATURE, usual="5 .. 400 degC"),
        "Lowest temperature before the next pass, where it is above preheat",
        example="175 degC",
    )


class Preheat(Entry, words="preheat", example="preheat W12 { … }", block=True):
    """Temperature of the joint before and between passes."""

    joints: list[Reference] = value(Joints(), "Joints it is for", many=True)
    at_least: Quantity | ByRule | None = entry(
        "at least",
        OrRule(Amount(TEMPERATURE, usual="5 .. 400 degC")),
        "Lowest temperature before the arc",
        required=True,
        example="at least 150 degC",
    )
    at_most: Quantity | None = entry(
        "at most",
        Amount(TEMPERATURE, usual="20 .. 450 degC"),
        "Greatest preheat, before the first arc",
        example="at most 250 degC",
    )
    interpass: Interpass | None = inner(Interpass, required=True)
    width: WidthValue | ByRule | None = entry(
        "width",
        OrRule(Width(usual="40 .. 1200 mm")),
        "Width brought to preheat, from each edge of the weld",
        example="width 75 mm each side",
    )
    method: str | None = entry(
        "method", Choice(*METHODS), "Heating method", example="method induction"
    )
    maintain: Quantity | None = entry(
        "maintain at least",
        Amount(TEMPERATURE, usual="5 .. 400 degC"),
        "Lowest temperature while welding is interrupted",
        example="maintain at least 150 degC",
    )
    soak: Quantity | None = entry(
        "soak",
        Amount(TIME, usual="5 min .. 3 h"),
        "Time at preheat before the arc",
        example="soak 30 min",
    )
    rate: Quantity | None = entry(
        "heating rate at most",
        Amount(RATE, usual="20 .. 400 degC/h"),
        "Fastest heating",
        example="heating rate at most 150 degC/h",
    )
    measured: list[Measured] = inner(Measured, many=True)
    interrupted: str | None = entry(
        "when interrupted",
        Choice("keep hot", "cool slowly and preheat again", "bake before cooling"),
        "What is done when welding stops",
        example="when interrupted keep hot",
    )
    until: str | None = entry(
        "keep until",
        Choice("end of welding", "bake", "post-weld heat treatment"),
        "How long preheat is kept",
        example="keep until bake",
    )
    recorded_by: Reference | None = entry(
        "recorded by", To("recorder"), "Recorder", example="recorded by R1"
    )
    controlled_by: Reference | None = entry(
        "controlled by", To("controller"), "Controller", example="controlled by C1"
    )
