"""For a terminal."""

from __future__ import annotations

from hts.job.comparison.approvals import Judged
from hts.job.comparison.report.told import Told, kind, names, place, summary, texts, told
from hts.job.outputs.text import visible

_COLOURS = {"re-approve": "31;1", "review": "33;1", "note": "36;1"}
_MOST = 6


def write(judged: Judged, *, colour: bool = False, representation: bool = False) -> str:
    """The whole report."""
    parts = [_change(each, colour) for each in told(judged)]
    if representation:
        parts += [_differently(judged)] if judged.comparison.representations else []
    parts += [
        f"approval that fits no change here: {visible(entry.shown)}\n" for entry in judged.unused
    ]
    old, new = names(judged.comparison)
    parts.append(f"{visible(old)} -> {visible(new)}: {visible(summary(judged))}\n")
    return "\n".join(parts)


def _change(each: Told, colour: bool) -> str:
    change = each.change
    head = _paint(change.verdict, _COLOURS[change.verdict], colour)
    if each.approval is not None:
        head = f"approved ({change.verdict})"
    lines = [f"{head} {kind(change)}: {visible(change.address or 'the file')}"]
    sides = [
        (sign, place(side), text)
        for sign, side, text in zip("-+", (change.old, change.new), texts(change), strict=True)
        if side is not None
    ]
    width = max(len(visible(where)) for _, where, _ in sides)
    for sign, where, text in sides:
        at = f"{visible(where):<{width}}  " if width else ""
        lines.append(f"  {sign} {at}{_paint(visible(text), '32' if sign == '+' else '31', colour)}")
    if each.also:
        shown = ", ".join(each.also[:_MOST])
        more = len(each.also) - _MOST
        lines.append(f"  the same at {visible(shown)}{f' and {more} more' if more > 0 else ''}")
    lines.append(f"  why: {visible(change.reason)}")
    if change.lacks:
        lines.append(f"  the files lack: {visible(change.lacks)}")
    if change.source:
        lines.append(f"  source: {change.source}, {change.basis}")
    if each.approval is not None:
        lines.append(f"  approved by: {visible(each.approval.by)}")
    return "\n".join(lines) + "\n"


def _differently(judged: Judged) -> str:
    lines = ["written differently, meaning the same:"]
    for each in judged.comparison.representations:
        words = " -> ".join(text for text in (each.old, each.new) if text)
        about = ": ".join(text for text in (each.address, words) if text)
        lines.append(f"  {each.what}{f' at {visible(about)}' if about else ''}")
    return "\n".join(lines) + "\n"


def _paint(text: str, code: str, colour: bool) -> str:
    return f"\033[{code}m{text}\033[0m" if colour else text
