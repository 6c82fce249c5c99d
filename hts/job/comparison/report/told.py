"""What every report tells, and in which order."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities.number import short_text
from hts.job.comparison.approvals import Approval, Judged
from hts.job.comparison.change import Change, Side
from hts.job.comparison.compare import Comparison
from hts.job.comparison.direction import amount
from hts.job.comparison.registry import VERDICTS
from hts.language.rows.table_source import TableSource

ABSENT = "no such file"
_PLACES = 3
#: Treatments that are named.
_MOST = 3
_MOST_PLACES = 12


class Told(NamedTuple):
    """A change, the addresses it is the same at, and the approval it has."""

    change: Change
    also: tuple[str, ...]
    approval: Approval | None


def told(judged: Judged) -> list[Told]:
    """The changes, the worst first; what is the same for several joints is told once."""
    groups: dict[tuple[object, ...], list[Change]] = {}
    for change in judged.comparison.changes:
        groups.setdefault(_sameness(change, judged), []).append(change)
    found = [
        Told(first, tuple(c.address for c in more), judged.approval(first))
        for first, *more in groups.values()
    ]
    return sorted(found, key=lambda t: VERDICTS.index(t.change.verdict))


def _sameness(change: Change, judged: Judged) -> tuple[object, ...]:
    sides = [side and (side.text, _where(side)) for side in (change.old, change.new)]
    return (change.path, change.action, change.verdict, change.reason, *sides,
            judged.approval(change))  # fmt: skip


def _where(side: Side) -> object:
    """The place of a side; of one in a weld list its column, which says the same of every row."""
    source = side.place.source if side.place is not None else None
    if side.place is not None and isinstance(source, TableSource):
        return source.name, source.column_at(side.place.start)
    return side.place


#: What the actions come to where a qualification is asked.
_COVER = {"added": "no longer covered", "removed": "covered again", "changed": "not covered"}
#: What the actions come to where a check finds something on one side alone.
_CHECK = {"added": "now not met", "removed": "met again"}
#: Kinds that say all by themselves.
_STATES = ("revision kept", "silent history", "unreadable text")


def kind(change: Change) -> str:
    """Kind and action in words: hold time tightened, or zone (power) moved."""
    if change.area == "limit":
        return f"{change.path}: {change.kind} {change.action}"
    if change.area == "requalification":
        undecided = change.kind.endswith("undecided")
        way = change.action if undecided else _COVER[change.action]
        return f"qualification: {change.kind} {way}".replace("undecided added", "undecided")
    if change.area == "check":
        return f"{change.kind} {_CHECK[change.action]}"
    if change.kind in _STATES:
        return change.kind
    part = f" ({change.part})" if change.part else ""
    return f"{change.kind}{part} {change.action}"


def texts(change: Change) -> tuple[str, str]:
    """Both sides as written. Where they are in different units that the text does not show
    together, or read the same, each with its value in the same unit, to the place they differ."""
    old, new = change.old, change.new
    if old is None or new is None:
        return (old.text if old else "", new.text if new else "")
    before, after = amount(old.value), amount(new.value)
    if before is None or after is None or "(" in f"{old.text}{new.text}":
        return old.text, new.text
    if _unit(old) == _unit(new) and (old.text != new.text or before == after):
        return old.text, new.text
    first, second = _apart(before, after)
    return _with(old.text, first), _with(new.text, second)


def _with(text: str, value: str) -> str:
    """What was written, and its value where that does not stand there already."""
    return text if f" {text}".endswith(f" {value}") else f"{text} (= {value})"


def _apart(first: tuple[Fraction, str], second: tuple[Fraction, str]) -> tuple[str, str]:
    """Two amounts, with so many places that they can be told apart."""
    for places in range(_PLACES, _MOST_PLACES):
        found = _readable(*first, places), _readable(*second, places)
        if found[0] != found[1]:
            return found
    return _readable(*first, _MOST_PLACES), _readable(*second, _MOST_PLACES)


def _readable(number: Fraction, unit: str, places: int) -> str:
    if unit == "s":
        number, unit = number / 60, "min"
    return f"{short_text(number, places)} {unit}".rstrip()


def _unit(side: Side) -> str:
    return " ".join(word for word in side.text.split() if not word[:1].isdigit())


def place(side: Side | None) -> str:
    """`file:line:column` of a side; empty where it is worked out."""
    if side is None or side.place is None:
        return ""
    source = side.place.source
    line, column = source.position(side.place.start)
    return f"{source.name}:{line}:{column}"


def names(comparison: Comparison) -> tuple[str, str]:
    """What the two sides are called."""
    old, new = (name if name is not None else ABSENT for name in comparison.names)
    return old, new


def summary(judged: Judged) -> str:
    """How much of each there is, in one line."""
    found = told(judged)
    parts = []
    for verdict in VERDICTS:
        count = sum(1 for t in found if t.change.verdict == verdict and t.approval is None)
        if count:
            parts.append(f"{count} {_plural(verdict, count)}")
    approved = sum(1 for t in found if t.approval is not None)
    if approved:
        parts.append(f"{approved} approved")
    said = ", ".join(parts) or "no change"
    if other := judged.comparison.representations:
        kinds = ", ".join(dict.fromkeys(each.what for each in other))
        said += f"; {len(other)} written differently only ({kinds})"
    if judged.comparison.unpredicted:
        said += f"; {not_predicted(judged.comparison)}"
    return said


def not_predicted(comparison: Comparison) -> str:
    """Words for the predictions that are asked for and were not made."""
    asked = comparison.unpredicted
    more = f" and {len(asked) - _MOST} more" if len(asked) > _MOST else ""
    named = f"{', '.join(asked[:_MOST])}{more}"
    return f"predictions of {named} are not compared: a check makes them"


def _plural(verdict: str, count: int) -> str:
    return "notes" if verdict == "note" and count > 1 else verdict
