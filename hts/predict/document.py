"""An outlook as data for JSON."""

from __future__ import annotations

from typing import Any

from hts.predict.inputs import inputs_of
from hts.predict.outlook import Instant, Outlook, Range
from hts.predict.powers import difference, powers_of
from hts.predict.report import DEPTH_WORDS, clock_words
from hts.predict.scatter import SAMPLES, SEED
from hts.predict.told import LIMITS, MODEL, NOT_FOR, PREDICTION
from hts.science.field.state import Extreme

#: Grows when a field changes its meaning or goes away.
FORMAT = 1


def document(outlooks: list[Outlook | tuple[str, str]], version: str, spec: dict[str, Any]) -> Any:
    """All predictions of a specification; where there is none, address and reason instead."""
    return {
        "format": FORMAT,
        "what": PREDICTION,
        "not for": list(NOT_FOR),
        "limits of the model": list(LIMITS),
        "version": version,
        "model": MODEL,
        "samples": SAMPLES,
        "seed": SEED,
        "specification": spec,
        "predictions": [_outlook(one) for one in outlooks if isinstance(one, Outlook)],
        "not predicted": [
            {"address": one[0], "reason": one[1]}
            for one in outlooks
            if not isinstance(one, Outlook)
        ],
    }


def _outlook(outlook: Outlook) -> dict[str, Any]:
    setting, course = outlook.setting, outlook.course
    return {
        "address": f"{setting.joint}/{setting.treatment}",
        "range_degC": [_number(v) for v in outlook.window],
        "setpoint_degC": _number(setting.target),
        "lower_critical_degC": _number(setting.critical),
        "inputs": [one._asdict() for one in inputs_of(setting)],
        "assumed": list(setting.assumed),
        "bore_known": setting.bore_known,
        "instants": [_instant(one) for one in (outlook.ramp_end, outlook.hold_end)],
        "share_of_cases_in_range": round(outlook.share, 3),
        "lag_min": None if outlook.lag is None else _number(outlook.lag / 60),
        "in_range_min": _number(outlook.held / 60),
        "hold_min": _number(outlook.hold / 60),
        "asked": [
            {
                "asked": one.asked,
                "by": one.demanded.by,
                "predicted": one.predicted,
                "share": round(one.share, 3),
                "verdict": one.verdict,
            }
            for one in outlook.answers
        ],
        "margin_below_lower_critical_K": None if outlook.margin is None else _range(outlook.margin),
        "steepest": {
            "K": _number(outlook.slope.kelvin),
            "over_mm": _number(1000 * outlook.slope.over),
            "from_weld_mm": _number(1000 * outlook.slope.z),
        },
        "share_left_beyond_band": round(outlook.edge, 3),
        "dip_beside_gap_K": _number(outlook.dip),
        "zones": [
            {
                "zone": zone.zone,
                "most_kW": _number(zone.most),
                "holding_kW": _number(zone.holding),
                "estimate_heating_kW": _number(zone.sized_heating),
                "estimate_holding_kW": _number(zone.sized_holding),
                "installed_kW": _number(zone.installed),
                "short_min": _number(zone.short),
            }
            for zone in powers_of(outlook)
        ],
        "predicted_and_estimate": difference(setting),
        "settle_first": [
            {"input": s.what, "at_5_K": _number(s.low), "at_95_K": _number(s.high)}
            for s in outlook.scatter.shifts
        ],
        "narrowest_bands": {
            "spread_K": _number(outlook.allowed),
            "bands": [
                {
                    "bore": width.state,
                    "mm": None if width.band is None else round(1000 * width.band),
                    "left_K": _number(width.left),
                }
                for width in outlook.widths
            ],
        },
        "traces": {
            "seconds": [round(s) for s in course.seconds],
            "setpoint": _column(course.setpoint),
            "lowest": _column(course.coldest),
            "highest": _column(course.hottest),
            "thermocouples": {
                couple.tag: _column(course.couples[:, k])
                for k, couple in enumerate(setting.couples)
            },
            "kW": {
                zone.name: _column(course.power[:, k] / 1000)
                for k, zone in enumerate(setting.zones)
            },
        },
    }


def _instant(instant: Instant) -> dict[str, Any]:
    return {
        "name": instant.name,
        "seconds": round(instant.seconds),
        "lowest_degC": {**_range(instant.lowest), **_place(instant.coldest)},
        "highest_degC": {**_range(instant.highest), **_place(instant.hottest)},
        "rows": [
            {
                "depth": DEPTH_WORDS[row.depth],
                "clock": clock_words(row.clock),
                "lowest_degC": _range(row.lowest),
                "highest_degC": _range(row.highest),
            }
            for row in instant.rows
        ],
    }


def _place(place: Extreme) -> dict[str, Any]:
    return {
        "depth": DEPTH_WORDS.get(place.depth, str(place.depth)),
        "clock": clock_words(place.degrees),
        "from_weld_mm": _number(1000 * place.z),
    }


def _range(value: Range) -> dict[str, Any]:
    return {
        "stated": _number(value.stated), "5 %": _number(value.low), "95 %": _number(value.high)
    }  # fmt: skip


def _column(values: Any) -> list[float | None]:
    return [_number(float(value)) for value in values]


def _number(value: float | None) -> float | None:
    """One decimal: more is not known, and the same everywhere."""
    return None if value is None else round(value, 1) + 0.0
