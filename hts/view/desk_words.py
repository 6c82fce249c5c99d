"""What a thermocouple of a run is said to be: its reading, its rate, what is wrong with it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from hts.view.markup import Html, tag

if TYPE_CHECKING:
    from hts.record.judging.words import Words
    from hts.record.watch import Row, View


def reading(row: Row, words: Words) -> str:
    """A reading in the units of the job; in words where there is none."""
    return "no reading" if row.reading is None else words.temperature(row.reading)


def rate(row: Row, words: Words) -> str:
    """How fast it rises or falls, and how fast it may."""
    if row.rate is None:
        return ""
    limit = f", at most {words.rate(row.rate_limit)}" if row.rate_limit is not None else ""
    return f"{words.rate(row.rate)}{limit} "


def state(row: Row, view: View) -> Html:
    """What is wrong with it, by shape and word."""
    if row.duty == "replaced":
        return tag("span", f" ● {row.note}", class_="state")
    if row.note:
        return tag("span", f" ✕ {row.note}", class_="state alarm")
    if row.below_top is not None and row.below_top < 0:
        return tag("span", " ▲ too hot", class_="state alarm")
    if row.above_bottom is not None and row.above_bottom < 0:
        return tag("span", " ▼ too cold", class_="state alarm")
    if is_named(row, view):
        return tag("span", " ▲ see alarms", class_="state alarm")
    return tag("span", " ● no alarm", class_="state clean")


def is_named(row: Row, view: View) -> bool:
    """Whether an alarm speaks of it."""
    word = re.compile(rf"(?<![\w.-]){re.escape(row.tag)}(?![\w-])")
    return any(word.search(alarm) for alarm in view.alarms)
