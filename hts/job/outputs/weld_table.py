"""The welds of weld lists as they were read, with what governs each: one row for each treatment."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import LENGTH, TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.joint import Derived, JointLimits
from hts.job.compiler.units import units_of
from hts.job.outputs.show import DOWN, UP, Shown
from hts.job.outputs.text import csv_text
from hts.language.model.joint import Joint, Treatment
from hts.language.rows.row_source import RowSource
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.weld_list import WeldList


class WeldTable(NamedTuple):
    """One list: heads and rows of text; `unread` are the welds that have errors.

    `power` and `pieces` are sums over the welds: kW of all zones (None where one does not say),
    and thermocouples.
    """

    listed: WeldList
    heads: tuple[str, ...]
    rows: list[tuple[str, ...]]
    unread: list[str]
    power: Fraction | None
    pieces: int


def weld_tables(case: Case) -> list[WeldTable]:
    """The lists of a specification in their order; those of used files where they are treated."""
    joints = {joint.name: joint for joint in case.joints()}
    shown = Shown(units_of(case.spec)).single()
    return [_table(case, listed, joints, shown) for listed in case.spec.weld_lists]


def _table(case: Case, listed: WeldList, joints: dict[str, Joint], shown: Shown) -> WeldTable:
    names = [name for row in listed.joints for name in row.names]
    columns = [column.head for column in listed.columns if column.leads_to is not None]
    heads = (
        "weld",
        "row",
        "like",
        *columns,
        "written over the row",
        "governing thickness",
        shown.head("heated band, total", LENGTH),
        shown.head("preheat", TEMPERATURE),
        "treatment",
        shown.head("hold from", TEMPERATURE),
        shown.head("hold to", TEMPERATURE),
        "hold time [min]",
        "hold time set by",
        "zones",
        "power [kW]",
        "thermocouples",
    )
    rows: list[tuple[str, ...]] = []
    found = [joints[name] for name in names if name in joints]
    for joint in found:
        rows += _rows(case, joint, columns, shown)
    powers = [_power(joint) for joint in found]
    return WeldTable(
        listed,
        heads,
        rows,
        [name for name in names if name not in joints],
        None if None in powers else sum((p for p in powers if p is not None), Fraction(0)),
        sum(len(joint.thermocouples) for joint in found),
    )


def _rows(case: Case, joint: Joint, columns: list[str], shown: Shown) -> Iterator[tuple[str, ...]]:
    row = joint.row
    assert row is not None
    source = row.source
    assert isinstance(source, RowSource)
    limits = case.limits(joint)
    power = _power(joint)
    first = (
        joint.name,
        str(source.number),
        row.like.name if row.like is not None else "",
        *(source.said.get(head, "") for head in columns),
        _over(joint),
        shown.wall(limits.thickness) if limits.thickness is not None else "",
        shown.bare(limits.band("heated band"), LENGTH, UP),
        shown.bare(limits.preheat(), TEMPERATURE, UP),
    )
    last = (
        str(len(joint.zones)),
        f"{float(power):.1f}" if power is not None else "",
        str(len(joint.thermocouples)),
    )
    treatments = list(case.treatments(joint))
    for treatment in treatments:
        yield (*first, *_treated(case.limits(joint, treatment), treatment, shown), *last)
    if not treatments:
        yield (*first, "", "", "", "", "", *last)


def _treated(limits: JointLimits, treatment: Treatment, shown: Shown) -> tuple[str, ...]:
    holds = [segment for segment in treatment.entry.segments if isinstance(segment, Hold)]
    if not holds:
        return (treatment.name, "", "", "", "")
    hold = holds[-1]
    range_, time = limits.hold_range(hold), limits.hold_time(hold)
    derived = limits.derived("bake time" if treatment.is_bake else "hold time", "minimum")
    return (
        treatment.name,
        shown.bare(range_.low, TEMPERATURE, UP) if range_ is not None else "",
        shown.bare(range_.high, TEMPERATURE, DOWN) if range_ is not None else "",
        _minutes(time),
        _sets(time, derived),
    )


def _minutes(time: Quantity | None) -> str:
    if time is None:
        return ""
    value = time.to("min")
    return str(-(-value.numerator // value.denominator))


def _sets(time: Quantity | None, derived: Derived | None) -> str:
    """Who sets the hold: the text where it holds longer than it has to."""
    if derived is None:
        return "stated" if time is not None else ""
    asks = derived.demand.limit.source.name
    least = derived.value
    if time is not None and isinstance(least, Quantity) and time > least:
        return f"stated; {asks} asks for {_minutes(least)} min"
    return asks


def _over(joint: Joint) -> str:
    """What is written over the row, by the words of the entries."""
    entry = joint.entry
    if joint.row is None or not entry.says("row"):
        return ""
    fields = [f for f in type(entry).fields.values() if f.name in entry.places]
    return ", ".join(" ".join(f.words) for f in fields if f.name not in ("names", "row"))


def _power(joint: Joint) -> Fraction | None:
    """kW of all zones; None where one does not say."""
    powers = [zone.entry.power for zone in joint.zones]
    if any(power is None for power in powers):
        return None
    return sum((power.to("kW") for power in powers if power is not None), Fraction(0))


def as_csv(table: WeldTable) -> str:
    """After RFC 4180, as the other tables are."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([csv_text(head) for head in table.heads])
    writer.writerows([csv_text(cell) for cell in row] for row in table.rows)
    return text.getvalue()


def summed(table: WeldTable) -> str:
    """The list in one line, its sums included."""
    listed = table.listed
    welds = len({row[0] for row in table.rows})
    revision = f", its revision {listed.revision}" if listed.revision else ""
    power = (
        f"{float(table.power):.1f} kW" if table.power is not None else "power not stated everywhere"
    )
    unread = f"; {len(table.unread)} with errors, not shown" if table.unread else ""
    return (
        f"{listed.name}: {listed.path}{revision}, {listed.rows} rows, {welds} welds; "
        f"if each had its own: {power}, {table.pieces} thermocouples{unread}"
    )
