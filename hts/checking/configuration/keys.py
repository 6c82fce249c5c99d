"""The keys of a configuration, each with the way its value is read."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from typing import Any, NamedTuple

from hts.base.fonts import Font, FontError, given_font
from hts.base.text.reading import root_of
from hts.checking.configuration.places import Path
from hts.checking.configuration.reading import Reading
from hts.language.model.defaults import DefaultBook

UNITS = ("SI", "US", "SI and US", "US and SI")
#: Names of hts.paper.sheet.SIZES, which comes after this part.
SHEETS = ("A4", "Letter")
AS_FITS = "as fits"
_BOOK = re.compile(r"(\S+)(?: +edition +(\S+))?")
_PACK = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")


class Key(NamedTuple):
    """``name`` as written with dots; ``read`` makes the value or raises ConfigurationError."""

    name: str
    doc: str
    read: Callable[[Reading, Path, Any], Any]


def _words(reading: Reading, path: Path, value: Any) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise reading.wrong(
            path, f"`{_said(path)}` is a list of words", "write each in quotes, within [ and ]"
        )
    for number, word in enumerate(value):
        if not isinstance(word, str):
            raise reading.wrong((*path, number), f"{word!r} is not a word", "put it in quotes")
        if word in value[:number]:
            raise reading.wrong((*path, number), f"{word!r} is listed twice", "remove one")
    return tuple(value)


def _table(reading: Reading, path: Path, value: Any) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise reading.wrong(path, f"`{_said(path)}` is a table", f"write [{_said(path)}]")
    return value


def _packs(reading: Reading, path: Path, value: Any) -> tuple[str, ...]:
    packs = _words(reading, path, value)
    for number, pack in enumerate(packs):
        if not _PACK.fullmatch(pack):
            raise reading.wrong(
                (*path, number),
                f"{pack!r} is not the name of a rule pack",
                "the name its package gives it: letters, digits, dots, hyphens",
            )
    return packs


def _books(reading: Reading, path: Path, value: Any) -> tuple[DefaultBook, ...]:
    from hts.limits import UnknownBook, UnknownEdition, book

    made: list[DefaultBook] = []
    for number, word in enumerate(_words(reading, path, value)):
        at = (*path, number)
        match = _BOOK.fullmatch(word)
        if match is None:
            raise reading.wrong(
                at, f"{word!r} is not a rule book", 'write, for example, "asme-b31.3 edition 2018"'
            )
        name, edition = match.groups()
        try:
            book(name, edition)
        except UnknownBook as error:
            guess = f"did you mean {error.suggestion}? " if error.suggestion else ""
            raise reading.wrong(at, str(error), f"{guess}`hts books` lists them") from None
        except UnknownEdition as error:
            example = f"{name} edition {error.editions[-1]}" if error.editions else name
            raise reading.wrong(at, str(error), f'write, for example, "{example}"') from None
        if any(other.book == name for other in made):
            raise reading.wrong(at, f"{name} is listed twice", "keep one edition")
        made.append(DefaultBook(name, edition, reading.place(at)))
    return tuple(made)


def _choice(*choices: str) -> Callable[[Reading, Path, Any], str]:
    def read(reading: Reading, path: Path, value: Any) -> str:
        if value not in choices:
            raise reading.wrong(
                path, f"`{_said(path)}` cannot be {value!r}", f"it is one of: {', '.join(choices)}"
            )
        return str(value)

    return read


def _day(reading: Reading, path: Path, value: Any) -> str:
    """An ISO date, written as a date of TOML or in quotes."""
    import datetime

    try:
        if type(value) is datetime.date:
            return value.isoformat()
        return datetime.date.fromisoformat(value).isoformat()
    except (TypeError, ValueError):
        raise reading.wrong(
            path, f"`{_said(path)}` cannot be {value}", 'write a day, for example "2026-11-20"'
        ) from None


def _line(reading: Reading, path: Path, value: Any) -> str:
    if not isinstance(value, str) or len(value) > 120 or not (value == "" or value.isprintable()):
        raise reading.wrong(
            path, f"`{_said(path)}` cannot be {value!r}", "write one line of at most 120 letters"
        )
    return value


def _font(reading: Reading, path: Path, value: Any) -> Font | None:
    line = _line(reading, path, value)
    if not line:
        return None
    file = os.path.realpath(reading.source.path or os.getcwd())
    try:
        return given_font(line, os.path.dirname(file), root_of(file))
    except FontError as error:
        raise reading.wrong(path, str(error), error.help) from None


def _count(reading: Reading, path: Path, value: Any) -> int:
    if type(value) is not int or not 1 <= value <= 100:
        raise reading.wrong(path, f"`{_said(path)}` cannot be {value!r}", "a number from 1 to 100")
    return value


def _length(reading: Reading, path: Path, value: Any) -> float:
    """In mm."""
    from hts.base.quantities import LENGTH, Quantity, QuantityError

    remedy = 'write a length with its unit, for example "12.5 mm"'
    if not isinstance(value, str):
        raise reading.wrong(path, f"`{_said(path)}` cannot be {value!r}", remedy)
    try:
        length = Quantity.read(value, LENGTH)
    except QuantityError as error:
        raise reading.wrong(path, str(error), remedy) from None
    if not 0 <= length.value <= 2000:
        raise reading.wrong(path, f"`{_said(path)}` cannot be {value!r}", "from 0 mm to 2000 mm")
    return float(length.value)


def _side(reading: Reading, path: Path, value: Any) -> float:
    """In mm; 0 for as large as fits."""
    return 0.0 if value == AS_FITS else _length(reading, path, value)


def _said(path: Path) -> str:
    return ".".join(str(part) for part in path if part not in ("tool", "hts"))


KEYS = {
    key.name: key
    for key in (
        Key("select", "Rules that count, by code, family letter or name; empty: all", _words),
        Key("ignore", "Rules to leave out", _words),
        Key("severity", "Severity of rules: error, warning or advice", _table),
        Key("exclude", "Files a folder is checked without, as in a .gitignore", _words),
        Key("books", "Rule books of a specification without `governed by`", _books),
        Key("today", "Day waivers and calibrations are judged on; else the clock's", _day),
        Key("rule-packs", "Installed packages of further rules", _packs),
        Key("paper.units", "The words of `show` for a job that does not say them", _choice(*UNITS)),
        Key("paper.sheet", "Size of sheets", _choice(*SHEETS)),
        Key("paper.company", "Name at the head of packets", _line),
        Key("paper.logo", "Picture at the head of packets, SVG or PNG in the repository", _line),
        Key(
            "paper.font",
            "Font for letters the shipped ones lack, in the repository",
            _font,
        ),
        Key("labels.columns", "Labels side by side on a sheet", _count),
        Key("labels.rows", "Labels one below the other", _count),
        Key("labels.copies", "Labels for each thermocouple", _count),
        Key("labels.width", f'Width of a label, or "{AS_FITS}"', _side),
        Key("labels.height", f'Height of a label, or "{AS_FITS}"', _side),
        Key("labels.left", "Margin left of the first label", _length),
        Key("labels.top", "Margin above the first label", _length),
        Key("labels.gap-across", "Gap between two labels side by side", _length),
        Key("labels.gap-down", "Gap between two labels one below the other", _length),
    )
}
#: Names of the tables that hold keys.
TABLES = tuple(dict.fromkeys(name.split(".")[0] for name in KEYS if "." in name))
