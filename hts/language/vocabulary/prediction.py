"""What a prediction of the temperature field is to show, asked for by a job; a procedure asks for
the outcome, as it does for every other entry.

A prediction is never evidence of what the metal reached.
"""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, LENGTH, RATIO, TEMPERATURE, TIME, Interval, Quantity
from hts.language.vocabulary.declare import Entry, clause, inner, value
from hts.language.vocabulary.types import Amount, Range


class PredictedBand(
    Entry, words="predict soak band", example="predict soak band within 740 .. 760 degC"
):
    """The soak band is predicted to be in range through the wall and all round."""

    outcome_words = ("predicted", "soak", "band")

    within: Interval | None = clause(
        "within",
        Range(TEMPERATURE, usual="150 .. 1150 degC"),
        "Range asked for; else that of the hold",
    )


class PredictedLag(Entry, words="predict lag", example="predict lag at most 30 min"):
    """How long after the control thermocouples the whole soak band is predicted to be in range."""

    outcome_words = ("predicted", "lag")

    at_most: Quantity | None = clause(
        "at most", Amount(TIME, usual="1 min .. 6 h"), "Longest time", required=True
    )


class PredictedGradient(
    Entry,
    words="predict axial gradient",
    example="predict axial gradient at most 25 K over 100 mm",
):
    """How steeply the outside is predicted to fall off along the pipe."""

    outcome_words = ("predicted", "axial", "gradient")

    at_most: Quantity | None = clause(
        "at most", Amount(DIFFERENCE, usual="5 .. 300 K"), "Greatest difference", required=True
    )
    over: Quantity | None = clause(
        "over",
        Amount(LENGTH, usual="25 mm .. 1 m"),
        "Over this length; else over 100 mm",
        example="100 mm",
    )


class Confidence(Entry, words="predict confidence", example="predict confidence 90 %"):
    """The share of what may be the case in which the demands have to hold; else 90 %."""

    share: Quantity = value(Amount(RATIO, usual="50 .. 99 %"), "Share")


class Foretold(Entry):
    """What the text wants predicted of a treatment."""

    predicted_band: PredictedBand | None = inner(PredictedBand)
    predicted_lag: PredictedLag | None = inner(PredictedLag)
    predicted_gradient: PredictedGradient | None = inner(PredictedGradient)
    confidence: Confidence | None = inner(Confidence)
