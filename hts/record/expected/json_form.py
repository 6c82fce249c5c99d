"""A comparison as a part of the JSON of a judged record."""

from __future__ import annotations

from typing import Any

import numpy as np

from hts.predict.told import NOT_FOR, PREDICTION
from hts.record.expected.comparison import BoreEstimate, Comparison, Trace
from hts.record.record import Floats

Json = dict[str, Any]
#: Decimals of a temperature, K, and of convection, W/m2K: no more is predicted.
_PLACES = 1


def predicted(comparison: Comparison | str) -> Json:
    """Temperatures in degC, differences in K, recorded less predicted; without figures the reason
    why there are none. It says itself that it is never evidence."""
    told: Json = {"evidence": False, "notice": PREDICTION, "not_for": list(NOT_FOR)}
    if isinstance(comparison, str):
        return {**told, "none_because": comparison}
    return {
        **told,
        "seconds": [round(at, _PLACES) for at in comparison.seconds.tolist()],
        "thermocouples": [_trace(trace) for trace in comparison.traces],
        "bore": _bore(comparison.bore),
        "notes": list(comparison.notes),
    }


def _trace(trace: Trace) -> Json:
    return {
        "tag": trace.tag,
        "drives_the_model": trace.controls,
        "recorded": _all(trace.recorded),
        "predicted": _all(trace.predicted),
        "mean": None if trace.controls else _one(trace.mean),
        "in_hold": None if trace.controls else _one(trace.in_hold),
        "greatest": None if trace.controls else _one(trace.worst),
    }


def _bore(bore: BoreEstimate | None) -> Json | None:
    """None, too, where the record tells nothing of it."""
    if bore is None or not bore.told:
        return None
    return {
        "stated": _one(bore.stated),
        "best": _one(bore.best),
        "low": _one(bore.low),
        "high": _one(bore.high),
    }


def _all(values: Floats) -> list[float | None]:
    return [_one(value) for value in values.tolist()]


def _one(value: float | None) -> float | None:
    return None if value is None or not np.isfinite(value) else round(value, _PLACES)
