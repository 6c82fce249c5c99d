"""What a cell of a log can be."""

from __future__ import annotations

import re

_NUMBER = {
    ".": re.compile(r"[+\-−]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"),
    ",": re.compile(r"[+\-−]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?"),
}
_GROUPED = re.compile(r"[+\-−]?\d{1,3}(?:[.,' \u00a0\u202f]\d{3})+(?:[.,]\d+)?")
_STAMP = re.compile(
    r"(?:\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}|\d{1,2}[- ]?[A-Za-z]{3,9}[- ]?\d{2,4}"
    r"|[A-Za-z]{3,9} \d{1,2},? \d{4}|\d{8}(?=T))?"
    r"(?:[T\s,;]*[+-]?(?:\d+\s?d\s?|\d+\.)?\d{1,6}:\d{2}(?::\d{2}(?:[.,:]\d+)?)?(?:\s*[AaPp]\.?[Mm]\.?)?|T\d{6})?"
    r"\s*(?:Z|[A-Z]{2,5}|[+-]\d{2}(?::?\d{2})?)?"
)
_WITH_UNIT = re.compile(r"([+\-]?[\d.]+)\s*((?:[°º˚]|deg\.? ?)?[CFK]|℃|℉)")
_ERROR = re.compile(
    r"#.*|[*\-_?=<>]+|n/?an?|null|none|open.*|o/c|burn.*|over.*|under.*|[+-]?inf(?:inity)?"
    r"|bad.*|err.*|fail.*|fault.*|no data|[+-]?ol|or|ur",
    re.I,
)


def is_number(cell: str, decimal: str) -> bool:
    return _NUMBER[decimal].fullmatch(cell.strip()) is not None


def is_number_of_any_kind(cell: str) -> bool:
    """Also with the other decimal mark, or with grouped digits."""
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
    found = _WITH_UNIT.fullmatch(cell.strip().replace(",", "."))
    return (found[1], found[2]) if found else None


def is_stamp(cell: str) -> bool:
    """A date, a time of day, or both, in any of the usual forms."""
    cell = cell.strip()
    return (
        len(cell) > 3
        and ("".join(cell.split()).isalpha() is False)
        and (_STAMP.fullmatch(cell) is not None and any(c.isdigit() for c in cell))
    )


def is_error_text(cell: str) -> bool:
    """What instruments write in place of a reading they do not have."""
    return _ERROR.fullmatch(cell.strip()) is not None
