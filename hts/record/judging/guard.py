"""Verdicts with the guard band a specification asks for."""

from __future__ import annotations

from hts.job.demands.guard import Guard, guard
from hts.record.judging.verdict import CONDITIONAL, MET, NOT_SHOWN, Outcome

__all__ = ["Guard", "guard", "guarded"]


def guarded(guard: Guard, plain: Outcome, met_drawn_in: bool) -> Outcome | None:
    """The verdict with the guard band: conditional where only the limit itself is met."""
    if guard.rule is None:
        return None
    if plain != MET or (met_drawn_in and not guard.lacks):
        return plain
    return NOT_SHOWN if guard.lacks else CONDITIONAL
