"""Limits of rates and spreads as paper says them."""

from __future__ import annotations

from hts.job.compiler.steps import HOLD, Step
from hts.job.demands.asked import Bound
from hts.job.demands.gone_through import gone_through
from hts.job.outputs.show import DOWN, UP, Shown


def gone_through_at(shown: Shown, step: Step, following: Step | None) -> str:
    """Where a step ends for its slowest rate, as it is judged."""
    assert step.end is not None
    window = following.window if following is not None and following.action == HOLD else None
    if window is None:
        return shown.text(step.end)
    end = gone_through(step.start, step.end, window.low, window.high)
    if end == step.end:
        return shown.text(step.end)
    return f"{shown.text(end, UP if end == window.low else DOWN)}, where the hold begins"


def rate_limit(shown: Shown, step: Step) -> str:
    """The most a step may be, and from which temperature on."""
    assert step.limit is not None
    text = f"at most {shown.text(step.limit, DOWN)}"
    low = min((one for one in (step.start, step.end) if one is not None), key=lambda q: q.value)
    if step.counts_from is not None:
        low = step.counts_from
    return f"{text} above {shown.text(low, DOWN)}"


def spread_limit(shown: Shown, bound: Bound) -> str:
    """The most readings may be apart, and over which distance."""
    within = f" between any two within {shown.text(bound.within, UP)}" if bound.within else ""
    return f"at most {shown.text(bound.written, DOWN)}{within}"
