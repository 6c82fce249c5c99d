"""Extension and compensating cable: which marking fits which type, and its limit of error."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any, NamedTuple

from hts.base.provenance import Origin
from hts.science.thermocouples.errors import NotDefined, OutOfRange, UnknownName
from hts.science.thermocouples.facts import facts, origin
from hts.science.thermocouples.reference import require_type, seebeck

EXTENSION_CLASSES = {
    "IEC 60584-3": ("1", "2"),
    "ASTM E230": ("standard", "special"),
}


class ExtensionTolerance(NamedTuple):
    """Limit of error of a cable, +/- `kelvin`, for a cable at `low` to `high` degC.

    IEC 60584-3 limits the emf: there `microvolts` is the limit, with an origin of its own, and
    `kelvin` is its worth with the measuring junction at `junction` degC. Elsewhere all three
    are None.
    """

    kelvin: Fraction
    low: Fraction
    high: Fraction
    origin: Origin
    microvolts: Fraction | None
    junction: Fraction | None
    microvolts_origin: Origin | None


def extension_fits(type: str, code: str) -> bool:
    """Whether cable marked `code` ("KX", "KCA", ...) may extend a couple of `type`.

    Raises UnknownName for a type or marking that is not known.
    """
    require_type(type)
    return type in _known(code)


def extension_codes(type: str) -> tuple[str, ...]:
    """Markings of the cables that may extend a couple of `type`. Raises UnknownName."""
    require_type(type)
    codes = facts("extension_codes")["codes"]
    return tuple(code for code, types in codes.items() if type in types)


def extension_types(code: str) -> tuple[str, ...]:
    """Thermocouple types that cable marked `code` may extend. Raises UnknownName."""
    return tuple(_known(code))


def extension_tolerance(
    standard: str, code: str, grade: str, cable_celsius: Fraction | int
) -> ExtensionTolerance:
    """Limit of error of cable marked `code`, class `grade`, with the cable at `cable_celsius`.

    Raises UnknownName, NotDefined where the standard gives no such class for the marking, and
    OutOfRange outside the temperature range of the cable.
    """
    if standard not in EXTENSION_CLASSES:
        raise UnknownName("extension cable standard", standard, EXTENSION_CLASSES)
    if grade not in EXTENSION_CLASSES[standard]:
        raise UnknownName(f"class of {standard}", grade, EXTENSION_CLASSES[standard])
    types = _known(code)
    found = _tolerances().get((standard, code, grade))
    if found is None:
        raise NotDefined(f"no {standard} tolerance is held for {code} class {grade}")
    value = Fraction(cable_celsius)
    if not found.low <= value <= found.high:
        subject = f"{standard} {code} cable"
        raise OutOfRange(types[0], value, found.low, found.high, "degC", subject)
    return found


def worth_in_kelvin(type: str, microvolts: Fraction | float, junction_celsius: float) -> float:
    """What an emf error is worth in K where the measuring junction stands at `junction_celsius`.

    Raises UnknownName, OutOfRange.
    """
    return abs(float(microvolts) / seebeck(type, junction_celsius))


def _known(code: str) -> list[str]:
    codes: dict[str, list[str]] = facts("extension_codes")["codes"]
    if code not in codes:
        raise UnknownName("extension cable marking", code, codes)
    return codes[code]


@cache
def _tolerances() -> dict[tuple[str, str, str], ExtensionTolerance]:
    return {
        (entry["standard"], entry["code"], entry["class"]): _tolerance(entry)
        for entry in facts("extension_tolerances")
    }


def _tolerance(entry: dict[str, Any]) -> ExtensionTolerance:
    microvolts = junction = microvolts_origin = None
    if "microvolts" in entry:
        microvolts, junction = Fraction(entry["microvolts"]), Fraction(entry["junction"])
        microvolts_origin = origin(entry)._replace(
            basis=entry["microvolts_basis"], confidence=entry["microvolts_confidence"]
        )
    return ExtensionTolerance(
        Fraction(entry["kelvin"]),
        Fraction(entry["from"]),
        Fraction(entry["to"]),
        origin(entry),
        microvolts,
        junction,
        microvolts_origin,
    )
