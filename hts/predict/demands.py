"""What the job and the procedures it follows want predicted."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked
from hts.language.model.joint import Treatment

#: Share of what may be the case that a demand has to hold in, unless the text says another.
CONFIDENCE = 0.90
#: Who asks, where no procedure does.
JOB = "the job"
#: m. Length an axial gradient is told over, unless the text says another.
OVER = 0.1


class Demanded(NamedTuple):
    """One thing asked for: `what` is "soak band", "lag" or "axial gradient", by whom and where.

    `low`, `high` degC of a range (None: that of the hold); `most` s or K, over `over` m.
    """

    what: str
    by: str
    at: Span
    low: float | None = None
    high: float | None = None
    most: float = 0.0
    over: float = OVER


class Demands(NamedTuple):
    """All that is asked for, and the share of cases it has to hold in."""

    each: tuple[Demanded, ...]
    confidence: float = CONFIDENCE

    def of(self, what: str) -> tuple[Demanded, ...]:
        return tuple(one for one in self.each if one.what == what)


def demands_of(case: Case, treatment: Treatment) -> Demands:
    """What is asked of the prediction of one treatment; nothing where nobody says `predict`."""
    entry = treatment.entry
    limits = case.limits(treatment.joint, treatment)
    lines = [
        (entry.predicted_band, JOB),
        (entry.predicted_lag, JOB),
        (entry.predicted_gradient, JOB),
        *(
            (line, authority.name)
            for field in ("predicted_bands", "predicted_lags", "predicted_gradients")
            for authority, line in asked(case, limits, field)
        ),
    ]
    each = tuple(_demanded(line, by) for line, by in lines if line is not None)
    share = entry.confidence.share if entry.confidence is not None else None
    return Demands(each, float(share.value) / 100.0 if share is not None else CONFIDENCE)


def _demanded(line: object, by: str) -> Demanded:
    from hts.language.vocabulary.prediction import PredictedBand, PredictedLag

    at: Span = line.place("within" if getattr(line, "within", None) else "")  # type: ignore[attr-defined]
    if isinstance(line, PredictedBand):
        within = line.within
        low = within.low if within is not None else None
        high = within.high if within is not None else None
        return Demanded(
            "soak band", by, at,
            float(low.value) if low is not None else None,
            float(high.value) if high is not None else None,
        )  # fmt: skip
    most = line.at_most  # type: ignore[attr-defined]
    if isinstance(line, PredictedLag):
        return Demanded("lag", by, at, most=float(most.value) if most is not None else 0.0)
    over = line.over  # type: ignore[attr-defined]
    length = float(over.value) / 1000.0 if over is not None else OVER
    return Demanded(
        "axial gradient", by, at, most=float(most.value) if most is not None else 0.0, over=length
    )
