"""What a cell of a log can be."""

from __future__ import annotations

import re

from hts.record.reading.rare_stamps import usual_form

_NUMBER = {
    ".": re.compile(r"[+\-−]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"),
    ",": re.compile(r"[+\-−]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?"),
}
_GROUPED = re.compile(r"[+\-−]?\d{1,3}(?:[.,' \u00a0\u202f]\d{3})+(?:[.,]\d+)?")
_STAMP = re.compile(
    r"(?:(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)[a-z]*[.,]*\s+)?"
    r"(?:\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}|\d{1,2}[- ]?[A-Za-z]{3,9}[- ]?\d{2,4}"
    r"|[A-Za-z]{3,9} \d{1,2},? \d{4}|\d{8}(?=T| \d{4,6}$))?"
    r"(?:[T\s,;]*[+-]?(?:\d+\s?d\s?|\d+\.|\d{1,3} (?=\d{1,2}:\d{2}:))?"
    r"\d{1,6}:\d{2}(?::\d{2}(?:[.,:]\d+)?)?"
    r"(?:\s*[AaPp]\.?[Mm]\.?)?|[T ](?:\d{6}|\d{4})|\s\d{1,2}\.\d{2}(?:\.\d{2})?)?"
    r"\s*(?:Z|[A-Z]{2,5}|[+-]\d{2}(?::?\d{2})?)?"
)
_WITH_UNIT = re.compile(r"([+\-]?[\d.]+)\s*((?:[°º˚]|deg\.? ?)?[CFK]|℃|℉)")
#: Marks of alarms and events, high and low. No letter that is a unit.
_MARKED = re.compile(
    r"[*!^~]?([\[(])?\s*([+\-]?\d{1,7}(?:\.\d*)?)\s*([\])])?\s*([*!#^~]{1,2}|HH?|LL?|HI|LO|A[HL]|[RX])?"
)
_ERROR = re.compile(
    r"#.*|[*\-_?=<>]+|n/?an?|null|none|open.*|o/c|burn.*|over.*|under.*|[+-]?inf(?:inity)?"
    r"|bad.*|err.*|fail.*|fault.*|no data|[+-]?ol|or|ur",
    re.I,
)

#: How instruments call a reading, or a channel, beside it.
_STATE = re.compile(r"good|ok|valid|normal|uncertain|invalid|on|off|auto|man(?:ual)?|run", re.I)

_DIGITS = str.maketrans("123456789", "0" * 9)

#: Letters of a cell that are looked at: what is longer is no number, time or word.
LONGEST = 200


def is_number(cell: str, decimal: str) -> bool:
    return len(cell) < LONGEST and _NUMBER[decimal].fullmatch(cell.strip()) is not None


def is_number_of_any_kind(cell: str) -> bool:
    """Also with the other decimal mark, or with grouped digits."""
    if len(cell) >= LONGEST:
        return False
    cell = cell.strip()
    if cell[-1:].isdigit() and "_" not in cell:
        try:
            float(cell)
            return True
        except ValueError:
            pass
    return any(p.fullmatch(cell) for p in (_NUMBER["."], _NUMBER[","], _GROUPED))


def with_unit(cell: str) -> tuple[str, str] | None:
    """The number and the unit of a temperature written with its unit, as `20.5 °C`."""
    found = _WITH_UNIT.fullmatch(cell.strip().replace(",", ".")) if len(cell) < LONGEST else None
    return (found[1], found[2]) if found else None


def with_mark(cell: str) -> tuple[str, str] | None:
    """The number and the mark of a reading the instrument has marked, as `705.3*`, `705.3 H` or
    `[705.3]`. A question mark says that it is none."""
    found = _MARKED.fullmatch(cell.strip().replace(",", ".")) if len(cell) < LONGEST else None
    if found is None or (found[1] or "") + (found[3] or "") not in ("", "[]", "()"):
        return None
    first = cell.strip()[0]
    mark = found[4] or f"{found[1] or ''}{found[3] or ''}" or (first if first in "*!^~" else "")
    return (found[2], mark) if mark else None


def is_stamp(cell: str) -> bool:
    """A date, a time of day, or both, in any of the usual forms."""
    cell = cell.strip()
    if not 3 < len(cell) < LONGEST or not any(letter.isdigit() for letter in cell):
        return False
    return _STAMP.fullmatch(cell) is not None or usual_form(cell) != cell


def is_error_text(cell: str) -> bool:
    """What instruments write in place of a reading they do not have."""
    return len(cell) < LONGEST and _ERROR.fullmatch(cell.strip()) is not None


def is_state(cell: str) -> bool:
    """What instruments write beside a reading on how it is."""
    return len(cell) < LONGEST and _STATE.fullmatch(cell.strip()) is not None


def shaped(text: str) -> str:
    """The text with every digit as a nought."""
    return text.strip().translate(_DIGITS)


def runs_on(row: str, stamp: str) -> bool:
    """Whether a second time, of the shape of the first ones, stands within a row."""
    return len(stamp) >= 8 and not stamp.isdigit() and stamp in shaped(row)[1:]
