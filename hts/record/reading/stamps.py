"""Forms of date and time, and columns of them as seconds."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.record.errors import RecordError
from hts.record.reading.rare_stamps import KNOWN_STAMPS, in_usual_form, usual_form
from hts.record.reading.time_parts import seconds_from_1970
from hts.record.record import Floats

if TYPE_CHECKING:
    import polars as pl

#: Letters of a cell that are looked at: what is longer is no time.
LONGEST = 200

#: Names of columns: of dates, of times of day, of both in one, of times counted from a start.
_DATES = ("date", "day")
_CLOCKS = ("time", "clock", "clock time", "time of day", "hour")
_STAMPS = (
    "datetime", "date time", "date/time", "date & time", "date and time",
    "timestamp", "time stamp", "unix", "unix time", "unix ms", "epoch", "epoch ms",
)  # fmt: skip
COUNTS = ("elapsed", "elapsed time", "run time", "test time", "relative time", "duration", "t")
NAMES = (_DATES, _CLOCKS, _STAMPS, COUNTS)

_WEEKDAYS = r"(?i)^(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?[.,]*\s+"
_DATE = re.compile(
    r"(?P<ymd>\d{4}(?P<s1>[-/.])\d{1,2}(?P=s1)\d{1,2})"
    r"|(?P<xxy>\d{1,2}(?P<s2>[-/.])\d{1,2}(?P=s2)(?:\d{4}|\d{2}))(?!\d)"
    r"|(?P<packed>\d{8}(?=T| \d{4}(?:\d{2})?$|$)"
    r"|(?:19|20)\d{2}(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])(?=(?:\d{4}|\d{6})$))"
    r"|(?P<dby>\d{1,2}(?P<s3>[- ]?)[A-Za-z]{3,9}(?P=s3)(?:\d{4}|\d{2}))(?!\d)"
    r"|(?P<bdy>[A-Za-z]{3,9} \d{1,2}(?P<s4>,? )\d{4})"
)
_WEEKDAY = re.compile(_WEEKDAYS)
_TIME = re.compile(
    r"(?P<gap>[T\s,;]*)(?:(?P<packed>\d{6}|\d{4}(?!\d|:))|\d{1,2}:\d{2}(?P<seconds>:\d{2}(?P<part>[.,:]\d+)?)?)"
    r"(?P<half>\s*[AaPp]\.?[Mm]\.?)?(?P<zone>\s*(?:Z|UTC|GMT|[+-]\d{2}(?::?\d{2})?))?(?P<name>\s*[A-Z]{2,5})?"
)
#: How a clock time without a date, or a counted time, is written: a sign, days, hours of any
#: number, minutes, seconds with a fraction, half of the day.
_COUNTED = (
    r"^([+-]?)(?:(\d+)(?:\s?d\s?|\.|\s+))?(\d+):(\d{2})(?::(\d{2}(?:\.\d+)?))?"
    r"\s*([AaPp])?\.?[Mm]?\.?$"
)

#: How nearly all logs write a time, each digit as a nought.
_USUAL = np.frombuffer(b"0000-00-00 00:00:00", dtype=np.uint8)
_EPOCH_OF_SERIALS = 25569.0  # days from the day 0 of spreadsheets to 1970-01-01
_PARTS = ((1e17, 1e-9), (1e14, 1e-6), (1e11, 1e-3))
_SECONDS = {"s": 1.0, "ms": 0.001, "min": 60.0, "h": 3600.0, "d": 86400.0}


class Form(NamedTuple):
    """A way of writing a stamp: as a format of Polars, and what it says."""

    format: str
    dated: bool
    timed: bool
    zoned: bool


class Unread(Exception):
    """Rows whose stamp cannot be read; `rows` are their numbers."""

    def __init__(self, rows: list[int]) -> None:
        self.rows = rows
        super().__init__(str(rows[:3]))


class DayOrder(Exception):
    """Day and month cannot be told apart."""

    def __init__(self, cause: str, remedy: str) -> None:
        self.cause = cause
        self.remedy = remedy
        super().__init__(cause)


@lru_cache(maxsize=64)
def words(names: tuple[str, ...]) -> tuple[str, ...]:
    """Names of columns as they stand in NAMES."""
    return tuple(" ".join(text.casefold().replace("_", " ").split()) for text in names)


def told_by_name(names: tuple[str, ...]) -> bool:
    """Whether the first of the columns has the name of a time, and none of the others."""
    first, *others = (any(word in kind for kind in NAMES) for word in words(names))
    return first and not any(others)


def dated(text: str) -> bool:
    """Whether the text begins with a date, or the name of a weekday and a date."""
    return _DATE.match(_WEEKDAY.sub("", usual_form(text[:LONGEST]), count=1)) is not None


def packed(text: str) -> bool:
    """Whether a text of digits alone is date and time in one, as 20261124061200."""
    found = _DATE.match(text)
    return found is not None and found["packed"] is not None and len(text) in (12, 14)


def from_numbers(values: Floats, unit: str) -> tuple[Floats, bool]:
    """Seconds, and whether they are a clock (from 1970) or counted from some start."""
    if unit == "serial":
        # To the millisecond: a day number with its 15 digits holds no more.
        return np.round((values - _EPOCH_OF_SERIALS) * 86400.0, 3), True
    if unit.startswith("unix"):
        return values * _part_of_second(values), True
    return values * _SECONDS[unit], False


def _part_of_second(values: Floats) -> float:
    """What the numbers of a clock that counts from 1970 are in, s, ms, us or ns: no recorder is
    from before 1973, when it counted 1e11 ms, and none runs in 5138, at 1e11 s."""
    largest = float(np.nanmax(np.abs(values), initial=0.0))
    return next((part for from_, part in _PARTS if largest >= from_), 1.0)


def from_counted(column: pl.Series, pairs: str) -> Floats:
    """Seconds of hh:mm:ss, of any number of hours, or of two numbers read as `pairs`, which is
    "hh:mm" or "mm:ss"; NaN where the cell is no such time."""
    import polars as pl

    parts = column.str.replace(",", ".", literal=True).str.extract_groups(_COUNTED).struct
    sign, days, first, second, third, half = (
        parts.field(name) for name in ("1", "2", "3", "4", "5", "6")
    )

    def number(part: pl.Series) -> Floats:
        return np.array(part.cast(pl.Float64, strict=False).to_numpy(), dtype=np.float64)

    hours, minutes, seconds = number(first), number(second), np.nan_to_num(number(third))
    if half.is_not_null().any():
        afternoon = half.str.to_lowercase().to_numpy() == "p"
        hours = np.where(half.is_null().to_numpy(), hours, hours % 12 + 12 * afternoon)
    whole = hours * 3600 + minutes * 60 + seconds
    if pairs == "mm:ss":
        whole = np.where(third.is_null().to_numpy(), hours * 60 + minutes, whole)
    whole = whole + np.nan_to_num(number(days)) * 86400
    return np.where(sign.fill_null("").to_numpy() == "-", -whole, whole)


def two_numbers(column: pl.Series) -> bool:
    """Whether some cell is `12:30`, which may be hours and minutes or minutes and seconds."""
    return bool(column.str.contains(r"^[+-]?\d+:\d{2}$").any())


def from_dates(column: pl.Series, day_order: str | None) -> tuple[Floats, list[Form]]:
    """Seconds from 1970 by the clock of the stamps (of UTC where they state an offset), NaN for
    nulls, and the forms met. Raises Unread, and DayOrder where nothing tells day from month."""
    import polars as pl

    text = _plain(in_usual_form(column))
    order = _day_order(text, day_order) or day_order
    out = np.full(len(text), np.nan)
    rows = np.flatnonzero(text.is_not_null().to_numpy())
    forms: list[Form] = []
    while len(rows):
        left = text.gather(rows)
        form = _form(left[0], order)
        if form is None or len(forms) > 8:
            raise Unread(rows.tolist())
        forms.append(form)
        if form.timed:
            moments = left.str.to_datetime(form.format, time_unit="us", strict=False)
        else:
            moments = left.str.to_date(form.format, strict=False).cast(pl.Datetime("us"))
        good = moments.is_not_null().to_numpy()
        if not good[0]:
            raise Unread(rows[~good].tolist())
        out[rows[good]] = moments.drop_nulls().cast(pl.Int64).to_numpy() / 1e6
        rows = rows[~good]
    return out, forms


def year_first(column: pl.Series) -> Floats | None:
    """Seconds from 1970 of a column of `2026-11-21 14:03:20` in every row, which leaves nothing
    open; None for any other."""
    import polars as pl

    if column.dtype != pl.String or column.null_count() or not len(column):
        return None
    date = _DATE.match(column[0])
    if date is None or not date["ymd"]:
        return None
    form = _form(column[0], None)
    if form is None or not form.timed or form.zoned or "%p" in form.format or "%.f" in form.format:
        return None
    if len(column[0]) == len(_USUAL) and (seconds := _usual(column)) is not None:
        return seconds
    moments = column.str.to_datetime(form.format, time_unit="us", strict=False)
    if moments.null_count():
        return None
    return np.asarray(moments.to_numpy().view(np.int64) / 1e6, dtype=np.float64)


def _usual(column: pl.Series) -> Floats | None:
    """Seconds from 1970 where every row has its digits where _USUAL has noughts, and else what the
    first row has; it takes half of the time of formats. None where one has not, or is no time."""
    cells = column.to_list()
    if set(map(len, cells)) != {len(_USUAL)}:
        return None
    try:
        letters = np.frombuffer("".join(cells).encode("ascii"), dtype=np.uint8)
    except UnicodeEncodeError:
        return None
    letters = letters.reshape(len(cells), -1)
    digits = letters[:, ord("0") == _USUAL].astype(np.float64) - ord("0")
    others = letters[:, ord("0") != _USUAL]
    if digits.min() < 0 or digits.max() > 9 or np.any(others != others[0]):
        return None
    century, year, *parts = (digits[:, ::2] * 10 + digits[:, 1::2]).T
    seconds = seconds_from_1970(century * 100 + year, *parts)
    return None if np.isnan(seconds).any() else seconds


def _plain(column: pl.Series) -> pl.Series:
    """Only what the formats know: a point before parts of a second, AM and PM without points."""
    text = column.str.replace(_WEEKDAYS, "")
    text = text.str.replace(r"(\d:\d{2}:\d{2})[,:](\d)", "$1.$2")
    text = text.str.replace(r"^(\S+[ T])(\d{1,2})\.(\d{2})(?:\.(\d{2}))?$", "$1$2:$3:$4")
    text = text.str.replace(r"(:\d{2}):$", "$1")
    if text.str.contains(r"(?i)\d\s*[ap]\.?m").any():
        text = text.str.replace(r"(?i)(\d)\s*([ap])\.?m\.?", "$1 ${2}M")
    return text.str.replace(r"\s*(?:Z|UTC|GMT)$", "+00:00")


def _form(text: str, order: str | None) -> Form | None:
    date = _DATE.match(text)
    if date is None:
        return None
    found = _date_format(date, order)
    rest = text[date.end() :]
    if not rest:
        return Form(found, True, False, False)
    time = _TIME.fullmatch(rest)
    if time is None or time["name"]:
        return None
    found += time["gap"]
    if time["packed"]:
        found += "%H%M%S" if len(time["packed"]) == 6 else "%H%M"
    else:
        found += "%I:%M" if time["half"] else "%H:%M"
        found += "" if time["seconds"] is None else ":%S" + ("%.f" if time["part"] else "")
        found += " %p" if time["half"] else ""
    if time["zone"]:
        found += " " * (len(time["zone"]) - len(time["zone"].lstrip())) + "%#z"
    return Form(found, True, True, bool(time["zone"]))


def _date_format(date: re.Match[str], order: str | None) -> str:
    year = "%Y" if re.search(r"\d{4}", date[0]) else "%y"
    if date["ymd"]:
        return date["s1"].join(("%Y", "%m", "%d"))
    if date["packed"]:
        return "%Y%m%d"
    if date["dby"]:
        if year == "%y" and order != "day":
            raise DayOrder(
                f"{date[0]} does not say which of its numbers is the year",
                "say --day-order day if the day comes first",
            )
        return date["s3"].join(("%d", _month(date[0]), year))
    if date["bdy"]:
        return f"{_month(date[0])} %d{date['s4']}%Y"
    return date["s2"].join(("%m", "%d", year) if order == "month" else ("%d", "%m", year))


def _month(date: str) -> str:
    """How the name of the month is written: Nov, or November."""
    letters = sum(map(str.isalpha, date))
    return "%b" if letters == 3 else "%B"


def _day_order(text: pl.Series, given: str | None) -> str | None:
    """ "day" or "month", whichever comes first; None where no date leaves it open."""
    pattern = r"^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?:\D|$)"
    parts = text.str.extract_groups(pattern).struct
    first, second, year = (parts.field(name).drop_nulls() for name in ("1", "2", "3"))
    if not len(first):
        return None
    one, two = first.cast(int).to_numpy(), second.cast(int).to_numpy()
    at = int(np.argmax(one != two))
    a, b, y = int(one[at]), int(two[at]), year[at]
    if one.max() > 12 and two.max() > 12:
        raise DayOrder(
            "some dates can only have the day first and others only the month",
            "export the record again with dates as 2026-11-21",
        )
    clear = len(y) == 4 and max(one.max(), two.max()) > 12
    fixed = ("day" if one.max() > 12 else "month") if clear else None
    if fixed is None and len(y) == 4 and not (one != two).any():
        fixed = given or "day"  # 11/11/2026 is one day either way
    if given is None and fixed is None:
        written = f"{first[at]}/{second[at]}/{y}"
        if len(y) == 4:
            cause = f"{written} can be {_said(a, b, y)} or {_said(b, a, y)}"
        else:
            cause = f"{written} does not say which of its numbers is the year"
        raise DayOrder(cause, "say --day-order day or --day-order month, whichever comes first")
    if given is not None and fixed is not None and given != fixed:
        raise DayOrder(
            f"--day-order {given} does not fit: a date has a number above 12 in its place",
            f"use --day-order {fixed}",
        )
    return fixed or given


_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def _said(day: int, month: int, year: str) -> str:
    return f"{day} {_MONTHS[month - 1]} {year}"


def refuse(place: str, text: str) -> RecordError:
    """The error for a stamp that cannot be read."""
    text = text if len(text) <= 60 else f"{text[:60]}…"
    named = re.search(r"\s([A-Z]{3,5})$", text)
    if named:
        return RecordError(
            place,
            f"{text!r} names a zone, {named[1]}, that stands for several",
            "say the zone with --zone, as Europe/Oslo, or export it with the offset from UTC",
        )
    if re.search(r"\b24[:.]00", text):
        return RecordError(
            place,
            f"{text!r} can be the midnight before that day or after it",
            "write 00:00 of the day that begins, in a copy of the file",
        )
    return RecordError(
        place,
        f"{text!r} cannot be read as a time: there is no such day, or its form is not known",
        KNOWN_STAMPS,
    )
