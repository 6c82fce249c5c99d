"""Hydrogen release and post-weld heat treatment."""

from __future__ import annotations

from hts.base.quantities import (
    DIFFERENCE,
    RATIO,
    TEMPERATURE,
    TIME,
    Quantity,
)
from hts.language.vocabulary.allowances import (
    Excursion,
    GuardBand,
    HeatingSpread,
    HoldingSpread,
    MeanOfHold,
    RateExcursion,
    Share,
)
from hts.language.vocabulary.declare import Entry, clause, entry, family, flag, inner, value
from hts.language.vocabulary.interruptions import (
    CoolingFault,
    HeaterLoss,
    OverRate,
    PowerLoss,
    ThermocoupleLoss,
)
from hts.language.vocabulary.prediction import Foretold
from hts.language.vocabulary.segments import Cool, Heat, Hold, Segment
from hts.language.vocabulary.types import (
    Amount,
    BookEdition,
    Choice,
    Edition,
    Joints,
    Name,
    Reference,
    Text,
    To,
    Width,
    WidthValue,
)

PURPOSES = (
    "stress relief",
    "intermediate stress relief",
    "repeated stress relief",
    "tempering",
    "normalizing",
    "normalize and temper",
    "solution treatment",
    "other",
)


class NotRequired(
    Entry,
    words="not required",
    example='not required under asme-b31.3 edition 2018 "P-1, 95 degC preheat"',
):
    """A claim that the code requires no heat treatment here."""

    under: Edition | None = clause(
        "under", BookEdition(), "Book whose exemption is claimed", required=True
    )
    reason: str = value(Text(), "The conditions the exemption rests on")


class AgreedOption(Entry):
    """An option of a code that the job makes use of."""

    agreed: str | None = clause(
        "agreed",
        Text(),
        "Who agreed to it, and when",
        required=True,
        example='"Design engineer, 2026-10-28"',
    )


class LowerTemperature(
    AgreedOption,
    words="lower-temperature hold",
    example='lower-temperature hold agreed "Design engineer, 2026-10-28"',
):
    """The longer hold at a lower temperature that a code may allow."""


class ThinWall(
    AgreedOption,
    words="thin-wall hold",
    example='thin-wall hold agreed "Design engineer, 2026-10-28"',
):
    """The wider range of temperature that a code may allow for thin walls."""


class ProhibitedTreatment(
    AgreedOption,
    words="prohibited treatment",
    example='prohibited treatment agreed "Owner\'s metallurgist, 2026-10-28"',
):
    """A heat treatment that a procedure or book prohibits without approval, and who approved it."""


#: What a weld comes from without cooling in between.
KEPT_HOT = ("from preheat", "from bake")


class Treatment(Foretold):
    """What a bake-out and a post-weld cycle have in common."""

    recorded_by: Reference | None = entry(
        "recorded by", To("recorder"), "Recorder", example="recorded by R1"
    )
    controlled_by: Reference | None = entry(
        "controlled by", To("controller"), "Controller", example="controlled by C1"
    )
    powered_by: Reference | None = entry(
        "powered by", To("power source"), "Power source", example="powered by PS1"
    )
    start_control: Quantity | None = entry(
        "start of control",
        Amount(TEMPERATURE, usual="20 .. 450 degC"),
        "Temperature at which control and record begin",
        example="start of control 150 degC",
    )
    end_control: Quantity | None = entry(
        "end of control",
        Amount(TEMPERATURE, usual="20 .. 450 degC"),
        "Temperature at which control and record end",
        example="end of control 150 degC",
    )
    segments: list[Segment] = family(Heat, Hold, Cool, doc="The steps, in the order they are run")
    rate_margin: Quantity | None = entry(
        "rate margin",
        Amount(RATIO, usual="0, 2 .. 40 %"),
        "Part of the rate limit the program stays below it",
        example="rate margin 10 %",
    )
    heating_spread: list[HeatingSpread] = inner(HeatingSpread, many=True)
    holding_spread: list[HoldingSpread] = inner(HoldingSpread, many=True)
    shares: list[Share] = inner(Share, many=True)
    means: list[MeanOfHold] = inner(MeanOfHold, many=True)
    excursion: list[Excursion] = inner(Excursion, many=True)
    rate_excursion: list[RateExcursion] = inner(RateExcursion, many=True)
    hold_back: Quantity | None = entry(
        "wait for slowest within",
        Amount(DIFFERENCE, usual="8 .. 60 K"),
        "The program waits when a zone lags by more",
        stricter="lower",
        example="wait for slowest within 15 K",
    )
    hold_count: str | None = entry(
        "hold counts",
        Choice("while all in range", "while controlling in range"),
        "When the hold time counts",
        example="hold counts while all in range",
    )
    interrupted_hold: str | None = entry(
        "interrupted hold",
        Choice("adds up", "starts again"),
        "How an interrupted hold counts; it starts again unless it is said to add up",
        example="interrupted hold adds up",
    )
    alarm_high: Quantity | None = entry(
        "alarm above",
        Amount(TEMPERATURE, usual="150 .. 1150 degC"),
        "Zone alarm, high",
        example="alarm above 725 degC",
    )
    alarm_low: Quantity | None = entry(
        "alarm below",
        Amount(TEMPERATURE, usual="150 .. 1150 degC"),
        "Zone alarm during the hold, low",
        example="alarm below 685 degC",
    )
    deviation: Quantity | None = entry(
        "deviation alarm",
        Amount(DIFFERENCE, usual="4 .. 60 K"),
        "Distance from the setpoint that gives an alarm",
        stricter="lower",
        example="deviation alarm 20 K",
    )
    sensor_break: str | None = entry(
        "sensor break",
        Choice("upscale", "downscale"),
        "Where a broken thermocouple drives the reading",
        example="sensor break upscale",
    )
    power_limit: Quantity | None = entry(
        "power at most",
        Amount(RATIO, usual="20 .. 100 %"),
        "Greatest output",
        example="power at most 80 %",
    )
    finally_: str | None = entry(
        "finally",
        Choice("power off", "hold", "ramp down"),
        "What the controller does at the end",
        example="finally power off",
    )
    strip_below: Quantity | None = entry(
        "remove insulation below",
        Amount(TEMPERATURE, usual="35 .. 300 degC"),
        "Insulation stays on until then",
        stricter="lower",
        example="remove insulation below 90 degC",
    )
    program: str | None = entry("program", Text(), "Controller program", example='program "P12"')
    program_revision: str | None = entry(
        "program revision",
        Name("a revision", "B"),
        "Revision of the controller program",
        example="program revision B",
    )
    window: Quantity | None = entry(
        "rate over",
        Amount(TIME, usual="3 .. 60 min"),
        "Window a rate is judged over",
        example="rate over 15 min",
    )
    power_loss: PowerLoss | None = inner(PowerLoss)
    thermocouple_loss: ThermocoupleLoss | None = inner(ThermocoupleLoss)
    heater_loss: HeaterLoss | None = inner(HeaterLoss)
    over_rate: OverRate | None = inner(OverRate)
    cooling_fault: CoolingFault | None = inner(CoolingFault)
    guard_band: GuardBand | None = inner(GuardBand)


class Bake(
    Treatment, words="bake", block=True, example="bake W12 { hold 300 .. 350 degC for 2 h }"
):
    """Hydrogen release before the joint cools down."""

    joints: list[Reference] = value(Joints(), "Joints it is for", many=True)
    width: WidthValue | None = entry(
        "width", Width(usual="60 .. 2000 mm"), "Width heated", example="width 75 mm each side"
    )
    begins: str | None = entry(
        "begins",
        Choice("from preheat", "before excavation", "after excavation", "after cooling"),
        "When it begins",
        example="begins from preheat",
    )
    lining: str | None = entry(
        "lining", Choice("removed", "left", "none"), "Lining or cladding", example="lining none"
    )
    lining_width: WidthValue | None = entry(
        "lining removed over",
        Width(usual="20 .. 1000 mm"),
        "Width over which lining or cladding is taken off",
        example="lining removed over 50 mm each side",
    )
    hydrogen_left: Quantity | None = entry(
        "hydrogen left at most",
        Amount(RATIO, usual="1 .. 90 %"),
        "Greatest share of the hydrogen that may be left in the wall, by estimate",
        example="hydrogen left at most 30 %",
    )
    test_delay: Quantity | None = entry(
        "test after",
        Amount(TIME, usual="12 .. 168 h"),
        "Shortest delay before non-destructive testing",
        stricter="higher",
        example="test after 48 h",
    )


class Cycle(
    Treatment,
    words="cycle",
    block=True,
    example="cycle stress-relief for W12 { hold 690 .. 720 degC for 2 h }",
):
    """A post-weld heat treatment."""

    name: str = value(Name("a name", "stress-relief"), "What the cycle is called")
    joints: list[Reference] = clause("for", Joints(), "Joints it is for", required=True, many=True)
    together: bool = flag("together", "The joints are heated at the same time")
    purpose: str | None = entry(
        "purpose",
        Choice(*PURPOSES),
        "What the treatment is for",
        example="purpose stress relief",
    )
    not_required: NotRequired | None = inner(NotRequired)
    lower_temperature: LowerTemperature | None = inner(LowerTemperature)
    thin_wall: ThinWall | None = inner(ThinWall)
    approved: ProhibitedTreatment | None = inner(ProhibitedTreatment)
    begins: str | None = entry(
        "begins",
        Choice("from preheat", "from bake", "after cooling"),
        "From what the weld comes: one record holds what goes before without cooling",
        example="begins from preheat",
    )
    cooled_below: Quantity | None = entry(
        "first cool below",
        Amount(TEMPERATURE, usual="20 .. 250 degC"),
        "Temperature the weld must have cooled below before, so that it has transformed",
        stricter="lower",
        example="first cool below 93 degC",
    )
    delay: Quantity | None = entry(
        "begin within",
        Amount(TIME, usual="30 min .. 30 d"),
        "Longest time between end of welding and this treatment",
        stricter="lower",
        example="begin within 24 h",
    )
    furnace_at: Quantity | None = entry(
        "charge at most",
        Amount(TEMPERATURE, usual="20 .. 450 degC"),
        "Furnace temperature at charging",
        example="charge at most 300 degC",
    )
    unload_at: Quantity | None = entry(
        "unload at most",
        Amount(TEMPERATURE, usual="20 .. 450 degC"),
        "Furnace temperature at unloading",
        example="unload at most 300 degC",
    )
    margin_critical: Quantity | None = entry(
        "margin below lower critical",
        Amount(DIFFERENCE, usual="0, 3 .. 50 K"),
        "Distance kept from the lower critical temperature",
        stricter="higher",
        example="margin below lower critical 20 K",
    )
    margin_tempering: Quantity | None = entry(
        "margin below tempering",
        Amount(DIFFERENCE, usual="0, 3 .. 50 K"),
        "Distance kept from the tempering temperature",
        stricter="higher",
        example="margin below tempering 20 K",
    )
