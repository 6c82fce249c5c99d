"""Steel grades by name: grouping, strength, lower critical temperature and usual PWHT range."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any, TypeVar

from hts.base.data import load
from hts.base.quantities import MASS_FRACTION, STRESS, TEMPERATURE, Dimension, Interval, Quantity
from hts.science.tables.fact import Property, cited

T = TypeVar("T")


class UnknownGrade(LookupError):
    """No such grade. `suggestions` holds up to five names that look like it."""

    def __init__(self, name: str, suggestions: tuple[str, ...]) -> None:
        hint = f"; did you mean {' or '.join(suggestions)}?" if suggestions else ""
        super().__init__(f"no grade {name!r}{hint}")
        self.name = name
        self.suggestions = suggestions


class Grade:
    """One steel grade, or one class of it. A property the tables do not give is None.

    `group` is the group within the P-number. `iso_15608` may name two groups ("1.2/2.1") where
    thickness or make decides. Ac1 is approximate; `ac1_range` is what the composition range of
    the grade allows. `tensile_minimum` is None when it depends on a class: see `classes`.
    """

    __slots__ = (
        "ac1", "ac1_range", "aliases", "carbon_maximum", "chromium_nominal", "classes", "group",
        "iso_15608", "name", "note", "p_number", "product", "pwht", "standard", "tensile_minimum",
    )  # fmt: skip

    def __init__(self, row: dict[str, Any]) -> None:
        standard: str = row["standard"]
        self.name: str = row["name"]
        self.standard = standard
        self.product: str = row["product"]
        self.aliases: tuple[str, ...] = tuple(row.get("aliases", ()))
        self.note: str | None = row.get("note")
        self.classes: tuple[str, ...] = tuple(
            f"{self.name} Class {number}" for number in row.get("classes", ())
        )
        p_number = row.get("p_number")
        self.p_number = _text(p_number, "value", standard)
        self.group = _text(p_number, "group", standard)
        self.iso_15608 = _text(row.get("iso_15608"), "value", standard)
        self.tensile_minimum = _quantity(row.get("tensile_minimum"), STRESS, standard)
        self.ac1 = _quantity(row.get("ac1"), TEMPERATURE, standard)
        self.ac1_range = _range(row.get("ac1_range"), standard)
        self.pwht = _range(row.get("pwht"), standard)
        self.carbon_maximum = _quantity(row.get("carbon_maximum"), MASS_FRACTION, standard)
        self.chromium_nominal = _quantity(row.get("chromium_nominal"), MASS_FRACTION, standard)

    def __repr__(self) -> str:
        return f"Grade({self.name})"


@lru_cache(maxsize=128)
def grade(name: str) -> Grade:
    """Return the grade of a name or alias.

    Case, blanks, hyphens, "Gr"/"Grade", "ASTM"/"ASME" and the S of "SA" do not matter:
    "A335 P22", "SA-335 Gr. P22" and "P22" are one grade. A class is written "A387-11 Class 2" or
    "Cl 2". Raises UnknownGrade.
    """
    row = _index().get(_key(name))
    if row is None:
        raise UnknownGrade(name, _suggestions(_key(name)))
    return Grade(row)


class GradeName(str):
    """The name of a grade, equal to every spelling of it: `A335 P22` and `SA-335 Gr. P22`."""

    __slots__ = ()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, str) and canonical(str(self)) == canonical(str(other))

    def __hash__(self) -> int:
        return hash(canonical(str(self)))


@lru_cache(maxsize=256)
def canonical(name: str) -> str:
    """The name the table gives a grade; one it does not know in the form names are compared in."""
    key = _key(name)
    row = _index().get(key)
    return key if row is None else str(row["name"])


def misspelled(name: str) -> str:
    """The grade a name that the table does not have is nearly the name of, or ""."""
    from difflib import get_close_matches  # only a wrong name pays for it

    key, index = _key(name), _index()
    if key in index:
        return ""
    # One letter or digit in a longer name, so that P36 is not taken for a slip of P6.
    close = get_close_matches(key, index, n=1, cutoff=0.9)
    return str(index[close[0]]["name"]) if close else ""


def names() -> tuple[str, ...]:
    """Return the names of all grades, classes included, in the order of the table."""
    return tuple(row["name"] for row in _rows())


@lru_cache(maxsize=1)
def _index() -> dict[str, dict[str, Any]]:
    """Return the rows by the key of every name and alias."""
    return {_key(name): row for row in _rows() for name in (row["name"], *row.get("aliases", ()))}


@lru_cache(maxsize=1)
def _rows() -> tuple[dict[str, Any], ...]:
    """Return the rows of the table, each followed by one row for every class it has."""
    rows: list[dict[str, Any]] = []
    for row in load("grades")["grades"]:
        rows.append(row)
        for number, changed in row.get("classes", {}).items():
            suffix = f" Class {number}"
            of_class = {key: value for key, value in row.items() if key != "classes"}
            of_class["name"] = row["name"] + suffix
            of_class["aliases"] = [alias + suffix for alias in row.get("aliases", ())]
            rows.append(of_class | changed)
    return tuple(rows)


_NOISE = re.compile(r"\b(?:ASTM|ASME)\b|\bGR(?:ADE)?(?=P?\d|\b)\.?|[\s.\-]+")
_CLASS = re.compile(r"\bCL(?:ASS)?(?=\d|\b)\.?")


def _key(name: str) -> str:
    """Return the form in which names are compared.

    Dots go too: the material number 1.7380 and the grade name 10CrMo9-10 keep their own digits.
    """
    text = re.sub(r"\bSA(?=[\s-]*\d)", "A", name.upper())
    return _NOISE.sub("", _CLASS.sub("CLASS", text))


def _suggestions(key: str) -> tuple[str, ...]:
    from difflib import get_close_matches  # only a wrong name pays for it

    index = _index()
    found = [name for name in index if key and key in name]
    found += get_close_matches(key, index, n=5, cutoff=0.6)
    return tuple(dict.fromkeys(index[name]["name"] for name in found))[:5]


def _text(fact: dict[str, str] | None, part: str, standard: str) -> Property[str] | None:
    return None if fact is None else _property(fact, fact[part], standard)


def _quantity(
    fact: dict[str, str] | None, dimension: Dimension, standard: str
) -> Property[Quantity] | None:
    if fact is None:
        return None
    also = Quantity.read(fact["also"], dimension) if "also" in fact else None
    return _property(fact, Quantity.read(fact["value"], dimension), standard, also)


def _range(fact: dict[str, str] | None, standard: str) -> Property[Interval] | None:
    if fact is None:
        return None
    span = Interval.between(fact["low"], fact["high"], TEMPERATURE)
    return _property(fact, span, standard)


def _property(
    fact: dict[str, str], value: T, standard: str, also: Quantity | None = None
) -> Property[T]:
    """Return `value` with its source; source "product" is the standard of the grade itself."""
    source = load("grades")["sources"][fact["source"]]
    if fact["source"] == "product":
        source = source | {"standard": standard}
    return Property(value, cited(source), fact["basis"], fact["confidence"], fact.get("note"), also)
