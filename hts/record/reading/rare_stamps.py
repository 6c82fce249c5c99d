"""Stamps in forms that few instruments write, put into those that are read."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import polars as pl

#: What is said where a time cannot be read.
KNOWN_STAMPS = (
    "known are 2026-11-21 14:03:20, 21/11/2026 02:03:20 PM, 21-Nov-2026 14:03 and 14:03:20"
)

_DAY = r"(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.]\d{4})"
_CLOCK = r"\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?"

#: A form, and its parts in the usual order.
_FORMS = (
    # [2026-11-24 06:12:00]
    (rf"^\[({_DAY}[T ]{_CLOCK})\]$", "${1}"),
    # 2026-11-24_06:12:00, 2026-11-24-06:12:00
    (rf"^({_DAY})[_-]({_CLOCK})$", "${1} ${2}"),
    # 2026-11-24 06-12-00, 2026-11-24_06-12-00
    (rf"^({_DAY})[T _](\d{{2}})-(\d{{2}})-(\d{{2}})$", "${1} ${2}:${3}:${4}"),
    # 06:12:00 24/11/2026
    (rf"^({_CLOCK})[ ,;]+({_DAY})$", "${2} ${1}"),
    # Tue Nov 24 06:12:00 2026
    (rf"^(?:[A-Z][a-z]{{2}} )?([A-Z][a-z]{{2}}) +(\d{{1,2}}) ({_CLOCK}) (\d{{4}})$",
     "${1} ${2} ${4} ${3}"),
)  # fmt: skip
_BY_RE = tuple(
    (re.compile(form), usual.replace("${", r"\g<").replace("}", ">")) for form, usual in _FORMS
)


def usual_form(text: str) -> str:
    """The stamp in a usual form; the text itself where it is none of these."""
    for form, usual in _BY_RE:
        if form.match(text):
            return form.sub(usual, text)
    return text


def in_usual_form(column: pl.Series) -> pl.Series:
    """The same of a column, by the form of its first stamp."""
    known = column.drop_nulls()
    first = known[0] if len(known) else ""
    for form, usual in _FORMS:
        if re.match(form, first):
            return column.str.replace(form, usual)
    return column
