"""What spreadsheets make of a value by themselves, and forms of numbers that are theirs alone."""

from __future__ import annotations

import re
from typing import NamedTuple

from hts.base.findings import Kind
from hts.base.quantities import LENGTH, RATIO, Dimension, find_unit
from hts.language.vocabulary.table_mistakes import UNCLEAR_CELL


class Unclear(NamedTuple):
    """What is wrong with a cell."""

    message: str
    help: str
    kind: Kind = UNCLEAR_CELL


_ERROR = re.compile(r"#(?:N/A|REF!|VALUE!|DIV/0!|NAME\?|NUM!|NULL!|#+)|Err:\d+|#+")
#: `+/-` before a figure is a tolerance.
_FORMULA = re.compile(r"[=@]|[+-](?![\s\d.,]|/-|$)")
#: The sign that makes a text of a number; typed into some programs it becomes part of the text.
_APOSTROPHE = re.compile(r"['\u2018\u2019`](?=.)")
_MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?"
_DATE = re.compile(
    rf"(?i)(?:\d{{1,2}}[-/. ]{_MONTH}(?:[-/. ]\d{{2,4}})?|{_MONTH}[-/ ]\d{{1,4}}|"
    r"\d{4}([-/.])\d{1,2}\1\d{1,2}|\d{1,2}([-/.])\d{1,2}\2(?:\d{4}|\d{2}))(?:[ T]\d{1,2}:.*)?"
)
#: The number of days that a spreadsheet keeps for a date, from 1954 on, with or without hours.
_DAY_NUMBER = re.compile(r"[2-7]\d{4}(?:[.,]\d+)?")
_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_EXPONENT = re.compile(r"[+-]?\d+(?:[.,]\d*)?[eE][+-]?\d+")
_MONEY = re.compile(r"[$€£¥].*|.*[$€£¥]|.*\d\s*(?:EUR|USD|GBP)")
_PERCENT = re.compile(r"[-+]?[\d.,]+\s*%")
#: Between thousands: a comma, a blank of any kind, an apostrophe; decimals may follow.
_THOUSANDS = re.compile(
    r"[-+]?\d{1,3}(?:(?:,\d{3}){2,}|,\d{3}(?=\.)|[ \u00a0\u2009\u202f'\u2019]\d{3}(?!\s*/))+"
    r"(?![\d/,])(?:[.,]\d+)?(?!\s*/)(?:\s*[^\W\d].*)?"
)
#: Dashes that are not the hyphen of the keyboard.
DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212"
_DASH = rf"\s*[-{DASHES}]\s*"
_RANGE = re.compile(rf"(\d[\d.,]*){_DASH}(\d[\d.,]*)(?:\s*[^\W\d].*)?")
_FRACTION = re.compile(rf"(\d+){_DASH}(\d+/\d+)")
_BARE_FRACTION = re.compile(r"(?:\d+\s+)?\d+/\d+")
_LIMIT = re.compile(r"(?i)(?:[<>≤≥~≈±]=?|(?:ca|approx|about|abt|min|max|nom)\b\.?)\s*\d.*")
_HALF_A_POINT = re.compile(r"(\d+)\.|\.(\d+)")
_DECIMALS = re.compile(r"\d+[.,]0+")
_LINE_END = re.compile(r"[\r\n]")


def spoiled_by_spreadsheet(text: str) -> Unclear | None:
    """What no cell may hold, whatever it is read for: an error, a formula, a line break."""
    if _ERROR.fullmatch(text):
        return Unclear(
            f"{text!r} is an error of the spreadsheet",
            "mend the formula there, and save the table again",
        )
    if _FORMULA.match(text):
        return Unclear(
            f"{text[:40]!r} looks like a formula of a spreadsheet",
            "save the values, not the formulas",
        )
    return broken_line(text)


def broken_line(text: str) -> Unclear | None:
    """Tells a line break inside a cell."""
    if _LINE_END.search(text) is None:
        return None
    return Unclear("there is a line break in this cell", "write it on one line")


def changed_by_spreadsheet(text: str, is_day: bool = False) -> Unclear | None:
    """What a spreadsheet makes of a value by itself; asked where no free text is wanted."""
    if _APOSTROPHE.match(text):
        return Unclear(
            f"an apostrophe stands before {text[1:].strip()[:40]}",
            "delete the apostrophe, so that the cell holds the value alone; to keep every figure "
            "as typed, format the column as text",
        )
    if is_day:
        return _spoiled_day(text)
    if _DATE.fullmatch(text):
        return Unclear(
            f"{text!r} is a date, which spreadsheets make of values such as 3-4 or 1/2",
            "format the column as text, write the value again, and save the table again",
        )
    if _EXPONENT.fullmatch(text):
        return Unclear(
            f"{text!r} is a power of ten, as spreadsheets shorten numbers",
            "format the column as numbers with all decimals, or as text, and save the table again",
        )
    return None


def _spoiled_day(text: str) -> Unclear | None:
    if _DAY.fullmatch(text) or not (_DAY_NUMBER.fullmatch(text) or _DATE.fullmatch(text)):
        return None
    what = "not the day alone as year-month-day"
    if _DAY_NUMBER.fullmatch(text):
        what = "the number that a spreadsheet keeps for a day"
    return Unclear(
        f"{text!r} is {what}",
        "format the column as a date of the form 2026-11-20, and save the table again",
    )


def no_plain_number(text: str, dimension: Dimension | None, unit: str) -> Unclear | None:
    """Tells a number dressed by a spreadsheet, or two numbers; asked where a quantity or a size is
    wanted. ``dimension``: that of the column, None for sizes; ``unit``: its unit, or ""."""
    if _MONEY.fullmatch(text):
        return Unclear(
            f"{text!r} is an amount of money",
            "find out the value, and format the column as numbers",
        )
    if _PERCENT.fullmatch(text) and dimension is not RATIO:
        return Unclear(
            f"{text!r} is a percentage",
            "find out the value, and format the column as numbers",
        )
    if _LIMIT.fullmatch(text):
        return Unclear(
            f"{text!r} is a limit or an estimate, not a value",
            "write the value that was measured or is specified, the number alone",
        )
    half = _HALF_A_POINT.fullmatch(text)
    if half is not None:
        return Unclear(
            f"{text!r} has digits on one side of its point alone",
            f"look whether a figure is missing, then write {half[1] or '0.' + half[2]}",
        )
    fraction = _FRACTION.fullmatch(text)
    if fraction is not None:
        return Unclear(
            f"{text!r} has a dash before its fraction, and may be a range",
            f"write {fraction[1]} {fraction[2]} with a blank between, if that is meant",
        )
    between = _RANGE.fullmatch(text)
    if between is not None:
        return Unclear(
            f"{text!r} may be a range, a fraction or a date",
            f"write one value; where a range is wanted, {between[1]} .. {between[2]}",
        )
    if _THOUSANDS.fullmatch(text):
        return Unclear(
            f"{text!r} has a sign between its thousands",
            "write nothing between them: format the column as numbers without thousands, and save "
            "the table again",
        )
    metric = dimension is LENGTH and find_unit(unit, LENGTH) not in (
        None,
        find_unit("in", LENGTH),
        find_unit("ft", LENGTH),
    )
    if metric and _BARE_FRACTION.fullmatch(text):
        return Unclear(
            f"{text!r} is a fraction in a column in {unit}",
            f"find out whether it is in inches, and write it in {unit} with decimals",
        )
    return None


def whole_number_with_decimals(text: str) -> bool:
    """Whether a text is a whole number as a spreadsheet writes it among others with decimals."""
    return _DECIMALS.fullmatch(text) is not None
