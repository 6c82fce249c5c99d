"""What was found after the work, in a file of its own beside the specification."""

from __future__ import annotations

from hts.base.quantities import HARDNESS, LENGTH, TIME, Quantity
from hts.language.vocabulary.declare import Entry, clause, inner, value
from hts.language.vocabulary.types import Amount, Choice, Day, Name, Text
from hts.language.vocabulary.work import HARDNESS_ZONES


class Found(Entry):
    """What every result says: who found it, and when."""

    by: str | None = clause("by", Text(), "Who found it, as a role", example='"Inspector"')
    on: str | None = clause("on", Day(), "Day it was found", example="2026-12-02")


class HardnessFound(
    Found,
    words="measured hardness",
    example='measured hardness weld 231 HBW, 228 HBW at "12:00, 6:00"',
):
    """Hardness readings, one for each place."""

    zone: str = value(Choice(*HARDNESS_ZONES), "Where")
    readings: list[Quantity] = value(
        Amount(HARDNESS, usual="80 .. 450 HBW, 80 .. 450 HV10, 80 .. 450 HV5, 1 .. 45 HRC"),
        "Reading",
        many=True,
    )
    spots: str | None = clause("at", Text(), "The places", example='"12:00, 6:00"')
    after: Quantity | None = clause(
        "after", Amount(TIME, usual="1 h .. 60 d"), "Time since the heat", example="26 h"
    )


class StraightnessFound(
    Found,
    words="measured straightness",
    example="measured straightness 1.8 mm per 3 m on 2026-12-02",
):
    """Distortion measured."""

    measured: Quantity = value(Amount(LENGTH, usual="0 .. 50 mm"), "Deviation")
    per: Quantity | None = clause(
        "per", Amount(LENGTH, usual="0.3 .. 30 m"), "Over this length", required=True, example="3 m"
    )


class Examined(Found, words="examined", example='examined "MT" accepted after 26 h report "MT-77"'):
    """A non-destructive test and what it came to."""

    method: str = value(Text(), "Test")
    outcome: str = value(Choice("accepted", "rejected"), "What it came to")
    after: Quantity | None = clause(
        "after", Amount(TIME, usual="1 .. 480 h"), "Time since the heat, or welding", example="26 h"
    )
    report: str | None = clause("report", Text(), "Number of the report", example='"MT-77"')


class Done(Found, words="done", example='done "Spring hanger released" by "Piping engineer"'):
    """A check, a hold or witness point, a marking or a document handed over, in its own words."""

    text: str = value(Text(), "What was done, as the specification calls it")
    after: Quantity | None = clause(
        "after", Amount(TIME, usual="1 h .. 200 d"), "Time since the heat", example="3 d"
    )


class Results(
    Entry,
    words="results",
    block=True,
    example='results W12 { examined "MT" accepted on 2026-12-02 }',
):
    """What was found on a joint after its heat; it says nothing of what is to be done."""

    joints: list[str] = value(Name("the name of a joint", "W12"), "Joints found so", many=True)
    hardness: list[HardnessFound] = inner(HardnessFound, many=True)
    straightness: list[StraightnessFound] = inner(StraightnessFound, many=True)
    examinations: list[Examined] = inner(Examined, many=True)
    done: list[Done] = inner(Done, many=True)
