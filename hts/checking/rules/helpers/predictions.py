"""Predictions as the rules on them need them: made where somebody asks, and only then."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Foreseen, Unforeseen
from hts.checking.rules.helpers.asked import predictions
from hts.checking.rules.helpers.steps import heats
from hts.language.model.joint import Treatment

#: Stands with every finding that rests on a prediction.
NOTE = (
    "a prediction, not a measurement: it is never evidence, and never argues for narrower bands, "
    "fewer thermocouples or a shorter hold"
)


def is_asked(case: Case, treatment: Treatment) -> bool:
    """Whether the text or a procedure it follows wants a prediction of the treatment."""
    entry = treatment.entry
    own = (entry.predicted_band, entry.predicted_lag, entry.predicted_gradient, entry.confidence)
    if any(said is not None for said in own):
        return True
    limits = case.limits(treatment.joint, treatment)
    return bool(predictions(case, treatment.joint, limits))


def predicted(case: Case, treatment: Treatment) -> Foreseen | None:
    """The prediction of a treatment; None where nobody asks for one, or it cannot be made."""
    found = wanted(case, treatment)
    return found if isinstance(found, Foreseen) else None


def wanted(case: Case, treatment: Treatment) -> Foreseen | Unforeseen | None:
    """The same with the reason where it cannot be made; None where none is to be made at all."""
    if not heats(treatment) or not treatment.entry.segments:
        return None
    if not case.predicts and not is_asked(case, treatment):
        return None
    if case.never_predicts:
        case.unpredicted[treatment.address] = None
        return None
    return case.foreseen(treatment)


def judges_band(case: Case, found: Foreseen) -> bool:
    """Whether the soak band is to be judged: asked for, or all is."""
    return case.predicts or any(answer.what == "soak band" for answer in found.answers)


def is_cold(found: Foreseen) -> bool:
    """Whether it is the cold end that leaves the range."""
    return not found.in_range and found.lowest[1] < found.window[0]


def place(treatment: Treatment, found: Foreseen, what: str) -> Span:
    """Where the job demands it, or the treatment where only a procedure or nobody does."""
    own = (answer.at for answer in found.answers if answer.what == what and answer.own)
    return next(own, treatment.place("name" if not treatment.is_bake else "joints"))


def others(found: Foreseen, what: str) -> list[Label]:
    """The lines of procedures that demand it."""
    return [
        Label(answer.at, "asked for here")
        for answer in found.answers
        if answer.what == what and not answer.own
    ]


def spread(figures: tuple[float, float, float]) -> str:
    """`701 degC (693 to 709)`."""
    return f"{figures[0]:.0f} degC ({figures[1]:.0f} to {figures[2]:.0f})"
