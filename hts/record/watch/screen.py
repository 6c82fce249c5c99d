"""A view as text for a terminal, and as one line of JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from hts.base.text.json_text import json_text
from hts.checking.report.terminal import printable
from hts.job.compiler.units import Units
from hts.record.judging.words import Words, time
from hts.record.watch.alike import alike
from hts.record.watch.view import Row, View

_HEADS = (
    "tag",
    "duty",
    "zone",
    "place",
    "reading",
    "rate",
    "rate at most",
    "below top",
    "above bottom",
    "note",
)
#: Text goes left, figures right.
_LEFT = (0, 1, 2, 3, 9)
_RED, _BOLD, _PLAIN = "\033[31;1m", "\033[1m", "\033[0m"


def new(alarms: Iterable[str], known: Iterable[str]) -> Iterator[str]:
    """The alarms that were not known before: one that goes on is the same, whatever its figures."""
    told = {alike(one) for one in known}
    return (one for one in alarms if alike(one) not in told)


def text(view: View, units: Units, *, colour: bool = False, width: int | None = None) -> str:
    """The whole view; what is said in words is broken at `width` characters, the table never."""
    words = Words(units)
    bold, red, plain = (_BOLD, _RED, _PLAIN) if colour else ("", "", "")
    lines = [f"{bold}{printable(view.title)}{plain}   {view.clock}   {time(view.elapsed)} recorded"]
    if view.simulated:
        lines.append("SIMULATED: this is not the record of a real run")
    lines.append(f"now    {view.phase}")
    if view.step:
        lines.append(f"step   {printable(view.step)}")
    lines.append(f"next   {view.next}")
    if view.counted is not None:
        required = f" of {time(view.required)}" if view.required is not None else ""
        left = f", {time(view.left)} left" if view.left else ""
        ends = f", complete at {view.ends}" if view.ends else ""
        why = f": {printable(view.stands)}" if view.stands else ""
        said = f"{time(view.counted)}{required}{left}; the clock {view.clock_state}{ends}{why}"
        lines += _broken("hold   ", said, width)
    lines.append("")
    lines += _table(view.rows, words)
    lines.append("")
    for alarm in view.alarms:
        first, *rest = _broken("ALARM  ", printable(alarm), width)
        lines += [f"{red}{first[:5]}{plain}{first[5:]}", *rest]
    lines += [] if view.alarms else ["no alarm"]
    return "\n".join(lines) + "\n"


def _broken(head: str, said: str, width: int | None) -> list[str]:
    if width is None:
        return [head + said]
    indent = " " * len(head)
    return wrap(head + said, max(width, 3 * len(head)), subsequent_indent=indent)


def _table(rows: tuple[Row, ...], words: Words) -> list[str]:
    cells = [_HEADS, *(_cells(row, words) for row in rows)]
    widths = [max(len(row[index]) for row in cells) for index in range(len(_HEADS))]
    return [
        "  ".join(
            cell.ljust(width) if index in _LEFT else cell.rjust(width)
            for index, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in cells
    ]


def _cells(row: Row, words: Words) -> tuple[str, ...]:
    def shown(value: float | None, show: str) -> str:
        return "" if value is None else str(getattr(words, show)(value))

    return (
        printable(row.tag),
        row.duty,
        printable(row.zone),
        printable(row.place),
        shown(row.reading, "temperature") or "none",
        shown(row.rate, "rate"),
        shown(row.rate_limit, "rate"),
        shown(row.below_top, "difference"),
        shown(row.above_bottom, "difference"),
        printable(row.note),
    )


def line(view: View) -> str:
    """One JSON object on one line; temperatures degC, differences K, rates K/h, times s."""
    document = {**view._asdict(), "rows": [row._asdict() for row in view.rows]}
    return json_text(document, indent=None)
