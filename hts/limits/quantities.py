"""The quantities a book or a procedure can limit: a closed list."""

from __future__ import annotations

from typing import Literal, NamedTuple

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    ENERGY,
    LENGTH,
    RATE,
    TEMPERATURE,
    THERMAL_RESISTANCE,
    TIME,
    Dimension,
)
from hts.syntax.formula import Text

Subject = Literal["joint", "cycle", "preheat", "bake", "zone"]
Direction = Literal["minimum", "maximum", "exactly"]


class Limited(NamedTuple):
    """One limited quantity.

    `kind` is its dimension, or Text when it is a choice, of the words it lists, the strictest
    first. `gives` names the fact that formulas of other limits read it under.
    """

    kind: Dimension | Text
    subject: Subject
    directions: tuple[Direction, ...]
    meaning: str
    gives: str | None = None


DIRECTIONS: tuple[Direction, ...] = ("minimum", "maximum", "exactly")
_MIN: tuple[Direction, ...] = ("minimum",)
_MAX: tuple[Direction, ...] = ("maximum",)
_RANGE: tuple[Direction, ...] = ("minimum", "maximum")

HEAT_TREATMENT = "post-weld heat treatment"
OPTION = "option"
PROHIBITED = "prohibited without approval"

#: Options of a book that a job can make use of.
TAKEN = ("lower-temperature hold", "thin-wall hold", "code exemption")

LIMITED: dict[str, Limited] = {
    HEAT_TREATMENT: Limited(
        Text(PROHIBITED, "required", "exempt", "none"),
        "joint",
        (),
        "whether the weld is heat treated; exempt while conditions hold, or none foreseen",
    ),
    OPTION: Limited(
        Text("forbidden", "allowed"), "joint", (), "whether a permitted alternative may be used"
    ),
    "governing thickness": Limited(
        LENGTH, "joint", ("exactly",), "thickness the hold and the rates are taken from", "t"
    ),
    "weld thickness": Limited(
        LENGTH, "joint", ("exactly",), "thickness of the weld itself", "weld_thickness"
    ),
    "soak band": Limited(
        LENGTH, "joint", _MIN, "width held in the hold range, in total", "soak_band"
    ),
    "heated band": Limited(
        LENGTH, "joint", _MIN, "width covered by heaters, in total", "heated_band"
    ),
    "gradient band": Limited(LENGTH, "joint", _MIN, "width insulated, in total"),
    "zones": Limited(COUNT, "joint", _RANGE, "control zones round the pipe", "zones"),
    "control thermocouples": Limited(COUNT, "joint", _MIN, "thermocouples that control"),
    "monitoring thermocouples": Limited(COUNT, "joint", _MIN, "thermocouples that monitor"),
    "thermocouples": Limited(COUNT, "joint", _MIN, "thermocouples that control or monitor"),
    "leg separation": Limited(
        LENGTH, "joint", _MAX, "distance between the two wires of a thermocouple on the metal"
    ),
    "attachment energy": Limited(
        ENERGY, "joint", _MAX, "stored energy that attaches a thermocouple wire"
    ),
    "spare distance": Limited(LENGTH, "joint", _MAX, "from a thermocouple to its spare"),
    "furnace overlap": Limited(
        LENGTH, "joint", _MIN, "length heated twice, of a part that goes into the furnace in turns"
    ),
    "insulation": Limited(THERMAL_RESISTANCE, "joint", _RANGE, "insulation's resistance to heat"),
    "preheat": Limited(TEMPERATURE, "preheat", _RANGE, "temperature before welding"),
    "interpass": Limited(TEMPERATURE, "preheat", _RANGE, "temperature before the next pass"),
    "weld cooling time": Limited(
        TIME, "preheat", _RANGE, "t8/5, in which a run of the weld cools from 800 to 500 degC"
    ),
    "preheat width": Limited(LENGTH, "preheat", _MIN, "width preheated, on each side"),
    "preheat distance": Limited(
        LENGTH,
        "preheat",
        ("minimum", "exactly"),
        "from the edge of the groove to where preheat is measured",
    ),
    "bake temperature": Limited(TEMPERATURE, "bake", _RANGE, "temperature of hydrogen release"),
    "bake time": Limited(TIME, "bake", _RANGE, "time of hydrogen release"),
    "bake width": Limited(LENGTH, "bake", _MIN, "width baked, in total"),
    "bake gradient band": Limited(
        LENGTH, "bake", _MIN, "width insulated for preheat or bake, in total"
    ),
    "cycles": Limited(
        COUNT, "joint", _RANGE, "heat treatments of this document on the joint, one after the other"
    ),
    "charge temperature": Limited(TEMPERATURE, "cycle", _MAX, "furnace when the part goes in"),
    "unload temperature": Limited(TEMPERATURE, "cycle", _MAX, "furnace when the part comes out"),
    "hold temperature": Limited(TEMPERATURE, "cycle", _RANGE, "temperature of the hold"),
    "hold time": Limited(TIME, "cycle", _RANGE, "time in the hold range"),
    "total hold": Limited(TIME, "cycle", _MAX, "time at temperature, all treatments added"),
    "tempering parameter": Limited(
        COUNT,
        "cycle",
        _MAX,
        "Hollomon-Jaffe parameter of all treatments, T (20 + lg t) / 1000 with T in K and t in h",
    ),
    "heating rate": Limited(RATE, "cycle", _RANGE, "rate of heating"),
    "cooling rate": Limited(RATE, "cycle", _RANGE, "rate of cooling"),
    "heating spread": Limited(DIFFERENCE, "cycle", _MAX, "spread while heating or cooling"),
    "holding spread": Limited(DIFFERENCE, "cycle", _MAX, "spread while holding"),
    "start of control": Limited(
        TEMPERATURE, "cycle", _MAX, "highest temperature at which control of heating begins"
    ),
    "end of control": Limited(
        TEMPERATURE, "cycle", _MAX, "highest temperature at which control of cooling ends"
    ),
    "excursion": Limited(TIME, "cycle", _MAX, "time outside the hold range, in total"),
    "rate excursion": Limited(TIME, "cycle", _MAX, "time a rate is over its limit, each time"),
    "delay before heat treatment": Limited(TIME, "cycle", _MAX, "time from weld to treatment"),
    "temperature before heat treatment": Limited(
        TEMPERATURE, "cycle", _MAX, "what the weld has cooled to before, so that it has transformed"
    ),
    "margin below lower critical": Limited(
        DIFFERENCE, "cycle", _MIN, "top of the hold range to the lower critical temperature"
    ),
    "margin below tempering": Limited(
        DIFFERENCE, "cycle", _MIN, "top of the hold range to the tempering temperature"
    ),
}

GIVES: dict[str, str] = {
    limited.gives: name for name, limited in LIMITED.items() if limited.gives is not None
}
"""Fact -> the quantity that gives it."""
