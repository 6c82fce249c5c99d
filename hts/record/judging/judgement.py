"""A whole record judged."""

from __future__ import annotations

from typing import NamedTuple

from hts.record.faults import Fault
from hts.record.judging.evidence import Evidence
from hts.record.judging.figures_without_limit import noted
from hts.record.judging.verdict import (
    CONDITIONAL,
    MET,
    NOT_MET,
    NOT_SHOWN,
    HoldClock,
    Noted,
    Outcome,
    Segment,
    Verdict,
)
from hts.record.plan import Plan
from hts.record.record import Record


class Judgement(NamedTuple):
    """A record judged. `holds` has a clock for each hold of the program, in its order."""

    record: Record
    plan: Plan
    faults: tuple[Fault, ...]
    verdicts: tuple[Verdict, ...]
    holds: tuple[HoldClock, ...]
    segments: tuple[Segment, ...]
    assumed: tuple[str, ...]
    evidence: Evidence

    @property
    def noted(self) -> tuple[Noted, ...]:
        """Figures that no requirement limits, worked out when asked for."""
        return noted(self.evidence, self.holds)

    @property
    def hold(self) -> HoldClock | None:
        """The clock of the hottest hold."""
        return max(self.holds, key=lambda clock: clock.high, default=None)

    @property
    def overall(self) -> Outcome:
        """The worst verdict, with the guard band where the job asks for one."""
        found = {
            verdict.guarded or verdict.verdict for verdict in self.verdicts if not verdict.elsewhere
        }
        return next((one for one in (NOT_MET, NOT_SHOWN, CONDITIONAL) if one in found), MET)
