"""What is done before, during and after heating."""

from __future__ import annotations

from hts.base.quantities import (
    HARDNESS,
    LENGTH,
    RATIO,
    RESISTANCE,
    TEMPERATURE,
    TIME,
    Quantity,
)
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value
from hts.language.vocabulary.types import Amount, Choice, Count, Joints, Reference, Text

TOPICS = (
    "documents",
    "permit",
    "isolation",
    "gas test",
    "drained and vented",
    "attachments removed",
    "machined faces protected",
    "ends closed",
    "supports",
    "flanges unbolted",
    "nearby items protected",
    "heater continuity",
    "zones match drawing",
    "thermocouple map",
    "tag matches channel",
    "polarity",
    "spares connected",
    "junctions shielded",
    "cable rating",
    "recorder set",
    "channel map",
    "calibration in date",
    "program matches procedure",
    "power and standby",
    "fire watch",
    "barriers and signs",
    "lighting and access",
    "insulation complete",
    "surface condition",
    "hot-surface warning",
    "valves",
    "thermocouple attachment",
    "cleanliness",
    "bracing",
    "weather",
    "furnace survey",
    "other",
)


#: What a chart is asked to bear besides its traces.
ON_CHART = (
    "client",
    "document number",
    "drawing",
    "line",
    "joint",
    "welder",
    "material",
    "heat number",
    "size and wall",
    "cycle",
    "date",
    "start and end of hold",
    "chart speed",
    "temperature scale",
    "channels",
    "thermocouple places",
    "recorder serial",
    "calibration",
    "operator",
    "inspector",
)


class Check(Entry, words="check", example='check "Bore drained and vented" about ends closed'):
    """Something to be looked at and signed."""

    told_by = ("about",)
    text: str = value(Text(), "What is checked")
    about: str | None = clause("about", Choice(*TOPICS), "Topic, so that rules can see it is there")
    by: str | None = clause("by", Text(), "Role that signs", example='"Heat-treatment technician"')


class Point(Entry):
    """A point of the inspection plan."""

    told_by = ("by",)
    text: str = value(Text(), "What has to happen")
    about: str | None = clause(
        "about", Choice(*TOPICS), "Topic, so that a procedure can ask for it"
    )
    by: str | None = clause(
        "by", Text(), "Role that has to be there or release", example='"Owner\'s inspector"'
    )


class HoldPoint(
    Point, words="hold point", example='hold point "Start is released" by "Owner\'s engineer"'
):
    """Work stops until the role has released it."""


class WitnessPoint(
    Point, words="witness point", example='witness point "Reading of the hold" by "Inspector"'
):
    """The role is called and work goes on."""


class ReviewPoint(
    Point, words="review point", example='review point "Chart" by "Welding inspector"'
):
    """The role reviews papers."""


class Examination(Entry, words="examine", example='examine "MT" extent "100 %" accepted'):
    """A non-destructive test."""

    method: str = value(Text(), "Test")
    extent: str | None = clause("extent", Text(), "Extent", example='"100 %"')
    after: Quantity | None = clause(
        "after",
        Amount(TIME, usual="6 .. 168 h"),
        "Not before this time has passed",
        example="48 h",
        stricter="higher",
    )
    within: Quantity | None = clause(
        "within",
        Amount(TIME, usual="1 h .. 30 d"),
        "At the latest, from the end of the heat",
        example="5 d",
        stricter="lower",
    )
    accepted: bool = flag("accepted", "Has to be accepted before the work goes on")
    report: str | None = clause("report", Text(), "Number of the report", example='"MT-31"')


class Work(Entry):
    """What the three stages have in common."""

    joints: list[Reference] = value(Joints(), "Joints it is for", many=True)
    checks: list[Check] = inner(Check, many=True)
    hold_points: list[HoldPoint] = inner(HoldPoint, many=True)
    witness_points: list[WitnessPoint] = inner(WitnessPoint, many=True)
    review_points: list[ReviewPoint] = inner(ReviewPoint, many=True)
    examinations: list[Examination] = inner(Examination, many=True)
    cautions: list[str] = entry(
        "caution",
        Text(),
        "Caution on the paper",
        many=True,
        example='caution "Surfaces up to 720 degC"',
    )

    @property
    def for_one(self) -> bool:
        """Whether it is for one joint alone."""
        return len(self.joints) == 1


class Before(
    Work,
    words="before heat",
    block=True,
    example="before heat W12 { insulation resistance at least 1 Mohm }",
):
    """Before power goes on."""

    insulation_resistance: Quantity | None = entry(
        "insulation resistance at least",
        Amount(RESISTANCE, usual="200 kohm .. 5 Mohm"),
        "Of heaters to earth",
        example="insulation resistance at least 1 Mohm",
    )
    welded_first: list[str] = entry(
        "weld first",
        Text(),
        "Attachment, stud or name plate welded on before the heat",
        many=True,
        example='weld first "Pipe shoe"',
    )


class During(
    Work, words="during heat", block=True, example="during heat W12 { reading every 1 h }"
):
    """While power is on."""

    reading_every: Quantity | None = entry(
        "reading every",
        Amount(TIME, usual="5 min .. 4 h"),
        "Time between hand-written readings",
        stricter="lower",
        example="reading every 1 h",
    )
    chart_shows: list[str] = entry(
        "chart shows",
        Choice(*ON_CHART),
        "What is written on the chart, so that it is known whose it is",
        many=True,
        example="chart shows joint, welder, date",
    )


HARDNESS_ZONES = ("weld", "heat-affected zone", "base metal")


class Hardness(Entry, words="hardness", example="hardness weld at most 248 HV10 count 3"):
    """A hardness limit and where it is tested."""

    zone: str = value(Choice(*HARDNESS_ZONES), "Where")
    at_most: Quantity | None = clause(
        "at most",
        Amount(HARDNESS, usual="120 .. 380 HBW, 120 .. 400 HV10, 120 .. 400 HV5, 5 .. 40 HRC"),
        "Highest value",
        required=True,
    )
    at_least: Quantity | None = clause(
        "at least",
        Amount(HARDNESS, usual="80 .. 350 HBW, 80 .. 350 HV10, 80 .. 350 HV5, 1 .. 35 HRC"),
        "Lowest value",
        example="170 HV10",
    )
    share: Quantity | None = clause(
        "of base metal at most",
        Amount(RATIO, usual="100 .. 160 %"),
        "Highest value as a share of what is measured on the base metal",
        example="120 %",
    )
    count: int | None = clause("count", Count(usual="1 .. 16"), "Number of places", example="3")
    spots: str | None = clause("places", Text(), "Map of the places", example='"Sketch 2"')
    extent: str | None = clause("extent", Text(), "Share of the welds", example='"10 %"')
    after: Quantity | None = clause(
        "after",
        Amount(TIME, usual="6 .. 168 h"),
        "Not before this time has passed since the heat",
        example="12 h",
        stricter="higher",
    )
    tested_within: Quantity | None = clause(
        "within",
        Amount(TIME, usual="1 h .. 30 d"),
        "At the latest, from the end of the heat",
        example="5 d",
        stricter="lower",
    )


class HandOver(
    Entry, words="hand over", example='hand over "Chart with channel map" to "Owner\'s inspector"'
):
    """A document to hand over."""

    text: str = value(Text(), "Document")
    to: str | None = clause("to", Text(), "Role that gets it", example='"Owner\'s inspector"')
    within: Quantity | None = clause(
        "within",
        Amount(TIME, usual="1 h .. 180 d"),
        "At the latest, from the end of the heat",
        example="10 d",
        stricter="lower",
    )


class Straightness(Entry, words="straightness", example="straightness within 2.5 mm per 3 m"):
    """Distortion allowed."""

    within: Quantity | None = clause(
        "within",
        Amount(LENGTH, usual="0.5 .. 20 mm"),
        "Deviation",
        required=True,
        example="2.5 mm",
        stricter="lower",
    )
    per: Quantity | None = clause(
        "per",
        Amount(LENGTH, usual="0.3 .. 30 m"),
        "Over this length",
        required=True,
        example="3 m",
        stricter="higher",
    )


class After(
    Work,
    words="after heat",
    block=True,
    example="after heat W12 { hardness weld at most 248 HV10 count 3 }",
):
    """After the cycle."""

    hardness: list[Hardness] = inner(Hardness, many=True)
    straightness: Straightness | None = inner(Straightness)
    welded_later: list[str] = entry(
        "weld or peen afterwards",
        Text(),
        "What is welded onto the joint, or peened, after the heat",
        many=True,
        example='weld or peen afterwards "Bracket of the name plate"',
    )
    marking: list[str] = entry(
        "marking",
        Text(),
        "Marking of the joint",
        many=True,
        example='marking "Heat treated: no welding, no arc strikes"',
    )
    hand_over: list[HandOver] = inner(HandOver, many=True)
    removed_at: Quantity | None = entry(
        "remove thermocouples below",
        Amount(TEMPERATURE, usual="20 .. 300 degC"),
        "When thermocouples come off",
        stricter="lower",
        example="remove thermocouples below 50 degC",
    )
    spots: str | None = entry(
        "thermocouple spots",
        Text(),
        "What is done to the spots",
        example='thermocouple spots "Ground flush, MT"',
    )
    keep: Quantity | None = entry(
        "keep records",
        Amount(TIME, usual="365 .. 15000 d"),
        "How long records are kept",
        stricter="higher",
        example="keep records 1826 d",
    )
