"""The zones and readings of a run on the joint unrolled, large enough for two metres."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from hts.paper.drawings.zones import packed, pieces
from hts.view.desk_words import is_named
from hts.view.markup import Html, Part, html, tag

if TYPE_CHECKING:
    from hts.record.judging.words import Words
    from hts.record.plan import Plan
    from hts.record.watch import Row, View

_WIDE, _LEFT, _TURN = 1600.0, 20.0, 360.0
_ZONE, _ROW, _TOP = 46.0, 104.0, 40.0
#: Less room than this across, and one reading stands below the other.
_ROOM = 240.0


class _Spot(NamedTuple):
    row: Row
    x: float
    side: int


def desk_map(plan: Plan, view: View, words: Words) -> Html:
    """Clock positions across, zones above, readings where their thermocouples sit: on one side of
    the weld, on it, on the other. Spares that are not called for are left out."""
    strip = packed(plan.sheet.joint.zones)
    placed = list(_spots(plan, view))
    parts: list[Part] = []
    for hour in range(0, 13, 3):
        x = _x(hour * 30.0)
        anchor = "start" if hour == 0 else "end" if hour == 12 else "middle"
        parts.append(_text(x, 28, f"{hour or 12}:00", 26, anchor))
    y = _TOP
    for row in strip.rows:
        for zone in row:
            off = any(r.zone == zone.name and _is_off(r, view) for r in view.rows)
            for start, end in pieces(zone):
                parts.append(_zone(zone.name, start, end, y, off))
        y += _ZONE + 8
    sides = sorted({spot.side for spot in placed})
    for side in sides:
        here = [spot for spot in placed if spot.side == side]
        label = {-1: "upstream or below", 0: "on the weld", 1: "downstream or above"}[side]
        levels = _levels(here)
        height = _ROW * (max(levels.values(), default=0) + 1)
        dash = None if side == 0 else "2 10"
        parts.append(
            tag(
                "line",
                x1=str(_LEFT),
                x2=str(_WIDE - _LEFT),
                y1=f"{y + 8:g}",
                y2=f"{y + 8:g}",
                stroke="#555",
                stroke_width="2",
                stroke_dasharray=dash,
            )
        )
        parts.append(_text(_WIDE - _LEFT, y + 32, label, 20, "end"))
        for spot in here:
            parts.append(_reading(spot, y + 62 + _ROW * levels[spot.row.tag], view, words))
        y += height + 26
    drawn = tag("svg", *parts, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {_WIDE:g} {y:g}",
                role="img", aria_label=_said(placed, words),
                font_family="'Noto Sans', sans-serif")  # fmt: skip
    note = tag("p", "Clock positions across, as the joint is viewed. Not to scale along the pipe.")
    return html(tag("div", drawn, class_="paper"), note)


def _spots(plan: Plan, view: View) -> Iterator[_Spot]:
    rows = {row.tag: row for row in view.rows}
    for thermocouple in plan.watched:
        row = rows.get(thermocouple.tag)
        if row is None or thermocouple.clock is None:
            continue
        if row.duty == "spare" and not thermocouple.required:
            continue
        axial = thermocouple.axial or 0.0
        side = 0 if thermocouple.source.on_weld or not axial else 1 if axial > 0 else -1
        yield _Spot(row, _x(thermocouple.clock), side)


def _levels(spots: list[_Spot]) -> dict[str, int]:
    """Thermocouple -> how far down it stands, so that no reading covers another."""
    ends: list[float] = []
    found: dict[str, int] = {}
    for spot in sorted(spots, key=lambda each: each.x):
        left = min(max(spot.x, _LEFT), _WIDE - _ROOM)
        level = next((at for at, end in enumerate(ends) if end <= left), len(ends))
        ends[level : level + 1] = [left + _ROOM]
        found[spot.row.tag] = level
    return found


def _reading(spot: _Spot, y: float, view: View, words: Words) -> Html:
    row = spot.row
    x = min(max(spot.x, _LEFT), _WIDE - _ROOM)
    shown = "no reading" if row.reading is None else words.temperature(row.reading, places=0)
    off = _is_off(row, view)
    sign = "▲" if off else "●"
    colour = "#a3220b" if off else "#14603b"
    return html(
        _text(x, y, f"{sign} {row.tag}", 26, "start", colour),
        _text(x, y + 44, shown, 46, "start", bold=True),
    )


def _zone(name: str, start: float, end: float, y: float, off: bool) -> Html:
    x, wide = _x(start) + 2, _x(end) - _x(start) - 4
    box = tag("rect", x=f"{x:g}", y=f"{y:g}", width=f"{wide:g}", height=f"{_ZONE:g}", fill="#fff",
              stroke="#a3220b" if off else "#555", stroke_width="6" if off else "2")  # fmt: skip
    words = f"▲ {name}" if off else name
    return html(box, _text(x + wide / 2, y + 33, words[: int(wide // 15)], 26, "middle"))


def _text(
    x: float, y: float, words: str, size: int, anchor: str, colour: str = "#1c2023",
    bold: bool = False,
) -> Html:  # fmt: skip
    return tag("text", words, x=f"{x:g}", y=f"{y:g}", font_size=str(size), text_anchor=anchor,
               fill=colour, font_weight="700" if bold else None)  # fmt: skip


def _x(degrees: float) -> float:
    return _LEFT + (_WIDE - 2 * _LEFT) * degrees / _TURN


def _is_off(row: Row, view: View) -> bool:
    return bool(row.note) or is_named(row, view)


def _said(placed: list[_Spot], words: Words) -> str:
    told = (
        f"{s.row.tag} {'no reading' if s.row.reading is None else words.temperature(s.row.reading)}"
        for s in placed
    )
    return f"Readings on the joint unrolled: {', '.join(told)}"
