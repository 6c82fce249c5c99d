"""Ways a cycle goes wrong, one at a time."""

from __future__ import annotations

OVER_RATE = "over-rate"
COOLED_TOO_FAST = "cooled-too-fast"
SHORT_HOLD = "short-hold"
TOO_HOT = "too-hot"
TOO_COLD = "too-cold"
WIDE_SPREAD = "wide-spread"
POWER_LOSS = "power-loss"
BROKEN_HOLD = "broken-hold"
HEATER_LOSS = "heater-loss"
LATE_START = "late-start"
EARLY_END = "early-end"
GAP = "gap"

#: Name -> what happens.
DEPARTURES = {
    OVER_RATE: "heated a quarter faster than allowed where the limit applies",
    COOLED_TOO_FAST: "insulation opened when cooling begins",
    SHORT_HOLD: "held for four fifths of the time required",
    TOO_HOT: "20 min of the hold above its range",
    TOO_COLD: "heaters of one zone off for 40 min of the hold",
    WIDE_SPREAD: "heaters of one zone weak while heating",
    POWER_LOSS: "no power for 75 min while heating",
    BROKEN_HOLD: "no power for 75 min in the middle of the hold, made good afterwards",
    HEATER_LOSS: "heaters of one zone fail in the hold, which is given up two hours later",
    LATE_START: "recorder started 60 K above the start of control",
    EARLY_END: "recorder stopped 60 K above the end of control",
    GAP: "20 min of the hold without a row",
}

#: s
HOT_FOR = 20 * 60
COLD_FOR = 40 * 60
POWER_OFF_FOR = 75 * 60
HEATER_OFF_FOR = 120 * 60
GAP_FOR = 20 * 60
#: K
LATE_BY = EARLY_BY = 60.0
HOT_BY = 12.0
FASTER, SHORTER = 1.25, 0.8
