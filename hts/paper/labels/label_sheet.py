"""The sheet of flags: one for each end of a lead, in the order of the text."""

from __future__ import annotations

import os
from typing import Any

from hts.job.compiler import Job
from hts.job.compiler.job import JointSheet
from hts.job.compiler.tags import Channel, Tag
from hts.job.outputs.show import Shown
from hts.job.outputs.text import visible
from hts.paper.labels.grid import Grid
from hts.paper.sheet import A4, Size, metrics
from hts.paper.sheet.typeset import pdf

NAME = "labels.pdf"
_TEMPLATE = os.path.join(os.path.dirname(__file__), "flags.typ")
#: Height of capitals in the smallest letters, 6 points, mm; margins of a flag left and right, mm.
_CAPITALS = 6.0 * 25.4 / 72 * metrics.CAPITAL
_INSET = 4.5
#: Part of the first line that the tag has; the joint has the rest.
TAG_SHARE = 0.6


def files(job: Job, size: Size = A4, grid: Grid | None = None) -> dict[str, bytes]:
    """Name -> bytes; nothing for a job without thermocouples. Raises GridError."""
    laid = (grid or Grid()).on(size)
    room, shown = laid.width - _INSET, Shown(job.units)
    flags = [
        _flag(shown, sheet, tag, room)
        for sheet in job.joints
        for tag in sheet.tags
        for _ in range(laid.copies)
    ]
    if not flags:
        return {}
    named = job.document
    # The revision is never cut, however long the number is.
    after = f" rev {visible(named.revision)}"
    number = _fit(named.number, room - _width(after))
    data = {
        "sheet": {"width": size.width, "height": size.height},
        "grid": laid._asdict(),
        "document": number + after,
        "fingerprint": named.fingerprint,
        "status": "" if named.for_work else _fit(named.status, room / 2),
        "flags": flags,
    }
    return {NAME: pdf(_TEMPLATE, data)}


def _flag(shown: Shown, sheet: JointSheet, tag: Tag, room: float) -> dict[str, Any]:
    """What is on one flag, each line short enough for `room` mm in the smallest letters."""
    if tag.spare_of:
        duty = f"spare of {tag.spare_of}"
    else:
        zone = f"zone {tag.zone}" if tag.zone else ""
        duty = " ".join(part for part in (tag.duty, tag.place or zone) if part)
    return {
        "tag": _fit(tag.tag, room * TAG_SHARE),
        "joint": _fit(sheet.joint.name, room * (0.96 - TAG_SHARE)),
        "duty": _fit(f"{tag.duty[:1].upper()}  {duty}", room),
        "place": _fit(_place(shown, tag), room),
        "channels": [
            _fit(text, room)
            for text in (
                _channel("control", tag.controller),
                _channel("record", tag.recorder),
            )
            if text
        ],
        "connected": tag.connected,
    }


def _channel(what: str, channel: Channel) -> str:
    if channel.number is None:
        return ""
    return " ".join(filter(None, (what, channel.instrument, "channel", str(channel.number))))


def _place(shown: Shown, tag: Tag) -> str:
    """`12:00, 62 mm upstream`; `600 mm along, 48 mm side A`."""
    offset = tag.offset
    if tag.along is not None:
        # In one system: nothing of it is cut off.
        shown = shown.single()
    along = "on weld" if tag.on_weld else ""
    if offset is not None:
        along = f"{shown.text(offset.distance)} {offset.side}"
    clock = str(tag.clock) if tag.clock is not None else ""
    if tag.along is not None:
        clock = f"{shown.tape_text(tag.along)} along"
    return ", ".join(part for part in (clock, along) if part)


def _width(text: str) -> float:
    return metrics.width(metrics.drawable(text), _CAPITALS, bold=True)


def _fit(text: str, room: float) -> str:
    return metrics.shortened(metrics.drawable(text), _CAPITALS, max(room, 1.0), bold=True)
