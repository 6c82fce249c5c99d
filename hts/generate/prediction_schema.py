"""JSON Schema of what `hts predict --format json` writes."""

from __future__ import annotations

import json

from hts.generate.schema import (
    COUNT,
    DRAFT,
    NAME,
    NUMBER,
    TEXT,
    YES_NO,
    Schema,
    list_of,
    object_of,
    or_null,
)
from hts.predict.document import FORMAT
from hts.predict.outlook import FAILS, HOLDS
from hts.predict.told import LIMITS, NOT_FOR, PREDICTION

PATH = "grammar/prediction.schema.json"

_SHARE: Schema = {"type": "number", "minimum": 0, "maximum": 1}
_MINUTES: Schema = {"type": "number", "minimum": 0}


def generate(root: str) -> dict[str, str]:
    """Path to text of the schema."""
    return {PATH: json.dumps(schema(), ensure_ascii=False, indent=1) + "\n"}


def schema() -> Schema:
    """The schema. A later version may add keys, so that none is forbidden; what an existing one
    means changes only together with `format`."""
    return {
        "$schema": DRAFT,
        "title": "Predictions of hts predict",
        **object_of(
            "What the treatments of a specification are predicted to do inside the wall",
            {
                "format": {"const": FORMAT, "description": "Version of this format"},
                "what": {"const": PREDICTION, "description": "What a prediction is"},
                "not for": {
                    "const": list(NOT_FOR),
                    "description": "What a prediction must not be used for: pass it on with "
                    "every figure",
                },
                "limits of the model": {"const": list(LIMITS)},
                "version": {**NAME, "description": "Version of hts"},
                "model": NAME,
                "samples": COUNT,
                "seed": {**COUNT, "description": "Of the samples: the same one, the same figures"},
                "specification": object_of(
                    "The specification",
                    {
                        "name": {**NAME, "description": "Its file"},
                        "number": or_null(TEXT),
                        "revision": or_null(TEXT),
                        "fingerprint": NAME,
                    },
                ),
                "predictions": list_of(_prediction(), "One for each treatment"),
                "not predicted": list_of(
                    object_of("Why there is none", {"address": NAME, "reason": NAME})
                ),
            },
        ),
    }


def _prediction() -> Schema:
    return object_of(
        "One treatment of one joint, temperatures in degC",
        {
            "address": {**NAME, "description": "W12/stress-relief"},
            "range_degC": {**list_of(NUMBER), "minItems": 2, "maxItems": 2},
            "setpoint_degC": NUMBER,
            "lower_critical_degC": or_null(NUMBER),
            "inputs": list_of(
                object_of(
                    "What it rests on",
                    {"what": NAME, "value": NAME, "source": NAME, "spread": TEXT},
                )
            ),
            "assumed": list_of(NAME, "What the text leaves open, and what was taken"),
            "bore_known": {
                **YES_NO,
                "description": "Whether the text tells the state of the bore; else it was varied "
                "over all states without a lining",
            },
            "instants": list_of(_instant(), "End of the ramp, end of the hold"),
            "share_of_cases_in_range": {
                **_SHARE,
                "description": "In which the whole soak band is in the range at the end of the "
                "hold",
            },
            "lag_min": {
                **or_null(_MINUTES),
                "description": "From the setpoint's arrival in the range to that of the whole soak "
                "band; null: it does not get there before the hold ends",
            },
            "in_range_min": {**_MINUTES, "description": "Of the hold, the whole soak band"},
            "hold_min": _MINUTES,
            "asked": list_of(
                object_of(
                    "What the text or a procedure wants predicted",
                    {
                        "asked": NAME,
                        "by": NAME,
                        "predicted": NAME,
                        "share": _SHARE,
                        "verdict": {"enum": [HOLDS, FAILS]},
                    },
                )
            ),
            "margin_below_lower_critical_K": or_null(_range()),
            "steepest": object_of(
                "Fall of the outside along the pipe",
                {"K": NUMBER, "over_mm": NUMBER, "from_weld_mm": NUMBER},
            ),
            "share_left_beyond_band": NUMBER,
            "dip_beside_gap_K": NUMBER,
            "zones": list_of(_zone()),
            "predicted_and_estimate": list_of(NAME, "Why the two powers differ, in sentences"),
            "settle_first": list_of(
                object_of(
                    "By how much the lowest of the soak band moves with one input, the widest "
                    "first",
                    {"input": NAME, "at_5_K": NUMBER, "at_95_K": NUMBER},
                )
            ),
            "narrowest_bands": object_of(
                "Heated bands that keep the soak band within a spread below the setpoint; never "
                "an argument against the width the rules ask for",
                {
                    "spread_K": NUMBER,
                    "bands": list_of(
                        object_of(
                            "For one state of the bore; null: no width does",
                            {"bore": NAME, "mm": or_null(NUMBER), "left_K": NUMBER},
                        )
                    ),
                },
            ),
            "traces": _traces(),
        },
    )


def _instant() -> Schema:
    place: Schema = {"depth": NAME, "clock": NAME, "from_weld_mm": NUMBER}
    extreme = _range()
    extreme = {
        **extreme,
        "properties": {**extreme["properties"], **place},
        "required": [*extreme["required"], *place],
    }
    return object_of(
        "The soak band at one time",
        {
            "name": NAME,
            "seconds": COUNT,
            "lowest_degC": extreme,
            "highest_degC": extreme,
            "rows": list_of(
                object_of(
                    "At one depth and clock position",
                    {
                        "depth": NAME,
                        "clock": NAME,
                        "lowest_degC": _range(),
                        "highest_degC": _range(),
                    },
                )
            ),
        },
    )


def _zone() -> Schema:
    return object_of(
        "Power of a zone: predicted, and by the quick estimate heaters are sized by",
        {
            "zone": NAME,
            "most_kW": NUMBER,
            "holding_kW": NUMBER,
            "estimate_heating_kW": or_null(NUMBER),
            "estimate_holding_kW": or_null(NUMBER),
            "installed_kW": or_null(NUMBER),
            "short_min": {
                **_MINUTES,
                "description": "At its cap while its thermocouple stays behind by more than 2 K",
            },
        },
    )


def _traces() -> Schema:
    numbers = list_of(NUMBER)
    return object_of(
        "The course, every input as stated; all columns as long as `seconds`",
        {
            "seconds": list_of(COUNT),
            **dict.fromkeys(("setpoint", "lowest", "highest"), numbers),
            "thermocouples": {
                "type": "object",
                "description": "By tag",
                "additionalProperties": numbers,
            },
            "kW": {"type": "object", "description": "By zone", "additionalProperties": numbers},
        },
    )


def _range() -> Schema:
    return object_of(
        "With every input as stated, and 5 and 95 % of cases",
        {"stated": NUMBER, "5 %": NUMBER, "95 %": NUMBER},
    )
