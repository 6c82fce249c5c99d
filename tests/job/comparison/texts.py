"""Specifications to compare: the good ones, and the same changed in one way."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache, lru_cache
from pathlib import Path
from random import Random

from hts.base.findings import Report
from hts.base.quantities.number import decimal_text, exact_places
from hts.base.text import Source
from hts.generate import ROOT
from hts.job.comparison import Change, Comparison, compare
from hts.job.comparison.change_kinds import WAIVED
from hts.job.comparison.registry import MIRROR
from hts.language.layout import settled
from hts.language.model import Spec
from hts.syntax import parse
from tests.texts import examples

SPECS = sorted(Path(ROOT, "specs").glob("*.hts"))
LIBRARIES = sorted(Path(ROOT, "specs", "library").glob("*.hts"))
GOOD = [*SPECS, *LIBRARIES]
RIGHT = sorted(Path(ROOT, "tests", "specs", "right").glob("*.hts"))
#: Without the weld list, whose 120 welds take long to compare.
FEW = [path for path in GOOD if path.stem != "turnaround-list"]

_loader = examples()


def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def spec(path: Path, text: str | None = None) -> Spec:
    """A specification at a path, with its own text or another one."""
    return _as_it_is(path) if text is None else _read(path, text)


@lru_cache(maxsize=8)
def _read(path: Path, text: str) -> Spec:
    """Read, and judged, once for what is compared with it in a row."""
    return Spec(Source(text, _loader.name(str(path)), str(path)), _loader)


@cache
def _as_it_is(path: Path) -> Spec:
    """Read once for all that is compared with it."""
    return _read(path, text_of(path))


def changed(path: Path, *replacements: tuple[str, str]) -> Comparison:
    """The good specification at a path compared with the same after some replacements, and the
    other way round."""
    text = text_of(path)
    for old, new in replacements:
        assert old in text, old
        text = text.replace(old, new)
    return both_ways(path, text)


def named(name: str) -> Path:
    return next(path for path in (*GOOD, *RIGHT) if path.stem == name)


def one(comparison: Comparison, kind: str) -> Change:
    """The one change of a kind `area/kind`."""
    found = [c for c in comparison.changes if f"{c.area}/{c.kind}" == kind]
    assert len(found) == 1, [f"{c.area}/{c.kind} {c.address}" for c in comparison.changes]
    return found[0]


def kinds(comparison: Comparison) -> list[str]:
    return [f"{c.area}/{c.kind} {c.action} {c.verdict}" for c in comparison.changes]


_ONE_WAY = {(waived.area, waived.kind) for waived in WAIVED}


def both_ways(path: Path, new: str, old: str | None = None) -> Comparison:
    """The comparison of two texts, after a look at its mirror."""
    before, after = spec(path, old), spec(path, new)
    there, back = compare(before, after), compare(after, before)
    assert _mutual(_outlined(back)) == _mutual(_mirrored(there)), (old, new)
    return there


def _mutual(found: set[tuple[object, ...]]) -> set[tuple[object, ...]]:
    return {each for each in found if each[:2] not in _ONE_WAY}


def _outlined(comparison: Comparison) -> set[tuple[object, ...]]:
    """What changed, without verdicts and words."""
    return {
        _outline(change, change.action, change.old, change.new) for change in comparison.changes
    }


def _mirrored(comparison: Comparison) -> set[tuple[object, ...]]:
    """The outline the sides must give when they change places."""
    return {
        _outline(change, MIRROR[change.action], change.new, change.old)
        for change in comparison.changes
    }


def _outline(change: Change, action: str, old: object, new: object) -> tuple[object, ...]:
    sides = [side and (side.address, side.value) for side in (old, new)]  # type: ignore[attr-defined]
    return (change.area, change.kind, change.path, action, *sides)


# The same said differently -----------------------------------------------------------------------


def laid_out(text: str) -> str:
    """After `hts fmt`."""
    made = settled(Source(text, "text"), Report())
    assert made is not None
    return made


#: Unit -> another unit, and how many of it one is.
_UNITS = {
    "mm": ("cm", Fraction(1, 10)),
    "m": ("mm", Fraction(1000)),
    "cm": ("mm", Fraction(10)),
    "h": ("min", Fraction(60)),
    "min": ("s", Fraction(60)),
    "s": ("min", Fraction(1, 60)),
    "d": ("h", Fraction(24)),
    "K": ("degF", Fraction(9, 5)),
    "degC/h": ("degF/h", Fraction(9, 5)),
    "kW": ("W", Fraction(1000)),
    "kVA": ("W", Fraction(1000)),
    "W/cm2": ("kW/m2", Fraction(10)),
    "J": ("kJ", Fraction(1, 1000)),
    "V": ("mV", Fraction(1000)),
    "A": ("mA", Fraction(1000)),
    "Mohm": ("kohm", Fraction(1000)),
}
_NUMBER = r"(?<![\w.:-])(\d+(?:\.\d+)?)"
_COMPOUND = re.compile(r"\b(\d+) h (\d+) min\b")
_RANGE = re.compile(_NUMBER + r"( \.\. )(\d+(?:\.\d+)?) (degC|mm)(?![\w/*\0])")
_TOLERANCE = re.compile(_NUMBER + r"( \+/- )(\d+(?:\.\d+)?) (degC)(?![\w/*\0])")
_ERROR = re.compile(r"(\+/- )(\d+(?:\.\d+)?) (degC)(?![\w/*\0])")
_POINT = re.compile(_NUMBER + r" (degC)(?![\w/*\0])")
_OTHER = re.compile(_NUMBER + r" (" + "|".join(map(re.escape, _UNITS)) + r")(?![\w/*\0])")


def converted(text: str) -> str:
    """Every quantity in another unit, exactly; texts in quotes and comments stay."""
    pieces = re.split(r'("(?:\\.|[^"\\])*"|#[^\n]*)', text)
    return "".join(piece if at % 2 else _converted(piece) for at, piece in enumerate(pieces))


def _converted(piece: str) -> str:
    piece = _COMPOUND.sub(lambda m: f"{60 * int(m[1]) + int(m[2])} min\0", piece)
    # A mark keeps what is done from being done again.
    for pattern, change in (
        (_RANGE, _range),
        (_TOLERANCE, _tolerance),
        (_ERROR, lambda m: f"{m[1]}{_times(m[2], Fraction(9, 5))} degF\0"),
        (_POINT, lambda m: f"{_fahrenheit(m[1])} degF\0"),
        (_OTHER, _other),
    ):
        piece = pattern.sub(change, piece)
    return piece.replace("\0", "")


def _range(found: re.Match[str]) -> str:
    low, high, unit = found[1], found[3], found[4]
    if unit == "mm":
        return f"{_times(low, Fraction(1, 10))} .. {_times(high, Fraction(1, 10))} cm\0"
    return f"{_fahrenheit(low)} .. {_fahrenheit(high)} degF\0"


def _tolerance(found: re.Match[str]) -> str:
    return f"{_fahrenheit(found[1])} +/- {_times(found[3], Fraction(9, 5))} degF\0"


def _other(found: re.Match[str]) -> str:
    unit, factor = _UNITS[found[2]]
    value = Fraction(found[1]) * factor
    if exact_places(value) is None:
        return found[0]
    return f"{_times(found[1], factor)} {unit}\0"


def _fahrenheit(number: str) -> str:
    return _decimal(Fraction(number) * Fraction(9, 5) + 32)


def _times(number: str, factor: Fraction) -> str:
    return _decimal(Fraction(number) * factor)


def _decimal(value: Fraction) -> str:
    places = exact_places(value)
    assert places is not None
    return decimal_text(value, places, "nearest")


def reordered(text: str, random: Random) -> str:
    """Entries in another order wherever order says nothing: not the steps of a treatment nor the
    revisions of a history, and the version stays first."""
    source = Source(text, "text")
    report = Report()
    tree = parse(source, report)
    assert not report.findings
    first, *rest = tree.entries
    random.shuffle(rest)
    return "\n".join(_entry(source, entry, random) for entry in (first, *rest)) + "\n"


def _entry(source: Source, entry: object, random: Random) -> str:
    head = source.text[entry.start : entry.items[-1].end]  # type: ignore[attr-defined]
    block = entry.block  # type: ignore[attr-defined]
    if block is None:
        return head
    inner = list(block.entries)
    places = [
        at
        for at, each in enumerate(inner)
        if getattr(each.items[0], "text", "") not in ("heat", "hold", "cool") and head != "history"
    ]
    moved = [inner[at] for at in places]
    random.shuffle(moved)
    for at, each in zip(places, moved, strict=True):
        inner[at] = each
    lines = "\n".join(_entry(source, each, random) for each in inner)
    return f"{head} {{\n{lines}\n}}"
