"""What each zone is estimated to need, to size heaters and supplies by."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.provenance import Origin
from hts.base.quantities import POWER, Quantity
from hts.checking.govern.joint import JointLimits
from hts.checking.govern.ring import ring_of
from hts.job.compiler.job import JointSheet
from hts.job.compiler.program import Program
from hts.job.compiler.steps import HEAT
from hts.language.model.joint import Joint

#: degC. Above it the specific heat of the steel used stands for a transformation that others have
#: elsewhere: the properties are taken there.
_PROPERTIES_UP_TO = 700.0
_BEYOND = "above 700 °C the properties of carbon steel at 700 °C are used"


class ZonePower(NamedTuple):
    """Powers of one zone: stored in the metal while heating at `rate`, lost through the blanket and
    along the pipe; `heating` and `holding` are what it needs in all, `installed` what it has, None
    where the text does not say."""

    zone: str
    stored: Quantity
    blanket: Quantity
    along: Quantity
    heating: Quantity
    holding: Quantity
    installed: Quantity | None


class Estimate(NamedTuple):
    """At the setpoint of the hottest hold, while heating at the fastest programmed rate; `origin`
    is that of the properties of the steel."""

    treatment: str
    at: Quantity
    rate: Quantity
    zones: tuple[ZonePower, ...]
    assumptions: tuple[str, ...]
    origin: Origin


def estimate(sheet: JointSheet) -> Estimate | None:
    """Of the hottest run of a joint, as `estimate_of`; None where there is none."""
    run = sheet.hottest
    return estimate_of(sheet.joint, sheet.limits, run.program) if run is not None else None


def estimate_of(joint: Joint, limits: JointLimits, program: Program) -> Estimate | None:
    """None where a size of the heated ring, its zones or the program is not known, and for zones of
    one side of the weld, which share the band in a way the text does not say."""
    ring, zones = ring_of(joint, limits), joint.zones
    if program.target is None or ring is None or not zones:
        return None
    if any(zone.entry.side or zone.entry.along for zone in zones):
        return None
    rates = [step.rate for step in program.steps if step.action == HEAT and step.rate]
    if not rates:
        return None
    from hts.base.arguments import NotCovered
    from hts.science.heat.power import ASSUMPTIONS, zone_power

    rate = max(rates)
    celsius = min(float(program.target.value), _PROPERTIES_UP_TO)
    rows = []
    for zone in zones:
        arc = float(zone.arc.span) if zone.arc is not None else 360.0
        try:
            need = zone_power(ring, celsius, float(rate.value), arc_degrees=arc)
        except (NotCovered, ValueError):
            return None
        lost = need.total - need.stored
        rows.append(
            ZonePower(
                zone.name,
                _kilowatts(need.stored),
                _kilowatts(need.blanket),
                _kilowatts(need.axial),
                _kilowatts(need.total),
                _kilowatts(lost),
                zone.entry.power,
            )
        )
    said: tuple[str, ...] = ASSUMPTIONS
    if float(program.target.value) > _PROPERTIES_UP_TO:
        said = (*said, _BEYOND)
    return Estimate(program.name, program.target, rate, tuple(rows), said, ring.material.origin)


def _kilowatts(watts: float) -> Quantity:
    return Quantity.rounded(watts / 1000, 1, "kW", POWER)
