"""What a joint joins: materials, sizes and walls of its sides, and how the pipe lies."""

from __future__ import annotations

from hts.base.quantities import ANGLE, LENGTH, Quantity
from hts.base.quantities.clock import ClockPosition
from hts.language.vocabulary.declare import Entry, clause, value
from hts.language.vocabulary.job import AXES
from hts.language.vocabulary.types import (
    Amount,
    Choice,
    Clock,
    Number,
    Offset,
    OffsetValue,
    Reference,
    Size,
    Text,
    To,
)
from hts.limits.words import PARTS

NPS = Size("a nominal pipe size", "12")
SCHEDULE = Size("a schedule", "80")


class Between(Entry, words="between", example="between header-pipe and header-pipe"):
    """The materials of the two sides."""

    first: Reference = value(To("material"), "Material of the first side")
    second: Reference | None = clause(
        "and", To("material"), "Material of the second side", required=True
    )


class Pipe(Entry, words="pipe", example="pipe NPS 12 schedule 120"):
    """Size of the pipe, both sides alike, by nominal size and schedule or as measured."""

    one_of = ("nps", "dn", "outside_diameter")
    nps: str | None = clause("NPS", NPS, "Nominal pipe size of ASME B36.10M")
    dn: str | None = clause("DN", Size("a nominal diameter", "300"), "Nominal diameter")
    schedule: str | None = clause("schedule", SCHEDULE, "Schedule of ASME B36.10M")
    outside_diameter: Quantity | None = clause(
        "outside diameter",
        Amount(LENGTH, usual="10 .. 6000 mm"),
        "Outside diameter",
        example="323.9 mm",
    )


class Wall(Entry, words="wall", example="wall 25.4 mm measured"):
    """Wall at the weld, both sides alike."""

    thickness: Quantity = value(Amount(LENGTH, usual="1.5 .. 250 mm"), "Thickness")
    taken: str | None = value(
        Choice("measured", "nominal"), "Measured on the part, or as ordered", optional=True
    )


class Side(
    Entry, words="side", example="side run of header-pipe NPS 12 schedule 120 wall 25.4 mm measured"
):
    """One side of the joint where the two differ."""

    name: str = value(
        Choice("upstream", "downstream", "run", "branch", "A", "B", "pad", "attachment"),
        "Which side",
    )
    material: Reference | None = clause("of", To("material"), "Its material", required=True)
    nps: str | None = clause("NPS", NPS, "Nominal pipe size")
    dn: str | None = clause("DN", Size("a nominal diameter", "300"), "Nominal diameter")
    schedule: str | None = clause("schedule", SCHEDULE, "Schedule")
    outside_diameter: Quantity | None = clause(
        "outside diameter",
        Amount(LENGTH, usual="10 .. 6000 mm"),
        "Outside diameter",
        example="323.9 mm",
    )
    wall: Quantity | None = clause(
        "wall", Amount(LENGTH, usual="1.5 .. 250 mm"), "Wall at the weld"
    )
    taken: str | None = value(
        Choice("measured", "nominal"),
        "Whether the wall was measured on the part, or is as ordered",
        optional=True,
    )
    taper: Quantity | None = clause(
        "taper",
        Amount(LENGTH, usual="2 .. 500 mm"),
        "Length over which its wall falls to that of the other side, from the weld outward",
        example="40 mm",
    )
    slope: str | None = clause(
        "slope",
        Number(usual="1 .. 10"),
        "Run to rise of that taper, where its length is not said",
        example="4",
    )
    part: str | None = clause("part", Choice(*PARTS), "What kind of part it is")
    heat_number: str | None = clause(
        "heat number", Text(), "Heat number of the part", example='"H4471"'
    )


class HeavySection(
    Entry,
    words="heavy section",
    example="heavy section flange 60 mm downstream wall 55 mm over 90 mm taper 25 mm",
):
    """Something thicker than the pipe beside the weld, which draws heat away and lags."""

    what: str = value(Choice(*PARTS), "What it is")
    where: OffsetValue = value(
        Offset(usual="5 mm .. 5 m"), "Where its full wall begins, from the weld centreline"
    )
    bore: str | None = value(
        Choice("same bore", "same outside"),
        "Which surface runs on from the pipe; the same bore unless said",
        optional=True,
    )
    wall: Quantity | None = clause(
        "wall", Amount(LENGTH, usual="5 .. 400 mm"), "Its wall", required=True, example="55 mm"
    )
    over: Quantity | None = clause(
        "over",
        Amount(LENGTH, usual="10 mm .. 5 m"),
        "Its length along the pipe",
        required=True,
        example="90 mm",
    )
    taper: Quantity | None = clause(
        "taper",
        Amount(LENGTH, usual="2 .. 500 mm"),
        "Length over which the wall grows, on the way from the weld; a step without it",
        example="25 mm",
    )
    slope: str | None = clause(
        "slope",
        Number(usual="1 .. 10"),
        "Run to rise of the taper, where its length is not said",
        example="4",
    )


class Branch(Entry, words="branch weld", example="branch weld sketch 2 cover fillet 10 mm"):
    """What decides the thickness of a branch weld."""

    sketch: str | None = clause(
        "sketch", Choice("1", "2", "3", "4", "5"), "Sketch of the code's figure of branch welds"
    )
    cover: Quantity | None = clause(
        "cover fillet",
        Amount(LENGTH, usual="2 .. 60 mm"),
        "Throat of the cover fillet",
        example="10 mm",
    )
    pad: Quantity | None = clause(
        "pad",
        Amount(LENGTH, usual="3 .. 100 mm"),
        "Thickness of the reinforcing pad",
        example="12 mm",
    )
    angle: Quantity | None = clause(
        "angle",
        Amount(ANGLE, usual="30 .. 90 deg"),
        "Angle between branch and run",
        example="90 deg",
    )
    crotch: ClockPosition | None = clause(
        "crotch at",
        Clock(),
        "Clock position of the crotch, on the side the branch leans to; where it stands square "
        "either of the two along the run",
        example="12:00",
    )
    offset: Quantity | None = clause(
        "offset",
        Amount(LENGTH, usual="1 .. 3000 mm"),
        "Distance between the axes of branch and run",
        example="40 mm",
    )
    toward: ClockPosition | None = clause(
        "toward", Clock(), "Clock position to which the branch is offset", example="3:00"
    )


class Seam(Entry, words="seam", example='seam 2.4 m from "lower head" on the left'):
    """A straight weld: how long it is, and from which end distances along it count."""

    length: Quantity = value(Amount(LENGTH, usual="50 mm .. 40 m"), "Length of the weld")
    origin: str | None = clause(
        "from",
        Text(),
        "The end that distances along the weld count from",
        required=True,
        example='"lower head"',
    )
    hand: str | None = clause(
        "on the",
        Choice("left", "right"),
        "On which hand that end lies for whoever faces the weld from outside, with side A above it",
    )


class Pad(Entry, words="pad", example="pad 400 mm by 250 mm"):
    """A pad or doubling plate welded on all round: its size as it is faced from outside, with the
    datum above. Distances along its weld count clockwise from the upper left corner."""

    width: Quantity = value(Amount(LENGTH, usual="20 .. 3000 mm"), "Width, from left to right")
    height: Quantity | None = clause(
        "by",
        Amount(LENGTH, usual="20 .. 3000 mm"),
        "Height",
        required=True,
        example="250 mm",
    )
    corners: Quantity | None = clause(
        "corners", Amount(LENGTH, usual="5 .. 500 mm"), "Radius of its corners", example="25 mm"
    )


class Axis(Entry, words="axis", example="axis horizontal"):
    """How the pipe lies."""

    lies: str = value(Choice(*AXES), "Position of the axis")
    slope: Quantity | None = clause(
        "at", Amount(ANGLE, usual="0 .. 90 deg"), "Angle to the horizontal"
    )
