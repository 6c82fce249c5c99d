"""Limit of error of a joint's thermocouple wire at a temperature."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import DIFFERENCE, Quantity
from hts.job.compiler.why import Why, stated, tabled
from hts.language.model.joint import Joint
from hts.science.thermocouples.errors import ThermocoupleError
from hts.science.thermocouples.tolerance import CLASSES, limit_of_error


class WireError(NamedTuple):
    """A limit of error and where it comes from."""

    error: Quantity
    why: Why


def wire_error(joint: Joint, at: Quantity) -> WireError | None:
    """By the certificate of the wire lot where the text gives it, else by class.

    None where neither is known, or the class does not reach to that temperature.
    """
    block = joint.entry.thermocouples
    if block is None:
        return None
    if block.error is not None:
        return WireError(block.error, stated(block, "error", f"wire lot +/- {block.error}"))
    if block.type is None or block.grade is None:
        return None
    standard = next((name for name, grades in CLASSES.items() if block.grade in grades), "")
    try:
        found = limit_of_error(standard, block.type, block.grade, at.value)
    except ThermocoupleError:
        return None
    error = Quantity.of(found.kelvin, "K", DIFFERENCE)
    return WireError(
        error,
        tabled(
            found.origin,
            "limit of error by class",
            f"type {block.type} class {block.grade} at {at}",
        ),
    )
