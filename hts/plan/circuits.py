"""The circuits of a supply that joints hang on, and whether it can drive them at all."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor

from hts.language.model.joint import Joint, Zone
from hts.language.vocabulary.equipment import FEEDS, PowerSource


def circuits(joints: Iterable[Joint], supply: PowerSource | None) -> int:
    """Circuits by name, those of joints apart: on site each joint has its own. Rows of heaters that
    all name theirs are the whole list; a zone may have several, and one that names none has as many
    as carry its power."""
    most = _carries(supply)
    count = 0
    for joint in joints:
        rows = joint.entry.heating.heaters if joint.entry.heating is not None else []
        named = {row.circuit for row in rows} if all(row.circuit for row in rows) else set()
        if named:
            count += len(named)
            continue
        count += len({zone.entry.circuit for zone in joint.zones if zone.entry.circuit})
        count += sum(_needs(zone, most) for zone in joint.zones if not zone.entry.circuit)
    return count


def unfit(joints: Iterable[Joint], supply: PowerSource | None) -> str:
    """Why a supply can never drive joints: it is of a kind for another method, or one of its
    circuits cannot carry what hangs on it. "" where it can, and where the text does not tell."""
    if supply is None:
        return ""
    most = _carries(supply)
    joints = list(joints)
    for joint in joints:
        who = f"{joint.name} " if len(joints) > 1 else ""
        method = joint.entry.heating.method if joint.entry.heating is not None else None
        kinds = FEEDS.get(method or "")
        if kinds is not None and supply.kind is not None and supply.kind not in kinds:
            return (
                f"{who}is heated by {method}, which takes {_a(' or '.join(kinds))}, and "
                f"{supply.name} is {_a(supply.kind)}"
            )
        for circuit, watts in _loads(joint).items():
            if most is not None and watts > most:
                # Rounded apart: a figure beyond the limit never reads as the limit.
                needs, carries = ceil(watts / 100) / 10, floor(most / 100) / 10
                return (
                    f"{who}needs {needs:.1f} kW of circuit {circuit}, and a circuit of "
                    f"{supply.name} carries {carries:.1f} kW"
                )
    return ""


def _needs(zone: Zone, most: Fraction | None) -> int:
    power = zone.entry.power
    return max(1, ceil(power.value / most)) if most and power is not None else 1


def _carries(supply: PowerSource | None) -> Fraction | None:
    """Watts that a circuit carries: its own rating, or what the cables carry at the voltage."""
    if supply is None:
        return None
    known: list[Fraction] = []
    if supply.circuit_power is not None:
        known.append(supply.circuit_power.value)
    if supply.voltage is not None and supply.cable is not None:
        known.append(supply.voltage.value * supply.cable.value)
    return min(known, default=None)


def _loads(joint: Joint) -> dict[str, Fraction]:
    """Watts by circuit: of the rows of heaters that name one, else of the zones that do."""
    found: dict[str, Fraction] = {}
    rows = joint.entry.heating.heaters if joint.entry.heating is not None else []
    told = {row.zone.name for row in rows if row.zone is not None and row.circuit}
    for row in rows:
        if row.circuit and row.power is not None:
            watts = row.power.value * (row.count or 1)
            found[row.circuit] = found.get(row.circuit, Fraction(0)) + watts
    for zone in joint.zones:
        circuit, power = zone.entry.circuit, zone.entry.power
        if circuit and power is not None and zone.name not in told:
            found[circuit] = found.get(circuit, Fraction(0)) + power.value
    return found


def _a(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"
