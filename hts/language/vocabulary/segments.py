"""The steps of a heat treatment, shared by preheat, bake-out and post-weld cycles."""

from __future__ import annotations

from hts.base.quantities import RATE, TEMPERATURE, TIME, Interval, Quantity
from hts.language.vocabulary.declare import Entry, clause, value
from hts.language.vocabulary.types import Amount, ByRule, Choice, OrRule, Range


class Heat(Entry, words="heat", example="heat to 705 degC at most 200 degC/h"):
    """Heating to a temperature; without a rate it is free up to there."""

    to: Quantity | None = clause(
        "to", Amount(TEMPERATURE, usual="60 .. 1150 degC"), "Temperature to reach", required=True
    )
    rate: Quantity | ByRule | None = clause(
        "at most", OrRule(Amount(RATE, usual="20 .. 600 degC/h")), "Fastest rate of this step"
    )
    slowest: Quantity | None = clause(
        "at least",
        Amount(RATE, usual="5 .. 400 degC/h"),
        "Slowest rate of this step",
        example="50 degC/h",
    )
    above: Quantity | None = clause(
        "above",
        Amount(TEMPERATURE, usual="150 .. 600 degC"),
        "Temperature from which the rate counts",
        example="315 degC",
    )


class Hold(Entry, words="hold", example="hold 690 .. 720 degC for 2 h"):
    """Time within a range of temperature."""

    range: Interval | ByRule = value(
        OrRule(Range(TEMPERATURE, usual="150 .. 1150 degC")),
        "Range every required thermocouple stays in",
    )
    time: Quantity | ByRule | None = clause(
        "for",
        OrRule(Amount(TIME, usual="5 min .. 40 h")),
        "Shortest time in the range",
        required=True,
        stricter="higher",
    )
    longest: Quantity | None = clause(
        "at most", Amount(TIME, usual="10 min .. 48 h"), "Longest time in the range", example="3 h"
    )
    target: Quantity | None = clause(
        "target",
        Amount(TEMPERATURE, usual="150 .. 1150 degC"),
        "Setpoint within the range (the middle unless said)",
        example="705 degC",
    )
    after: str | None = clause(
        "counts from",
        Choice("all in range", "controlling in range"),
        "When the time begins to count",
    )


class Cool(Entry, words="cool", example="cool to 315 degC at most 200 degC/h"):
    """Cooling to a temperature, controlled or free."""

    one_of = ("to", "medium")
    told_by = ("medium",)
    to: Quantity | None = clause(
        "to",
        Amount(TEMPERATURE, usual="15 .. 850 degC"),
        "Temperature to reach",
        example="315 degC",
    )
    rate: Quantity | ByRule | None = clause(
        "at most", OrRule(Amount(RATE, usual="20 .. 600 degC/h")), "Fastest rate of this step"
    )
    slowest: Quantity | None = clause(
        "at least",
        Amount(RATE, usual="5 .. 600 degC/h"),
        "Slowest rate of this step",
        example="50 degC/h",
    )
    above: Quantity | None = clause(
        "above",
        Amount(TEMPERATURE, usual="150 .. 600 degC"),
        "Temperature down to which the rate counts",
        example="315 degC",
    )
    medium: str | None = clause(
        "in",
        Choice("still air", "insulation", "furnace", "moving air", "water spray", "water", "oil"),
        "What the part cools in",
    )


Segment = Heat | Hold | Cool
