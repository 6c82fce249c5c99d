"""What to write instead of a sign the language does not have: most come with text pasted from a
word processor, a table or a mail. For messages only."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

_QUOTES = "“”„‟«»‹›‘’‚‛`´'＂"
_DASHES = "‐‑‒–—―−﹣－"
_WORDS = {
    "≤": "`at most`, or <= in a condition",
    "≥": "`at least`, or >= in a condition",
    "×": "* in a formula",
    "·": "* in a formula",
    "÷": "/ in a formula",
    "½": "1/2, after a blank: 1 1/2",
    "¼": "1/4, after a blank: 1 1/4",
    "¾": "3/4, after a blank: 1 3/4",
    "º": "the degree sign °, or deg",
    "″": "in for inches",
    "′": "ft for feet",
}

_CLOCK = re.compile(r"(\d{1,2})(?::(\d\d))?\s*o?\s*['’‘`´]\s*clock", re.I)
_DAY_FIRST = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})")
_SPAN = re.compile(rf"([\d.]+)\s*[{_DASHES}]\s*([\d.]+)")


#: Letters that are taken for digits.
_LIKE_DIGITS = str.maketrans("OoQlISBZ", "00011582")
_MIXED = re.compile(r"(?=[.\dA-Za-z]*\d)(?=[.\d]*[OoQlISBZ])[.\dOoQlISBZ]+(?![\w/])")


def letters_for_digits(rest: str) -> str:
    """Help where ``rest`` begins with a number in which a letter stands for a digit, as in 7O5."""
    number = _MIXED.match(rest)
    if number is None:
        return ""
    meant = number.group().translate(_LIKE_DIGITS)
    unit = re.match(r"[ \t]+([A-Za-z°][^\s]*)", rest[number.end() :])
    return (
        f"did you mean {meant}{' ' + unit.group(1) if unit else ''}? a letter stands where a digit "
        "is read; check the figure against its source"
    )


class Remedy(NamedTuple):
    """What the sign is called (empty: by itself), and the form to write."""

    sign: str
    help: str


def remedy(text: str, at: int) -> Remedy | None:
    """The right form for the sign at ``at``, None where it is not a sign often pasted."""
    sign = text[at]
    begin = text.rfind("\n", 0, at) + 1
    end = text.find("\n", at)
    line = text[begin : end if end >= 0 else len(text)].rstrip("\r")
    column = at - begin
    for match in _CLOCK.finditer(line):
        if match.start() <= column < match.end():
            hour, minutes = match.groups()
            return Remedy("", f"write the place on the clock as {int(hour)}:{minutes or '00'}")
    for match in _DAY_FIRST.finditer(line):
        if match.start() <= column < match.end():
            day, month, year = match.groups()
            written = f"{year}-{int(month):02}-{int(day):02}"
            return Remedy("", f"write the date with the year first: {written} (year-month-day)")
    if sign in _QUOTES:
        return Remedy("", f'write a text in straight double quotes: "{_quoted(line, column)}"')
    if sign in _DASHES:
        return Remedy(f"the dash {sign!r}", _dash(line, column))
    if unicodedata.category(sign) == "Zs":
        name = unicodedata.name(sign).lower()
        return Remedy(f"U+{ord(sign):04X} ({name})", "write an ordinary blank in its place")
    if sign == ";":
        return Remedy("", "begin a new line in its place: each entry has a line of its own")
    if sign in ":=":
        return Remedy("", "remove it: a value follows its words after a blank, as in wall 25.4 mm")
    if sign in _WORDS:
        return Remedy("", f"write {_WORDS[sign]}")
    plain = unicodedata.normalize("NFKC", sign)
    if plain != sign and plain.isascii() and plain.isprintable():
        return Remedy(f"{sign!r} (U+{ord(sign):04X})", f"write {plain} in its place")
    return None


def _quoted(line: str, column: int) -> str:
    """What stands from an opening quote to the closing one, as far as the line shows it."""
    rest = line[column + 1 :]
    end = next((i for i, sign in enumerate(rest) if sign in _QUOTES + '"'), None)
    inner = rest[:end].strip() if end is not None else ""
    return inner.replace("\\", "\\\\") or "…"


def _dash(line: str, column: int) -> str:
    for match in _SPAN.finditer(line):
        if match.start() <= column < match.end():
            low, high = match.groups()
            return f"write a range as {low} .. {high}, and a name or a date with the hyphen -"
    if line[column + 1 : column + 2].isdigit():
        number = re.match(r"[\d.]+", line[column + 1 :])
        return f"write the minus sign as -: -{number.group() if number else ''}"
    return "write the hyphen - in its place, or .. between the two ends of a range"
