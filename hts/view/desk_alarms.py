"""The alarms of a run: those that say the same of several thermocouples in one line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Set
from typing import TYPE_CHECKING, NamedTuple

from hts.view.markup import Html, each, html, tag

if TYPE_CHECKING:
    from hts.record.watch import View

#: Lines that stand above the readings; the others stand below them, so that no alarm ever pushes
#: the figures off the screen.
FIRST = 3
_NUMBER = re.compile(r"(?<![\w.:-])-?\d+(?:\.\d+)?(?![\w:]|\.\d)")


class Gathered(NamedTuple):
    """Alarms that say the same: of which thermocouples, in which words; `alarms` are as told."""

    tags: tuple[str, ...]
    words: str
    alarms: tuple[str, ...]


def gathered(alarms: Iterable[str], tags: Set[str]) -> list[Gathered]:
    """In the order of the first of each; what begins with no thermocouple stands by itself."""
    groups: dict[tuple[bool, str], list[tuple[str, str]]] = {}
    for alarm in alarms:
        first, _, rest = alarm.partition(" ")
        known = first in tags
        key = (True, _NUMBER.sub("0", rest)) if known else (False, alarm)
        groups.setdefault(key, []).append((first, rest) if known else ("", alarm))
    return [
        Gathered(
            tuple(first for first, _ in group if first),
            _spread([rest for _, rest in group]),
            tuple(f"{first} {rest}".strip() for first, rest in group),
        )
        for group in groups.values()
    ]


def _spread(texts: list[str]) -> str:
    """Texts that differ in numbers alone as one: lowest and highest where they differ."""
    columns = zip(*(_NUMBER.findall(text) for text in texts), strict=True)
    shown = []
    for column in columns:
        low, high = min(column, key=float), max(column, key=float)
        shown.append(low if float(low) == float(high) else f"{low} to {high}")
    parts = _NUMBER.split(texts[0])
    return "".join(text + number for text, number in zip(parts, [*shown, ""], strict=True))


def count(view: View) -> str:
    """How many, for the head of the part."""
    return f"Alarms: {len(view.alarms) or 'none'}"


def lines(view: View, *, first: bool) -> Html:
    """The lines above the readings, or those below; nothing where there are no more."""
    found = gathered(view.alarms, {row.tag for row in view.rows})
    if not found:
        return tag("p", "● no alarm", class_="large clean") if first else Html("")
    shown = found[:FIRST] if first else found[FIRST:]
    below = sum(len(one.alarms) for one in found[FIRST:])
    more = f"{below} more below the readings" if first and below else ""
    return html(
        tag("ul", *(tag("li", tag("span", "▲ ", class_="alarm"), _line(one)) for one in shown))
        if shown
        else None,
        tag("p", tag("a", more, href="#more-alarms"), class_="large") if more else None,
    )


def _line(one: Gathered) -> Html:
    from hts.record.watch.alike import alike

    named = [
        tag("span", name, data_alarm=alike(alarm))
        for name, alarm in zip(one.tags, one.alarms, strict=False)
    ]
    if not named:
        return tag("span", one.words, data_alarm=alike(one.alarms[0]))
    return html(each(named, ", "), ": " if len(named) > 1 else " ", one.words)
