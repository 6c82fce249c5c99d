"""How long the free steps of a program are likely to take, so that a shift can be planned.

An estimate and no limit: nothing is programmed by it, and nothing judged.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.checking.govern.ring import ring_of
from hts.job.compiler.assumed import AMBIENT
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.steps import COOL, HEAT, Step
from hts.job.compiler.why import Why, derived, practice
from hts.language.vocabulary.cycle import Treatment
from hts.science.heat.power import Band

#: K/h. Where nothing is known of power and blanket: the fast and the slow end of what is usual.
_USUAL = {HEAT: (300.0, 100.0), COOL: (100.0, 25.0)}
#: The estimate leaves out draught, ends and neighbours; it may be out by so much either way.
_FASTER, _SLOWER = 0.75, 1.5
#: degC. Properties of the steel beyond are those there.
_PROPERTIES_UP_TO = 700.0
#: Cooling to no stated end is told to here, degC: the insulation comes off about then.
_HANDLED = 80.0
_PARTS = 12
_ROUND = 600


class FreeTime(NamedTuple):
    """Seconds at the fastest and at the slowest; `slow` None: the power is not enough."""

    fast: Fraction
    slow: Fraction | None
    why: Why


def free_times(sheet: JointSheet, run: Run) -> dict[int, FreeTime]:
    """For each free step, by its number."""
    ring = ring_of(sheet.joint, sheet.limits)
    watts = _installed(sheet, run)
    found = {}
    for step in run.program.steps:
        if step.is_free:
            found[step.number] = _balanced(ring, watts, step, run) or _usual(step, run)
    return found


def _installed(sheet: JointSheet, run: Run) -> float | None:
    """W of all zones together, up to what the treatment lets them give."""
    powers = [zone.entry.power for zone in sheet.joint.zones]
    if not powers or any(power is None for power in powers):
        return None
    total = sum(float(power.to("kW")) * 1000 for power in powers if power is not None)
    entry = run.program.entry
    share = entry.power_limit if isinstance(entry, Treatment) else None
    return total * (float(share.value) / 100 if share is not None else 1.0)


def _ends(step: Step, run: Run) -> tuple[float, float]:
    if step.end is not None:
        return float(step.start.value), float(step.end.value)
    strip = getattr(run.program.entry, "strip_below", None)
    end = float(strip.value) if isinstance(strip, Quantity) else _HANDLED
    return float(step.start.value), max(end, float(AMBIENT.value) + 10)


def _balanced(ring: Band | None, watts: float | None, step: Step, run: Run) -> FreeTime | None:
    """By the heat stored in the ring, what it loses, and the power installed."""
    start, end = _ends(step, run)
    if ring is None or (step.action == HEAT and watts is None) or start == end:
        return None
    from hts.base.arguments import NotCovered
    from hts.science.heat.power import zone_power

    seconds = 0.0
    part = abs(end - start) / _PARTS
    for index in range(_PARTS):
        at = min(start, end) + (index + 0.5) * part
        celsius = min(max(at, ring.ambient + 1.0), _PROPERTIES_UP_TO)
        try:
            need = zone_power(ring, celsius, 1.0)
        except (NotCovered, ValueError):
            return None
        lost = need.total - need.stored
        gained = (watts or 0.0) - lost if step.action == HEAT else lost
        if gained <= 0:
            why = derived("heat balance of the heated band", "the losses take all the power")
            return FreeTime(Fraction(0), None, why)
        seconds += part * need.stored / gained * 3600
    numbers = f"{start:g} to {end:g} degC"
    if step.action == HEAT:
        numbers += f" with {(watts or 0.0) / 1000:.0f} kW"
    by = "(power - losses)" if step.action == HEAT else "losses"
    why = derived(f"heat stored in the heated band / {by}, -25 to +50 %", numbers)
    return FreeTime(_rounded(seconds * _FASTER), _rounded(seconds * _SLOWER), why)


def _usual(step: Step, run: Run) -> FreeTime:
    start, end = _ends(step, run)
    fast, slow = _USUAL[step.action]
    hours = abs(end - start)
    why = practice(f"{slow:g} to {fast:g} K/h", "assumed, as power and blanket are not all stated")
    return FreeTime(_rounded(hours / fast * 3600), _rounded(hours / slow * 3600), why)


def _rounded(seconds: float) -> Fraction:
    """To ten minutes, and never nothing."""
    return Fraction(max(1, round(seconds / _ROUND)) * _ROUND)
