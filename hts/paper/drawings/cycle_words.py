"""The steps of a program in words, for the key of its chart."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.quantities import TEMPERATURE, Interval
from hts.job.compiler.steps import HOLD, Step
from hts.job.outputs.show import DOWN, UP, Shown, duration, sign, spoken
from hts.paper.sheet import metrics


def key_lines(steps: Sequence[Step], shown: Shown) -> list[str]:
    """One line for each step."""
    return [_step(step, shown) for step in steps]


def window_text(window: Interval, shown: Shown) -> str:
    """A hold range, rounded into itself: `740 to 760 °C (1364 to 1400 °F)`."""
    assert window.low is not None and window.high is not None
    texts = [
        f"{spoken(window.low, symbol, UP)} to {spoken(window.high, symbol, DOWN)} {sign(symbol)}"
        for symbol in shown.units.symbols(TEMPERATURE)
    ]
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"


def _step(step: Step, shown: Shown) -> str:
    if step.action == HOLD:
        return _hold(step, shown)
    end = f" to {shown.setpoint_text(step.end)}" if step.end is not None else ""
    text = f"{step.action}{end}"
    if step.limit is not None and step.rate is not None:
        limit = shown.text(step.limit, DOWN)
        text += f": set {shown.text(step.rate, DOWN)}, at most {limit}"
        if step.counts_from is not None:
            text += f" above {shown.text(step.counts_from)}"
    elif step.is_free:
        text += ": no rate limit"
    return text + (f" ({step.note})" if step.note else "")


def _hold(step: Step, shown: Shown) -> str:
    assert step.end is not None
    text = f"hold at {shown.setpoint_text(step.end, step.window)}"
    if step.window is not None:
        text += f", range {window_text(step.window, shown)}"
    if step.least is not None:
        text += f", at least {duration(step.least.value, UP)}"
    note = metrics.drawable(step.note)
    return text + (f", {note}" if note else "")
