"""Where a step counts as gone through, on paper and in the record alike."""

from __future__ import annotations

from typing import Any, TypeVar

T = TypeVar("T", bound=Any)


def gone_through(start: T, end: T, low: T | None, high: T | None) -> T:
    """The end of a step, or the near edge of the range ``low`` to ``high`` of the hold that
    follows: nobody asks that each thermocouple comes to the very end of a step when any
    temperature in that range is right. All in one scale; None where there is no such range."""
    edge = low if end > start else high
    if edge is None or not min(start, end) < edge < max(start, end):
        return end
    return edge
