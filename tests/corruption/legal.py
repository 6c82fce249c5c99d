"""The reviewed list of changes that change what a text says and leave it right.

`legal.yaml` gives a class of changes and the reason; a mutant that no entry fits and no finding
tells is a survivor.
"""

from __future__ import annotations

import re
from fnmatch import fnmatchcase
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import yaml

from hts.base.quantities.number import NumberError, read_number
from hts.base.text.yaml_loader import yaml_loader

FILE = Path(__file__).with_name("legal.yaml")


class Legal(NamedTuple):
    """A class of changes: where, which, from what, to what, in which files, and why it is legal.

    ``was`` and ``new`` are expressions for the text before and after, None for any. ``factor``: the
    figure has become at most so many times what it was, and at least that part of it; ``rise``:
    at most so many times instead.
    """

    fields: tuple[str, ...]
    changes: tuple[str, ...]
    files: str
    was: re.Pattern[str] | None
    new: re.Pattern[str] | None
    factor: Fraction | None
    rise: Fraction | None
    reason: str

    def fits(self, file: str, path: str, change: str, was: str, new: str) -> bool:
        return (
            any(fnmatchcase(path, field) for field in self.fields)
            and (not self.changes or change in self.changes)
            and fnmatchcase(file, self.files)
            and (self.was is None or self.was.search(was) is not None)
            and (self.new is None or self.new.search(new) is not None)
            and (self.factor is None or _near(was, new, self.factor, self.rise or self.factor))
        )


_FIGURES = re.compile(r"\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d+)?")


def _near(was: str, new: str, part: Fraction, times: Fraction) -> bool:
    """Whether every figure stays between that part of what it was and so many times it."""
    pairs = list(zip(_FIGURES.findall(was), _FIGURES.findall(new), strict=False))
    return bool(pairs) and all(_between(*pair, part, times) for pair in pairs)


def _between(was: str, new: str, part: Fraction, times: Fraction) -> bool:
    try:
        before, after = read_number(" ".join(was.split())), read_number(" ".join(new.split()))
    except (NumberError, ZeroDivisionError):
        return False
    return before / part <= after <= before * times


@lru_cache(maxsize=1)
def legal() -> tuple[Legal, ...]:
    """The list, as it lies beside this file."""
    rows = yaml.load(FILE.read_text(encoding="utf-8"), yaml_loader()) or []
    return tuple(
        Legal(
            tuple(_list(row["field"])),
            tuple(_list(row.get("change", []))),
            row.get("files", "*"),
            re.compile(row["was"]) if "was" in row else None,
            re.compile(row["new"]) if "new" in row else None,
            Fraction(str(row["factor"])) if "factor" in row else None,
            Fraction(str(row["rise"])) if "rise" in row else None,
            row["reason"],
        )
        for row in rows
    )


def _list(value: str | list[str]) -> list[str]:
    return [value] if isinstance(value, str) else value


def reason(file: str, path: str, change: str, was: str, new: str) -> str | None:
    """Why a change of this class is legal, None where the list does not have it."""
    for entry in legal():
        if entry.fits(file, path, change, was, new):
            return entry.reason
    return None
