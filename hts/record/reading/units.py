"""Words for units, as recorders write them in headers and unit rows."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from hts.record.record import Floats

_TEMPERATURES = {
    "degC": ("c", "degc", "celsius", "degcelsius", "centigrade", "degreec", "degreesc"),
    "degF": ("f", "degf", "fahrenheit", "degfahrenheit", "degreef", "degreesf"),
    "K": ("k", "kelvin", "degk"),
}
_TIMES = {
    "s": ("s", "sec", "secs", "second", "seconds"),
    "ms": ("ms", "msec", "millisecond", "milliseconds"),
    "min": ("min", "mins", "minute", "minutes"),
    "h": ("h", "hr", "hrs", "hour", "hours"),
    "d": ("d", "day", "days"),
    "hh:mm:ss": ("hh:mm:ss", "h:mm:ss", "hh:mm:ss.f", "hms"),
    "hh:mm": ("hh:mm", "h:mm"),
    "mm:ss": ("mm:ss", "m:ss"),
    "serial": ("serial",),
    "unix": ("unix", "epoch", "unixs", "epochs", "unixtime"),
    "unix ms": ("unixms", "epochms", "unixmilliseconds"),
}
_TEMPERATURE = {word: unit for unit, words in _TEMPERATURES.items() for word in words}
_TIME = {word: unit for unit, words in _TIMES.items() for word in words}

#: Units of other quantities found beside temperatures; only told apart from names by them.
_OTHERS = frozenset(
    (
        *("%", "v", "mv", "a", "ma", "w", "kw", "w/m2", "kw/m2", "bar", "mbar", "pa", "kpa", "mpa"),
        *("psi", "l/min", "m/s", "rpm", "hz", "ohm", "mm", "on/off"),
        *(
            f"{degree}/{time}"
            for degree in ("k", "c", "f", "degc", "degf")
            for time in ("h", "min")
        ),
    )
)

_BRACKETS = re.compile(r"^(.*?)\s*[\[({<]\s*([^\[({<]*?)\s*[\])}>]\s*$", re.S)
_SLASH = re.compile(r"^(.*\S)\s*/\s*(\S{1,8})$", re.S)
_COMMA = re.compile(r"^(.*\S)\s*,\s*(\S{1,8}(?: [CFcf])?)$", re.S)
#: A unit after the name alone, unmistakable by its degree.
_DEGREE = re.compile(r"^(.*?)[\s_]+((?:Â?[°º˚]|deg\.?)\s?[CFcf]|℃|℉)$", re.S)


#: Letters of a heading that are looked at.
_LONGEST = 200


class Head(NamedTuple):
    """A cell of the header: the name, and the unit as written, "" where it states none."""

    name: str
    unit: str


def head(cell: str) -> Head:
    """`T1 [degF]`, `T1 (°C)`, `Time/s`, `T1, °C` and `T1 °C` taken apart."""
    text = " ".join(cell[:_LONGEST].split())
    if is_unit(text) and re.search(r"[°º˚℃℉]", text):
        return Head("", text)
    for pattern in (_BRACKETS, _DEGREE, _SLASH, _COMMA):
        found = pattern.match(text)
        if found and is_unit(found[2]):
            return Head(found[1], found[2])
    return Head(text, "")


def is_unit(text: str) -> bool:
    word = _word(text)
    return word in _TEMPERATURE or word in _TIME or word in _OTHERS


def temperature_unit(text: str) -> str | None:
    """degC, degF or K; None when the text is not a unit of temperature."""
    return _TEMPERATURE.get(_word(text))


def time_unit(text: str) -> str | None:
    """A key of _TIMES, or None for what is no unit of time."""
    return _TIME.get(_word(text))


def to_celsius(values: Floats, unit: str) -> Floats:
    """degC from degC, degF or K."""
    if unit == "degF":
        return np.asarray((values - 32.0) / 1.8, dtype=np.float64)
    if unit == "K":
        return np.asarray(values - 273.15, dtype=np.float64)
    return values


@lru_cache(maxsize=1024)
def _word(text: str) -> str:
    text = text.strip().strip("[](){}<>").casefold()
    # U+00BA and U+02DA pass for the degree sign; U+2103 and U+2109 are one character each.
    # A degree sign in UTF-8 or in an old code page, read as Latin-1, becomes "Â°" or "ø".
    text = re.sub(
        "â?[°º˚]|^ø(?=[cf]$)",
        "deg",
        text.replace("℃", "degc").replace("℉", "degf").replace("²", "2"),
    )
    return re.sub(r"[\s._]+", "", text) if not re.search(r":", text) else text.replace(" ", "")
