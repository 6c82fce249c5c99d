"""Instruments and power."""

from __future__ import annotations

from hts.base.quantities import (
    CURRENT,
    DIFFERENCE,
    POWER,
    RATIO,
    SPEED,
    TEMPERATURE,
    TIME,
    VOLTAGE,
    Interval,
    Quantity,
)
from hts.language.vocabulary.declare import Entry, clause, entry, inner, value, worked_out
from hts.language.vocabulary.thermocouples import TYPES, Calibrated
from hts.language.vocabulary.types import (
    Amount,
    Choice,
    Count,
    Name,
    PlusMinus,
    Range,
    Text,
)


class Channels(Entry, words="channels", example="channels 12 type K range 0 .. 1200 degC"):
    """Inputs of an instrument."""

    count: int = value(Count(usual="1 .. 128"), "Number of channels")
    type: str | None = clause(
        "type", Choice(*TYPES), "Thermocouple type they are set to", required=True
    )
    range: Interval | None = clause(
        "range",
        Range(TEMPERATURE, usual="-270 .. 1900 degC"),
        "Range they can read",
        required=True,
        example="0 .. 1200 degC",
    )


class Instrument(Entry):
    """What a controller and a recorder have in common."""

    def spared(self) -> tuple[str, ...]:
        by_share = self.error_of_reading is not None or self.error_of_span is not None
        return ("error",) if by_share else ()

    name: str = value(Name("a name", "R1"), "Identity of the instrument")
    calibration_age: Quantity | None = worked_out(
        "calibration",
        Amount(TIME, usual="30 .. 400 d"),
        "Time from its calibration to the day of the work",
        of=("calibrated",),
        stricter="lower",
    )
    serial: str | None = entry("serial", Text(), "Serial number", example='serial "40-118"')
    channels: Channels | None = inner(Channels, required=True)
    error: Quantity | None = entry(
        "error",
        PlusMinus(DIFFERENCE, usual="0.2 .. 5 K"),
        "Limit of error, reference junction included",
        required=True,
        example="error +/- 1.5 degC",
    )
    error_of_reading: Quantity | None = entry(
        "error of reading",
        Amount(RATIO, usual="0.01 .. 2 %"),
        "Limit of error as a share of the reading in degC, on top of any other",
        stricter="lower",
        example="error of reading 0.25 %",
    )
    error_of_span: Quantity | None = entry(
        "error of span",
        Amount(RATIO, usual="0.01 .. 2 %"),
        "Limit of error as a share of the range of its channels, on top of any other",
        stricter="lower",
        example="error of span 0.1 %",
    )
    resolution: Quantity | None = entry(
        "resolution",
        Amount(DIFFERENCE, usual="0.01 .. 10 K"),
        "Smallest step shown",
        stricter="lower",
        example="resolution 1 K",
    )
    calibrated: Calibrated | None = inner(Calibrated)


class Controller(Instrument, words="controller", example="controller C1 { … }", block=True):
    """A temperature controller."""

    segments: int | None = entry(
        "segments", Count(usual="4 .. 250"), "Segments of a program", example="segments 16"
    )
    tolerance: Quantity | None = entry(
        "control tolerance",
        PlusMinus(DIFFERENCE, usual="0.5 .. 20 K"),
        "How far it lets the temperature swing",
        example="control tolerance +/- 5 K",
    )
    unit: str | None = entry(
        "unit", Choice("degC", "degF"), "Unit it is set in", example="unit degC"
    )
    time_base: str | None = entry(
        "time base",
        Choice("minutes", "hours"),
        "Time base of programs",
        example="time base minutes",
    )


class Recorder(Instrument, words="recorder", example="recorder R1 { … }", block=True):
    """A temperature recorder."""

    interval: Quantity | None = entry(
        "interval",
        Amount(TIME, usual="0.5 s .. 10 min"),
        "Time between readings",
        stricter="lower",
        required=True,
        example="interval 60 s",
    )
    chart_speed: Quantity | None = entry(
        "chart speed",
        Amount(SPEED, usual="5 .. 400 mm/h"),
        "Speed of a paper chart",
        stricter="higher",
        example="chart speed 20 mm/h",
    )
    traces: str | None = entry(
        "traces told by",
        Choice("colour", "number", "both"),
        "How traces are told apart",
        example="traces told by number",
    )
    clock: str | None = entry(
        "clock", Text(), "Time zone its clock is set to", example='clock "UTC+1"'
    )


#: The kinds of supply that feed a method of heating; the other methods need none.
FEEDS = {"resistance": ("transformer", "generator"), "induction": ("induction supply",)}


class PowerSource(Entry, words="power source", example="power source PS1 { … }", block=True):
    """A transformer set or an induction supply."""

    name: str = value(Name("a name", "PS1"), "Identity of the supply")
    serial: str | None = entry("serial", Text(), "Serial number", example='serial "PS-07"')
    kind: str | None = entry(
        "kind",
        Choice("transformer", "induction supply", "generator"),
        "Kind of supply",
        example="kind transformer",
    )
    output: Quantity | None = entry(
        "output",
        Amount(POWER, usual="5 .. 600 kW"),
        "Rated output",
        required=True,
        example="output 65 kVA",
    )
    voltage: Quantity | None = entry(
        "voltage",
        Amount(VOLTAGE, usual="20 .. 600 V"),
        "Voltage to the heaters",
        example="voltage 65 V",
    )
    current: Quantity | None = entry(
        "current", Amount(CURRENT, usual="10 .. 3000 A"), "Rated current", example="current 180 A"
    )
    circuits: int | None = entry(
        "circuits", Count(usual="1 .. 48"), "Number of circuits", example="circuits 6"
    )
    circuit_power: Quantity | None = entry(
        "circuit power",
        Amount(POWER, usual="4 .. 150 kW"),
        "Power of a circuit",
        example="circuit power 10.8 kW",
    )
    cable: Quantity | None = entry(
        "cable rating",
        Amount(CURRENT, usual="40 .. 1000 A"),
        "Rating of the heater cables",
        example="cable rating 200 A",
    )
    reserve: str | None = entry(
        "standby", Text(), "Supply that takes over", example='standby "Diesel set 2"'
    )
