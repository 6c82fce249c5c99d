"""Heaters, bands, zones and insulation of a joint."""

from __future__ import annotations

from hts.base.quantities import (
    DENSITY,
    DIFFERENCE,
    LENGTH,
    POWER,
    POWER_DENSITY,
    THERMAL_RESISTANCE,
    Interval,
    Quantity,
)
from hts.base.quantities.clock import Arc, ClockPosition
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value
from hts.language.vocabulary.job import METHODS
from hts.language.vocabulary.types import (
    Amount,
    ByRule,
    Choice,
    Clock,
    Count,
    Day,
    Name,
    Number,
    Offset,
    OffsetValue,
    OrRule,
    PlusMinus,
    Range,
    Reference,
    Size,
    Text,
    To,
    Width,
    WidthValue,
)


class Zone(Entry, words="zone", example="zone top from 9:00 to 3:00 power 6 kW"):
    """Heaters that follow one controlling thermocouple."""

    told_by = ("side",)
    name: str = value(Name("the name of a zone", "top"), "What the zone is called")
    first: ClockPosition | None = clause(
        "from", Clock(), "Where its arc begins, clockwise", example="9:00"
    )
    last: ClockPosition | None = clause("to", Clock(), "Where its arc ends", example="3:00")
    all_round: bool = flag("all round", "The zone goes right round the pipe")
    along: Interval | None = clause(
        "along",
        Range(LENGTH, usual="0 .. 40 m"),
        "Part of a long seam, or of the weld round a pad, that it heats",
        example="0 mm .. 800 mm",
    )
    side: str | None = clause(
        "side",
        Choice("upstream", "downstream", "run", "branch", "both"),
        "Side of the weld its heaters lie on, where zones are split so",
    )
    power: Quantity | None = clause(
        "power", Amount(POWER, usual="0.5 .. 150 kW"), "Power available to it"
    )
    heaters: int | None = clause("heaters", Count(usual="1 .. 48"), "Number of heaters")
    circuit: str | None = clause("circuit", Size("a circuit", "3"), "Circuit or cable number")

    @property
    def arc(self) -> Arc | None:
        """The arc it heats, None where it goes all round or does not say."""
        if self.first is None or self.last is None:
            return None
        return Arc(self.first, self.last)


class Heater(
    Entry, words="heater", example="heater H1 in top power 2.7 kW width 165 mm length 380 mm"
):
    """A heater or a row of like heaters."""

    name: str = value(Name("the name of a heater", "H1"), "Identity of the heater")
    zone: Reference | None = clause("in", To("zone"), "Zone it belongs to", required=True)
    kind: str | None = clause(
        "kind",
        Choice("flexible pad", "finger", "cable", "band", "coil", "burner"),
        "Kind of heater",
    )
    power: Quantity | None = clause(
        "power", Amount(POWER, usual="0.3 .. 60 kW"), "Power of each", example="2.7 kW"
    )
    count: int | None = clause("count", Count(usual="1 .. 48"), "How many")
    width: Quantity | None = clause(
        "width", Amount(LENGTH, usual="10 .. 1500 mm"), "Width along the pipe", example="165 mm"
    )
    length: Quantity | None = clause(
        "length", Amount(LENGTH, usual="20 .. 3000 mm"), "Length round the pipe", example="380 mm"
    )
    starts: OffsetValue | None = clause(
        "starts", Offset(usual="0 .. 3 m"), "First edge from the weld centreline"
    )
    ends: OffsetValue | None = clause(
        "ends", Offset(usual="0 .. 3 m"), "Last edge from the weld centreline"
    )
    circuit: str | None = clause("circuit", Size("a circuit", "3"), "Circuit or cable number")


class Narrowing(
    Entry, words="band narrows to", example="band narrows to 300 mm total from 4:00 to 8:00"
):
    """Where a band round a vessel is narrower, away from the nozzle or repair it is heated for."""

    width: WidthValue = value(
        Width(usual="50 .. 3000 mm"), "Width of the heated band where it is narrowest"
    )
    first: ClockPosition | None = clause(
        "from", Clock(), "Where the narrow part begins, clockwise", required=True, example="4:00"
    )
    last: ClockPosition | None = clause(
        "to", Clock(), "Where it ends", required=True, example="8:00"
    )
    taper: Quantity | None = clause(
        "taper",
        Amount(LENGTH, usual="50 mm .. 3 m"),
        "Length round the vessel over which it narrows, before and behind",
        example="600 mm",
    )


class Coil(Entry, words="coil", example="coil turns 8 wound around cooled by air"):
    """The induction coil."""

    one_of = ("turns", "wound", "cooled", "pitch")
    turns: int | None = clause("turns", Count(usual="1 .. 60"), "Number of turns", example="8")
    wound: str | None = clause("wound", Choice("around", "flat"), "How it is laid")
    cooled: str | None = clause("cooled by", Choice("air", "water"), "Cooling of the conductor")
    pitch: Quantity | None = clause(
        "pitch", Amount(LENGTH, usual="8 .. 200 mm"), "Distance from turn to turn", example="40 mm"
    )


class Insulation(
    Entry, words="insulation", example='insulation "ceramic fibre blanket" thickness 50 mm layers 2'
):
    """Insulation over the heaters."""

    material: str = value(Text(), "Material")
    thickness: Quantity | None = clause(
        "thickness",
        Amount(LENGTH, usual="10 .. 300 mm"),
        "Thickness in all",
        required=True,
        example="50 mm",
    )
    layers: int | None = clause("layers", Count(usual="1 .. 10"), "Number of layers")
    density: Quantity | None = clause(
        "density", Amount(DENSITY, usual="40 .. 400 kg/m3"), "Density"
    )
    width: WidthValue | None = clause(
        "width", Width(usual="60 .. 8000 mm"), "Insulated width", example="900 mm total"
    )
    resistance: Quantity | None = clause(
        "resistance", Amount(THERMAL_RESISTANCE, usual="0.1 .. 4 m2K/W"), "Resistance to heat flow"
    )


class InsideInsulation(
    Insulation,
    words="inside insulation",
    example='inside insulation "ceramic fibre plug" thickness 100 mm',
):
    """Insulation in the bore."""


class Liner(
    Entry, words="liner", example='liner "ceramic fibre blanket" thickness 25 mm width 600 mm total'
):
    """Insulation laid against the bore all round, so that the inside keeps its heat."""

    material: str = value(Text(), "Material")
    thickness: Quantity | None = clause(
        "thickness",
        Amount(LENGTH, usual="6 .. 150 mm"),
        "Thickness",
        required=True,
        example="25 mm",
    )
    width: WidthValue | None = clause(
        "width",
        Width(usual="60 .. 8000 mm"),
        "Lined width; else that of the insulation outside",
        example="600 mm total",
    )


class Draught(Entry, words="draught", example="draught stopped by plugs at 2 m"):
    """Whether air can draw through the bore."""

    state: str = value(Choice("none", "stopped by plugs", "through the bore"), "Its state")
    at: Quantity | None = clause(
        "at",
        Amount(LENGTH, usual="0.1 .. 20 m"),
        "Distance of the plugs from the weld",
        example="2 m",
    )


ATMOSPHERES = ("air", "burnt gas", "nitrogen", "argon", "hydrogen", "vacuum")


class Furnace(Entry, words="furnace", example='furnace "Bogie furnace 1" overlap 1.5 m'):
    """The furnace, where the part goes into one."""

    name: str = value(Text(), "Which furnace")
    overlap: Quantity | None = clause(
        "overlap",
        Amount(LENGTH, usual="0.1 .. 5 m"),
        "Overlap where the part is heated in several heats",
        example="1.5 m",
    )
    uniformity: Quantity | None = clause(
        "uniformity",
        PlusMinus(DIFFERENCE, usual="3 .. 30 K"),
        "How far its working zone strays from the setpoint, by survey",
        example="+/- 10 K",
    )
    atmosphere: str | None = clause(
        "atmosphere", Choice(*ATMOSPHERES), "What surrounds the part in it"
    )
    flame_kept_off: bool = flag("flame kept off", "No flame strikes the part")
    surveyed: str | None = clause(
        "surveyed until", Day(), "Last day its survey holds", example="2027-05-01"
    )


class Heating(Entry, words="heating", example="heating by resistance { … }", block=True):
    """How the joint is heated: method, bands, zones and insulation.

    A furnace heats the whole part: bands and zones are then not needed.
    """

    def spared(self) -> tuple[str, ...]:
        bands = ("soak_band", "heated_band", "gradient_band", "zones")
        return bands if self.method == "furnace" else ()

    method: str | None = clause("by", Choice(*METHODS), "Heating method", required=True)
    accepted: str | None = clause(
        "accepted by", Text(), "Owner's acceptance of local heating", example='"Owner\'s engineer"'
    )
    technique: str | None = entry(
        "technique",
        Choice("full band", "local spot", "whole part", "in several heats"),
        "How much of the part is heated at once",
        example="technique full band",
    )
    layout: str | None = entry(
        "layout",
        Choice("alike on both sides", "wider on the thicker side", "one side only"),
        "How the heaters lie about the weld",
        example="layout alike on both sides",
    )
    soak_band: WidthValue | ByRule | None = entry(
        "soak band",
        OrRule(Width(usual="15 .. 700 mm")),
        "Width held within the hold range",
        required=True,
        example="soak band by rule",
    )
    heated_band: WidthValue | ByRule | None = entry(
        "heated band",
        OrRule(Width(usual="50 .. 3000 mm")),
        "Width covered by heaters",
        required=True,
        example="heated band by rule",
    )
    gradient_band: WidthValue | ByRule | None = entry(
        "gradient band",
        OrRule(Width(usual="80 .. 5000 mm")),
        "Insulated width",
        required=True,
        example="gradient band by rule",
    )
    narrowing: Narrowing | None = inner(Narrowing)
    band_ratio: str | None = entry(
        "band ratio",
        Number(usual="1 .. 12"),
        "Heated outside area to wall section and inside area over the soak band",
        example="band ratio 5",
    )
    zone_count: int | ByRule | None = entry(
        "zones", OrRule(Count(usual="1 .. 24")), "Number of control zones", example="zones by rule"
    )
    without: list[Reference] = entry(
        "without zone",
        To("zone"),
        "Zones of the joint this one is `like` that it does not have",
        many=True,
        example="without zone left, right",
    )
    zones: list[Zone] = inner(Zone, required=True, many=True)
    heaters: list[Heater] = inner(Heater, many=True)
    gap: Quantity | None = entry(
        "gap at most",
        Amount(LENGTH, usual="8 .. 50 mm"),
        "Widest gap between heaters",
        example="gap at most 25 mm",
    )
    gap_along: Quantity | None = entry(
        "gap along at most",
        Amount(LENGTH, usual="0 .. 60 mm"),
        "Widest gap between rows of heaters along the pipe",
        example="gap along at most 20 mm",
    )
    gap_at: ClockPosition | None = entry(
        "gap at", Clock(), "Where the gap between heaters lies", example="gap at 12:00"
    )
    overlap: Quantity | None = entry(
        "overlap at most",
        Amount(LENGTH, usual="0 .. 100 mm"),
        "Widest overlap of heaters",
        example="overlap at most 10 mm",
    )
    power_density: Quantity | None = entry(
        "power density",
        Amount(POWER_DENSITY, usual="1 .. 15 W/cm2"),
        "Power per heated surface",
        example="power density 4 W/cm2",
    )
    part_length: Quantity | None = entry(
        "part length",
        Amount(LENGTH, usual="0.3 .. 80 m"),
        "Length of the vessel or part that is heated whole",
        example="part length 12 m",
    )
    coil: Coil | None = inner(Coil)
    furnace: Furnace | None = inner(Furnace)
    insulation: Insulation | None = inner(Insulation)
    inside_insulation: InsideInsulation | None = inner(InsideInsulation)
    liner: Liner | None = inner(Liner)
    draught: Draught | None = inner(Draught)
    bore_state: str | None = entry(
        "bore state",
        Choice("lined", "packed", "closed and still", "open", "draughty"),
        "How the bore loses heat, for a prediction; else worked out from liner, ends and draught",
        example="bore state closed and still",
    )
    ends: str | None = entry(
        "ends",
        Choice("closed and vented", "closed", "open", "plugged"),
        "State of the open ends of the line",
        example="ends closed and vented",
    )
    shelter: str | None = entry(
        "shelter",
        Choice("none", "wind screen", "enclosure"),
        "Shelter from wind, rain and draught",
        example="shelter wind screen",
    )
    bore: str | None = entry(
        "bore",
        Choice("drained and dry", "filled", "purged"),
        "State of the bore",
        example="bore drained and dry",
    )
