"""What the job and the procedures it follows want predicted."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import predictions
from hts.language.model.joint import Treatment
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.demand_lines import Requires
from hts.language.vocabulary.prediction import PredictedBand, PredictedGradient, PredictedLag

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
    own = (entry.predicted_band, entry.predicted_lag, entry.predicted_gradient)
    each = (
        *(_stated(line) for line in own if line is not None),
        *(
            _required(line, authority.name)
            for authority, line in predictions(case, treatment.joint, limits)
        ),
    )
    share = entry.confidence.share if entry.confidence is not None else None
    return Demands(each, float(share.value) / 100.0 if share is not None else CONFIDENCE)


#: What each entry that can be predicted is called, and how its figures are said.
_CALLED: dict[type[Entry], str] = {
    PredictedBand: "soak band",
    PredictedLag: "lag",
    PredictedGradient: "axial gradient",
}


def _stated(line: Entry) -> Demanded:
    """What the job asks for."""
    said = {name: getattr(line, name) for name in type(line).fields}
    at = line.place("within" if said.get("within") is not None else "")
    return _demanded(_CALLED[type(line)], JOB, at, said)


def _required(line: Requires, by: str) -> Demanded:
    """What a line of a procedure asks for."""
    assert line.what is not None
    said = {
        test.field.name: test.among[0] if test.among else test.most or test.least
        for test in line.what.tests
    }
    return _demanded(_CALLED[line.what.targets[0].entry], by, line.place(), said)


def _demanded(what: str, by: str, at: Span, said: Mapping[str, Any]) -> Demanded:
    within = said.get("within")
    low, high = (within.low, within.high) if within is not None else (None, None)
    most, over = said.get("at_most"), said.get("over")
    return Demanded(
        what,
        by,
        at,
        low=float(low.value) if low is not None else None,
        high=float(high.value) if high is not None else None,
        most=float(most.value) if most is not None else 0.0,
        over=float(over.value) / 1000.0 if over is not None else OVER,
    )
