"""The zones and readings of a run on the joint unrolled, large enough for two metres."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from hts.language.model.seam import SIDES, Pad, Seam, weld_along
from hts.paper.drawings.zones import packed, pieces
from hts.view.desk_words import is_named
from hts.view.markup import Html, Part, html, tag

if TYPE_CHECKING:
    from hts.record.judging.words import Words
    from hts.record.plan import Plan
    from hts.record.watch import Row, View

_WIDE, _LEFT, _TURN = 1600.0, 20.0, 360.0
_ENDS = {-1: "upstream or below", 0: "on the weld", 1: "downstream or above"}
_CLOCK = "Clock positions across, as the joint is viewed. Not to scale along the pipe."
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
    weld = weld_along(plan.sheet.joint)
    placed = list(_spots(plan, view))
    parts: list[Part] = []
    for quarter in range(5):
        anchor = "start" if quarter == 0 else "end" if quarter == 4 else "middle"
        told = f"{quarter * 3 or 12}:00" if weld is None else f"{weld.length * quarter / 4:.0f} mm"
        parts.append(_text(_x(quarter * 90.0), 28, told, 26, anchor))
    y = _TOP
    for row in _rows(plan, weld):
        for name, arcs in row:
            off = any(r.zone == name and _is_off(r, view) for r in view.rows)
            parts += [_zone(name, start, end, y, off) for start, end in arcs]
        y += _ZONE + 8
    sides = sorted({spot.side for spot in placed})
    for side in sides:
        here = [spot for spot in placed if spot.side == side]
        label = _ENDS[side] if weld is None or not side else _beside(plan)[side < 0]
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
    note = tag("p", _CLOCK if weld is None else f"Along the weld across, from {weld.start}.")
    return html(tag("div", drawn, class_="paper"), note)


def _beside(plan: Plan) -> tuple[str, str]:
    """The sides of a weld whose places are told along it."""
    return SIDES[plan.sheet.joint.entry.kind or ""]


def _rows(plan: Plan, weld: Seam | Pad | None) -> list[list[tuple[str, list[tuple[float, float]]]]]:
    """Zones in rows, each with what it heats as degrees of the whole width."""
    joint = plan.sheet.joint
    if weld is None:
        return [[(zone.name, pieces(zone)) for zone in row] for row in packed(joint.zones).rows]
    row = []
    for zone in joint.zones:
        part = zone.entry.along
        if part is not None and part.low is not None and part.high is not None:
            ends = (float(end.value) / weld.length * _TURN for end in (part.low, part.high))
            row.append((zone.name, [(next(ends), next(ends))]))
        else:
            row.append((zone.name, [(0.0, float(_TURN))]))
    return [row]


def _spots(plan: Plan, view: View) -> Iterator[_Spot]:
    rows = {row.tag: row for row in view.rows}
    weld = weld_along(plan.sheet.joint)
    for thermocouple in plan.watched:
        row = rows.get(thermocouple.tag)
        turn, along = thermocouple.clock, thermocouple.source.along
        if weld is not None:
            turn = None if along is None else float(along.value) / weld.length * _TURN
        if row is None or turn is None:
            continue
        if row.duty == "spare" and not thermocouple.required:
            continue
        axial = thermocouple.axial
        side = 0 if thermocouple.source.on_weld or not axial else 1 if axial > 0 else -1
        if side and weld is not None and thermocouple.source.offset is not None:
            side = 1 if thermocouple.source.offset.side == _beside(plan)[0] else -1
        yield _Spot(row, _x(turn), side)


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
