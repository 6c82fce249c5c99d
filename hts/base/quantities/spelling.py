"""Which unit was meant: for messages only, never for reading."""

from __future__ import annotations

from hts.base.quantities.dimensions import Dimension
from hts.base.quantities.units import is_unit, standard_symbol, symbols_of

_TEMPERATURES = {
    "C": "degC",
    "F": "degF",
    "° C": "degC",
    "° F": "degF",
    "deg C": "degC",
    "deg F": "degF",
    "℃": "degC",
    "℉": "degF",
    "degc": "degC",
    "degf": "degF",
}
_HOURS = ("hr", "hrs", "hour", "hours")

MISWRITTEN: dict[str, str] = {
    **_TEMPERATURES,
    **{f"{name}/h": f"{symbol}/h" for name, symbol in _TEMPERATURES.items()},
    **{f"{name}/min": f"{symbol}/min" for name, symbol in _TEMPERATURES.items()},
    **{
        f"{name}/{hour}": f"{symbol}/h"
        for name, symbol in (
            *_TEMPERATURES.items(),
            *((standard, standard) for standard in ("degC", "degF", "K")),
            ("°C", "degC"),
            ("°F", "degF"),
        )
        for hour in _HOURS
    },
    **dict.fromkeys(_HOURS, "h"),
    **dict.fromkeys(("mins", "minute", "minutes"), "min"),
    **dict.fromkeys(("sec", "secs", "second", "seconds"), "s"),
    **dict.fromkeys(("day", "days"), "d"),
    **dict.fromkeys(("inch", "inches"), "in"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    "hr/in": "h/in",
    "h/inch": "h/in",
    "hr/inch": "h/in",
    "kelvin": "K",
    "ml/100 g": "ml/100g",
    "mL/100 g": "ml/100g",
    "HV": "HV10",
    "°": "deg",
    "degrees": "deg",
    "lbs": "lb",
    "KW": "kW",
    "kw": "kW",
    "KVA": "kVA",
    "kva": "kVA",
    "mpa": "MPa",
    "Mpa": "MPa",
}
"""Common wrong spellings that can be told apart from every other word, and the unit they mean."""

# Inch and foot marks are quotation marks to the grammar, so they never reach a quantity token.
_MARKS = {'"': "in", "”": "in", "″": "in", "''": "in", "'": "ft", "’": "ft", "′": "ft", "wt%": "%"}


def suggest_unit(written: str, dimension: Dimension) -> str | None:
    """The unit of `dimension` that `written`, which is none of its units, was meant to be."""
    fitting = symbols_of(dimension)
    known = MISWRITTEN.get(written) or _MARKS.get(written)
    if known is not None:
        return known if known in fitting else None
    symbol = standard_symbol(written)
    for candidate in fitting:
        if candidate.startswith(f"{symbol}/") or candidate.lower() == symbol.lower():
            return candidate
    if is_unit(written):
        return None  # the unit was meant, so it is the wrong quantity and not a slip
    allowed = 0 if len(symbol) < 2 else 1 if len(symbol) < 5 else 2
    distance, nearest = min(
        ((edits(symbol, candidate), candidate) for candidate in fitting),
        key=lambda pair: pair[0],
        default=(allowed + 1, ""),
    )
    return nearest if distance <= allowed else None


def edits(left: str, right: str, most: int | None = None) -> int:
    """Edits between two words; exchanging two neighbours counts as one (optimal alignment).

    Where there are more than ``most``, some number above it.
    """
    before: list[int] = []
    row = list(range(len(right) + 1))
    for i, a in enumerate(left, 1):
        two_before, before, row = before, row, [i]
        for j, b in enumerate(right, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and left[i - 2] == b:
                cost = min(cost, two_before[j - 2] + 1)
            row.append(cost)
        if most is not None and min(row) > most and min(before) > most:
            break
    return row[-1]
