"""What a reading can be off by."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from hts.base.quantities import DIFFERENCE, Quantity
from hts.language.model.instrument import error_at
from hts.language.model.joint import Joint, Treatment


class ErrorSize(NamedTuple):
    """A limit of error, a temperature difference, and where it comes from."""

    size: Quantity
    source: str


class ReadingError(NamedTuple):
    """Limits of error that add up, each a temperature difference with where it comes from."""

    parts: tuple[ErrorSize, ...]

    @property
    def kelvin(self) -> Fraction:
        return sum((part.size.value for part in self.parts), Fraction(0))

    def __str__(self) -> str:
        return ", ".join(f"{part.source} {part.size.both('up')}" for part in self.parts)


def wire_error(joint: Joint, at: Quantity) -> ErrorSize | None:
    """Error of the thermocouple wire at a temperature: by its calibration, else by its class.

    None where the class does not reach to that temperature, or nothing is known of the wire.
    """
    block = joint.entry.thermocouples
    if block is None or block.type is None or block.grade is None:
        return None
    if block.error is not None:
        return ErrorSize(block.error, "calibration of the wire lot")
    return _by_class(block.type, block.grade, at)


@lru_cache(maxsize=256)
def _by_class(type: str, grade: str, at: Quantity) -> ErrorSize | None:
    from hts.science.thermocouples.errors import ThermocoupleError
    from hts.science.thermocouples.tolerance import limit_of_error

    standard = standard_of(grade)
    try:
        tolerance = limit_of_error(standard, type, grade, at.to("degC"))
    except ThermocoupleError:
        return None
    return ErrorSize(
        Quantity.of(tolerance.kelvin, "K", DIFFERENCE), f"type {type} {standard} class {grade}"
    )


def standard_of(grade: str) -> str:
    """The standard whose class or limits of error this is."""
    return "IEC 60584-1" if grade in ("1", "2", "3") else "ASTM E230"


def reading_error(treatment: Treatment, at: Quantity) -> ReadingError:
    """How far above the top of a range the metal can be while the readings are in it: the control
    tolerance, the error of the wire and the greater error of the two instruments, added up."""
    parts = []
    controller = treatment.controller
    if controller is not None and controller.tolerance is not None:
        parts.append(ErrorSize(controller.tolerance, "control tolerance"))
    wire = wire_error(treatment.joint, at)
    if wire is not None:
        parts.append(ErrorSize(wire.size, f"error of the wire ({wire.source})"))
    instruments = [
        (error, one.name)
        for one in (controller, treatment.recorder)
        if one is not None and (error := error_at(one, at)) is not None
    ]
    if instruments:
        error, name = max(instruments, key=lambda found: found[0].value)
        parts.append(ErrorSize(error, f"error of {name}"))
    return ReadingError(tuple(parts))
