"""What is keyed into the controller: in its own unit, in steps it can take, on the safe side."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import DIFFERENCE, TEMPERATURE, Interval, Quantity
from hts.job.compiler.steps import COOL, HOLD, Step
from hts.job.compiler.units import Units
from hts.language.vocabulary.equipment import Controller

_DIFFERENCE_OF = {"degC": "K", "degF": "degF"}


class Keys(NamedTuple):
    """The `unit` temperatures are keyed in, and the smallest step of it."""

    unit: str
    step: Fraction

    def put(self, value: Quantity, toward: str = "nearest") -> Quantity:
        """The value as it can be keyed: `toward` is up, down or nearest."""
        exact = value.to(self.unit) / self.step
        whole = exact.numerator // exact.denominator
        if (toward == "up" and whole != exact) or (
            toward == "nearest" and exact - whole >= Fraction(1, 2)
        ):
            whole += 1
        return Quantity.of(whole * self.step, self.unit, TEMPERATURE)

    def inside(self, value: Quantity, window: Interval | None) -> Quantity:
        """The nearest that can be keyed and lies in the range; the value itself where none does."""
        found = self.put(value)
        if window is None or window.contains(found):
            return found
        for toward in ("down", "up"):
            if window.contains(self.put(value, toward)):
                return self.put(value, toward)
        return value


def keys(controller: Controller | None, units: Units) -> Keys:
    """Whole degrees of the unit the controller is set in, or the steps it shows where it shows
    others; without a controller, of the unit of the paper."""
    unit = (controller.unit if controller is not None else None) or units.first(TEMPERATURE)
    step = Fraction(1)
    if controller is not None and controller.resolution is not None:
        step = controller.resolution.to(_DIFFERENCE_OF[unit])
    # A display in the other unit shows steps that are no number of this one.
    decimal = (step * 10).denominator == 1 and step > 0
    return Keys(unit, step if decimal else Fraction(1))


def error_step(known: Keys) -> Quantity:
    """One step of the controller as a difference."""
    return Quantity.of(known.step, _DIFFERENCE_OF[known.unit], DIFFERENCE)


def keyed(steps: list[Step], known: Keys) -> list[Step]:
    """The steps with what is keyed for each.

    Where a limit of the rate begins or ends, the step with the slower rate is the longer one.
    """
    found: list[Step] = []
    before: Quantity | None = None
    for index, step in enumerate(steps):
        after = steps[index + 1] if index + 1 < len(steps) else None
        start = before if before is not None else known.put(step.start, "down")
        end = _end(step, after, known)
        found.append(
            step._replace(
                set_from=start,
                set_to=end,
                alarm_high=_put(known, step.alarm_high, "down"),
                alarm_low=_put(known, step.alarm_low, "up"),
            )
        )
        before = end
    return found


def _end(step: Step, after: Step | None, known: Keys) -> Quantity | None:
    if step.end is None:
        return None
    if step.action == HOLD:
        return known.inside(step.end, step.window)
    if after is not None and after.action == HOLD and after.end == step.end:
        return known.inside(step.end, after.window)
    slower_below = False
    if after is not None and after.action == step.action:
        below, above = (after, step) if step.action == COOL else (step, after)
        slower_below = below.limit is not None and (
            above.limit is None or below.limit < above.limit
        )
    return known.put(step.end, "up" if slower_below else "down")


def _put(known: Keys, value: Quantity | None, toward: str) -> Quantity | None:
    return known.put(value, toward) if value is not None else None
