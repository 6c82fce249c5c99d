"""How hot thermocouple wire and its insulation may get, and how thick a gauge number is."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.provenance import Origin
from hts.science.thermocouples.errors import NotDefined, UnknownName
from hts.science.thermocouples.facts import facts, origin
from hts.science.thermocouples.reference import require_type


class WireLimit(NamedTuple):
    """Suggested upper temperature of a protected couple; both scales are rounded figures."""

    celsius: Fraction
    fahrenheit: Fraction
    origin: Origin


class InsulationLimit(NamedTuple):
    """Continuous limit in degC; makers' catalogues lie between `low` and `high`.

    `single_use` is True where common practice accepts one heat treatment above the limit,
    with the insulation degraded.
    """

    low: Fraction
    high: Fraction
    single_use: bool
    origin: Origin


class GoverningLimit(NamedTuple):
    """The lower of two limits: `by` is "wire" or "insulation"."""

    celsius: Fraction
    by: str
    origin: Origin


def wire_limit(type: str, awg: int) -> WireLimit:
    """Suggested upper temperature of protected wire (ASTM E230), by type and gauge number.

    Bare wire has a lower limit for the same life. Raises UnknownName for an unknown type,
    NotDefined where the table has no such type or gauge.
    """
    require_type(type)
    table = facts("wire_limits")
    rows = table["types"].get(type, ())
    for row in rows:
        if row["awg"] == awg:
            return WireLimit(Fraction(row["celsius"]), Fraction(row["fahrenheit"]), origin(table))
    sizes = ", ".join(str(row["awg"]) for row in rows) or "none"
    raise NotDefined(f"no upper temperature is held for type {type}, {awg} AWG; sizes: {sizes}")


def safe_wire_limit(type: str, awg: int) -> tuple[int, WireLimit]:
    """The limit of the wire, or that of the next thinner one that has one, and whose it is.

    Raises UnknownName for an unknown type, NotDefined where no wire as thin has a limit.
    """
    require_type(type)
    listed = sorted(row["awg"] for row in facts("wire_limits")["types"].get(type, ()))
    thinner = next((size for size in listed if size >= awg), awg)
    return thinner, wire_limit(type, thinner)


def wire_diameter(awg: int) -> float:
    """Bare diameter in mm of an American wire gauge number, 0 to 40 (ASTM B258).

    Raises NotDefined outside those sizes.
    """
    gauge = facts("wire_gauge")
    if not gauge["largest"] <= awg <= gauge["smallest"]:
        raise NotDefined(f"{awg} AWG is outside {gauge['largest']} to {gauge['smallest']} AWG")
    return float(0.127 * 92 ** ((36 - awg) / 39))


def insulations() -> tuple[str, ...]:
    """Names of the insulation materials held."""
    return tuple(facts("insulation_limits")["materials"])


def insulation_limit(material: str) -> InsulationLimit:
    """Temperature limit of wire insulation (common practice). Raises UnknownName."""
    table = facts("insulation_limits")
    row = table["materials"].get(material)
    if row is None:
        raise UnknownName("insulation", material, insulations())
    return InsulationLimit(
        Fraction(row["low"]), Fraction(row["high"]), row["single_use"], origin(table)
    )


def governing_limit(type: str, awg: int, insulation: str) -> GoverningLimit:
    """The lower of the wire's limit and the lowest figure for its insulation.

    Raises UnknownName, NotDefined.
    """
    wire, cover = wire_limit(type, awg), insulation_limit(insulation)
    if cover.low < wire.celsius:
        return GoverningLimit(cover.low, "insulation", cover.origin)
    return GoverningLimit(wire.celsius, "wire", wire.origin)
