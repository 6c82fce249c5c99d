"""The sheet of flags: one for each thermocouple, in the order of the text."""

from __future__ import annotations

import os
from typing import Any

from hts.job.compiler import Job
from hts.job.compiler.job import JointSheet
from hts.job.compiler.tags import Channel, Tag
from hts.job.outputs.text import visible
from hts.paper.labels.grid import Grid
from hts.paper.sheet import A4, Size
from hts.paper.sheet.typeset import pdf

NAME = "labels.pdf"
_TEMPLATE = os.path.join(os.path.dirname(__file__), "flags.typ")
#: Longer texts cannot be read on a flag; the tag sheet has them whole.
_LONGEST = 24


def files(job: Job, size: Size = A4, grid: Grid | None = None) -> dict[str, bytes]:
    """Name -> bytes; nothing for a job without thermocouples. Raises GridError."""
    laid = (grid or Grid()).on(size)
    flags = [_flag(sheet, tag) for sheet in job.joints for tag in sheet.tags]
    if not flags:
        return {}
    named = job.document
    data = {
        "sheet": {"width": size.width, "height": size.height},
        "grid": laid._asdict(),
        "document": _short(f"{named.number} rev {named.revision}"),
        "fingerprint": named.fingerprint,
        "status": "" if named.for_work else _short(named.status),
        "flags": flags,
    }
    return {NAME: pdf(_TEMPLATE, data)}


def _flag(sheet: JointSheet, tag: Tag) -> dict[str, Any]:
    """What is on one flag; the first letter of the duty stands large beside the tag."""
    if tag.spare_of:
        duty = f"spare of {tag.spare_of}"
    else:
        zone = f"zone {tag.zone}" if tag.zone else ""
        duty = " ".join(part for part in (tag.duty, tag.place or zone) if part)
    return {
        "tag": _short(tag.tag),
        "joint": _short(sheet.joint.name),
        "duty": _short(duty),
        "letter": tag.duty[:1].upper(),
        "channels": [
            _short(text)
            for text in (
                _channel("control", tag.controller),
                _channel("record", tag.recorder),
            )
            if text
        ],
        "clock": str(tag.clock) if tag.clock is not None else "",
        "connected": tag.connected,
    }


def _channel(what: str, channel: Channel) -> str:
    if channel.number is None:
        return ""
    return " ".join(filter(None, (what, channel.instrument, "channel", str(channel.number))))


def _short(text: str) -> str:
    shown = visible(text)
    return shown if len(shown) <= _LONGEST else f"{shown[: _LONGEST - 1]}…"
