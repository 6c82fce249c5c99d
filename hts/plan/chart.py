"""The plan as a chart: heats on their controllers, power and recorder channels over time.

A plan of more than a week is drawn week by week, so that each heat can carry its number.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from html import escape
from typing import NamedTuple

from hts.job.outputs.text import visible
from hts.plan.crews import stints
from hts.plan.load import Load, loads
from hts.plan.proposal import Plan
from hts.plan.timetable import Slot

_DAY = 86_400
_WEEK = 7 * _DAY
#: Of the drawing: its width, where time begins and ends, and heights of a row of bars, of a curve,
#: and of what stands above the rows of a panel.
_WIDE, _LEFT, _RIGHT = 1100, 130, 10
_ROW, _CURVE, _TOP, _HEAD = 26, 40, 40, 24
#: Width of a letter of the numbers in the bars, and its size.
_LETTER, _SIZE = 6.0, 10
_AROUND, _PROGRAM, _LATE, _NOBODY = "#ddd", "#0072b2", "#d55e00", "#eee"
_LEGEND = (
    (_AROUND, "set up, cooled off and taken down"),
    (_PROGRAM, "program"),
    (_LATE, "program that begins too late (!)"),
    (_NOBODY, "nobody is there"),
)


class _Panel(NamedTuple):
    """A stretch of the plan, in seconds, and the slots that lie in it."""

    begin: int
    end: int
    slots: list[tuple[int, Slot]]

    def x(self, at: int) -> float:
        at = min(max(at, self.begin), self.end)
        span = max(self.end - self.begin, 1)
        return round(_LEFT + (_WIDE - _LEFT - _RIGHT) * (at - self.begin) / span, 1)


def chart(plan: Plan) -> str:
    """SVG with a panel for each week. Equal plans give equal bytes."""
    parts: list[str] = []
    y = _HEAD
    for panel in _panels(plan):
        drawn, height = _panel(plan, panel, y)
        parts += drawn
        y += height
    title = f"Plan of heats, {plan.job.document.number} revision {plan.job.document.revision}"
    told = f"{title}: a proposal"
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE} {y + _HEAD}" '
        f'font-family="sans-serif" font-size="12"><title>{_text(told)}</title>'
        f'<rect width="{_WIDE}" height="{y + _HEAD}" fill="#fff"/>'
        f'<text x="4" y="16" font-weight="bold">{_text(told)}</text>'
    )
    return "".join([head, *parts, *_legend(plan, y + 15), "</svg>\n"])


def _panels(plan: Plan) -> Iterator[_Panel]:
    """One for a plan of a week or less; else one from midnight to midnight for each week."""
    numbered = list(enumerate(plan.table.slots, 1))
    end = max(plan.table.end, 1)
    if end <= _WEEK:
        yield _Panel(0, end, numbered)
        return
    for midnight in range(-plan.terms.clock, end, _WEEK):
        begin, until = max(midnight, 0), midnight + _WEEK
        yield _Panel(
            begin, until, [(n, s) for n, s in numbered if s.begin < until and s.end > begin]
        )


def _panel(plan: Plan, panel: _Panel, top: int) -> tuple[list[str], int]:
    """The drawing of a stretch, and how high it is."""
    controllers = sorted({slot.heat.first.controller.name for _, slot in panel.slots})
    curves = list(_curves(panel))
    first = top + _TOP
    foot = first + _ROW * len(controllers) + _CURVE * len(curves)
    parts = [*_nobody(plan, panel, first - 6, foot), *_days(plan, panel, first, foot)]
    rows = {name: first + _ROW * n for n, name in enumerate(controllers)}
    for name, y in rows.items():
        parts.append(f'<text x="4" y="{y + 17}">{_text(name or "no controller")}</text>')
    for number, slot in panel.slots:
        parts += _bars(plan, panel, number, slot, rows[slot.heat.first.controller.name])
    for n, curve in enumerate(curves):
        parts += _curve(panel, curve, first + _ROW * len(controllers) + _CURVE * n)
    return parts, foot - top


def _days(plan: Plan, panel: _Panel, first: int, foot: int) -> Iterator[str]:
    """A line at each midnight, and one where the plan begins."""
    clock = plan.terms.clock
    end = min(panel.end, plan.table.end)
    marks = [at for at in range(-clock, end, _DAY) if at >= panel.begin]
    words = {at: plan.at(at).rpartition(" ")[0] for at in marks}
    if panel.begin not in words:
        begins = plan.at(panel.begin)
        room = panel.x(marks[0]) - _LEFT if marks else _WIDE
        words[panel.begin] = begins if room > _LETTER * 1.3 * len(begins) else begins[-5:]
    for at, word in sorted(words.items()):
        x = panel.x(at)
        yield (
            f'<path d="M{x} {first - 6}V{foot}" stroke="#bbb"/>'
            f'<text x="{x}" y="{first - 12}">{_text(word)}</text>'
        )


def _nobody(plan: Plan, panel: _Panel, top: int, foot: int) -> Iterator[str]:
    if not plan.terms.shifts:
        return
    for stint in stints(plan.terms.shifts, plan.terms.clock, max(plan.table.end, 1)):
        if stint.heats or stint.end <= panel.begin or stint.begin >= panel.end:
            continue
        x, width = panel.x(stint.begin), round(panel.x(stint.end) - panel.x(stint.begin), 1)
        yield (
            f'<rect x="{x}" y="{top}" width="{width}" height="{foot - top}" fill="{_NOBODY}">'
            "<title>nobody is there</title></rect>"
        )


def _bars(plan: Plan, panel: _Panel, number: int, slot: Slot, y: int) -> Iterator[str]:
    """A heat: what is around its program, its program, and its number with the joints as far as
    they have room."""
    joints = ", ".join(name for unit in slot.heat.units for name in unit.joints)
    told = f"heat {number}: {joints}, {slot.heat.first.treatment}, {plan.at(slot.start)}"
    for begin, finish, fill in (
        (slot.begin, slot.end, _AROUND),
        (slot.start, slot.finish, _LATE if slot.late else _PROGRAM),
    ):
        if finish <= panel.begin or begin >= panel.end:
            continue
        x = panel.x(begin)
        width = max(1.0, round(panel.x(finish) - x, 1))
        yield (
            f'<rect x="{x}" y="{y + 3}" width="{width}" height="{_ROW - 6}" fill="{fill}" '
            f'stroke="#333" stroke-width=".4"><title>{_text(told)}</title></rect>'
        )
    left, right = panel.x(slot.start), panel.x(slot.finish)
    short = f"{number}!" if slot.late else str(number)
    words = next(
        (each for each in (f"{short}: {joints}", short) if len(each) * _LETTER <= right - left), ""
    )
    if words:
        yield (
            f'<text x="{round((left + right) / 2, 1)}" y="{y + 17}" font-size="{_SIZE}" '
            f'text-anchor="middle" fill="#fff">{_text(words)}</text>'
        )


class _Curve(NamedTuple):
    """A machine, what is used of it over time, and the most there is: None where it is not said."""

    name: str
    unit: str
    over_time: list[Load]
    of: Callable[[Load], int]
    most: int | None


def _curves(panel: _Panel) -> Iterator[_Curve]:
    slots = [slot for _, slot in panel.slots]
    supplies = {slot.heat.first.supply.name: slot.heat.first.supply for slot in slots}
    for name, machine in sorted(supplies.items()):
        those = [slot for slot in slots if slot.heat.first.supply.name == name]
        yield _Curve(
            name or "no supply", "kW", loads(those), lambda load: load.watts, machine.watts
        )
    recorders = {slot.heat.first.recorder.name: slot.heat.first.recorder for slot in slots}
    for name, machine in sorted(recorders.items()):
        those = [slot for slot in slots if slot.heat.first.recorder.name == name]
        yield _Curve(
            name or "no recorder", "channels", loads(those), lambda load: load.inputs,
            machine.channels,
        )  # fmt: skip


def _curve(panel: _Panel, curve: _Curve, y: int) -> Iterator[str]:
    """Steps of what is used, up to a dashed line at all there is."""
    used = max((curve.of(load) for load in curve.over_time), default=0)
    most = max(used, curve.most or 0, 1)
    foot, high = y + _CURVE - 4, _CURVE - 10

    def level(value: int) -> float:
        return round(foot - high * value / most, 1)

    yield f'<text x="4" y="{y + 17}">{_text(curve.name)}</text>'
    amount = f"{_figure(used, curve.unit)} {curve.unit} of an output not stated"
    if curve.most is not None or curve.unit != "kW":
        most_of = "" if curve.most is None else f" of {_figure(curve.most, curve.unit)}"
        amount = f"{_figure(used, curve.unit)}{most_of} {curve.unit}"
    yield f'<text x="4" y="{y + 31}" font-size="{_SIZE}">{_text(amount)}</text>'
    for begin, end, value in _steps(curve):
        if end <= panel.begin or begin >= panel.end or not value:
            continue
        x, top = panel.x(begin), level(value)
        width, height = round(panel.x(end) - x, 1), round(foot - top, 1)
        yield f'<rect x="{x}" y="{top}" width="{width}" height="{height}" fill="#999"/>'
    yield f'<path d="M{_LEFT} {foot}H{_WIDE - _RIGHT}" stroke="#333" stroke-width=".6"/>'
    if curve.most:
        yield (
            f'<path d="M{_LEFT} {level(curve.most)}H{_WIDE - _RIGHT}" stroke="#333" '
            'stroke-width=".6" stroke-dasharray="4 3"/>'
        )


def _steps(curve: _Curve) -> list[tuple[int, int, int]]:
    """Begin, end and value of each stretch on which as much is used."""
    found: list[tuple[int, int, int]] = []
    for load in curve.over_time:
        value = curve.of(load)
        if found and found[-1][1:] == (load.begin, value):
            found[-1] = (found[-1][0], load.end, value)
        else:
            found.append((load.begin, load.end, value))
    return found


def _figure(value: int, unit: str) -> str:
    return f"{value / 1000:g}" if unit == "kW" else str(value)


def _legend(plan: Plan, y: int) -> Sequence[str]:
    parts, x = [], _LEFT
    for fill, words in _LEGEND:
        if (fill == _LATE and not plan.table.late) or (fill == _NOBODY and not plan.terms.shifts):
            continue
        parts.append(
            f'<rect x="{x}" y="{y - 9}" width="12" height="10" fill="{fill}" stroke="#333" '
            f'stroke-width=".4"/><text x="{x + 17}" y="{y}" font-size="{_SIZE}">'
            f"{_text(words)}</text>"
        )
        x += 40 + int(len(words) * _LETTER)
    parts.append(
        f'<text x="{x}" y="{y}" font-size="{_SIZE}">- - - all there is; beside the name the most '
        "that is used</text>"
    )
    return parts


def _text(text: str) -> str:
    return escape(visible(text), quote=True)
