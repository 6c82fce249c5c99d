"""The packets of a job as files."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextvars import copy_context
from typing import Any

from hts.base.cluster import each, is_connected
from hts.base.fonts import Font
from hts.base.leftovers import private_folder
from hts.job.compiler import Job
from hts.paper.packet import (
    appendix,
    checks,
    cover,
    cycle,
    demanded,
    drawn,
    gates,
    heating,
    instruments,
    interruptions,
    joints,
    key_sheet,
    letters,
    placing,
    predicted,
    readings,
    results,
    scope,
    time_at_temperature,
    wiring,
)
from hts.paper.packet.frame import Frame
from hts.paper.packet.groups import Subject, subjects
from hts.paper.packet.heads import heads
from hts.paper.packet.pages import Block, Pages
from hts.paper.sheet import A4, Size
from hts.paper.sheet.fonts import beside, given
from hts.paper.sheet.letterhead import Letterhead
from hts.paper.sheet.typeset import pdf

_Write = Callable[[Pages, Subject], None]

#: The parts of a packet: what goes to the pipe, and what is kept on file.
PIPE, FILE = "pipe", "file"
PARTS = (PIPE, FILE)
#: What is said of each, and its sections in the order they are used.
_TITLES = {PIPE: "AT THE PIPE", FILE: "FOR THE FILE"}
_SECTIONS: dict[str, tuple[_Write, ...]] = {
    PIPE: (
        gates.write,
        checks.write,
        interruptions.at_the_pipe,
        checks.after,
        readings.preheat,
        drawn.at_the_pipe,
        placing.write,
        cycle.at_the_pipe,
        readings.write,
        time_at_temperature.write,
    ),
    FILE: (
        scope.write,
        demanded.write,
        joints.write,
        instruments.write,
        heating.on_file,
        drawn.on_file,
        predicted.write,
        wiring.write,
        results.write,
        interruptions.on_file,
        cycle.on_file,
        appendix.write,
    ),
}
#: More do not make it faster, and each takes memory.
_WORKERS = 4
TEMPLATE = os.path.join(os.path.dirname(__file__), "templates", "packet.typ")


def files(
    job: Job,
    size: Size = A4,
    progress: Callable[[int, int], None] | None = None,
    parts: Sequence[str] = PARTS,
    letterhead: Letterhead | None = None,
) -> dict[str, bytes]:
    """Name -> PDF, one for each joint or group of joints heated together; with one of the `parts`
    alone the name says which.

    `progress` is told how many of how many are done. Within `hts.base.cluster.connected` type is
    set on other machines. Raises MissingPackage.
    """
    found: dict[str, bytes] = {}
    all_of_them = subjects(job)
    which = f"-{parts[0]}" if len(parts) == 1 else ""
    names = [f"packet-{subject.file}{which}.pdf" for subject in all_of_them]
    if is_connected():
        font = _font()
        sheets_of = (pages(subject, size, parts, letterhead) for subject in all_of_them)
        sent = each(typeset, ((sheets, font) for sheets in sheets_of))
        for name, packet in zip(names, sent, strict=True):
            found[name] = packet
            if progress is not None:
                progress(len(found), len(names))
        return found
    workers = min(os.cpu_count() or 1, _WORKERS, len(all_of_them))
    waiting: deque[tuple[str, Future[bytes]]] = deque()

    def take() -> None:
        name, packet = waiting.popleft()
        found[name] = packet.result()
        if progress is not None:
            progress(len(found), len(all_of_them))

    # Setting type needs no Python, so that the next pages are made meanwhile.
    with ThreadPoolExecutor(workers) as pool:
        for name, subject in zip(names, all_of_them, strict=True):
            if len(waiting) > workers:
                take()
            sheets = pages(subject, size, parts, letterhead)
            # The font of a team is known in this context, and no thread has it by itself.
            setting = pool.submit(copy_context().run, pdf, TEMPLATE, sheets)
            waiting.append((name, setting))
        while waiting:
            take()
    return found


def typeset(sheets: dict[str, Any], font: tuple[Font, bytes] | None) -> bytes:
    """The PDF of what `pages` gives, with a font of the team and what its file holds. Raises
    MissingPackage."""
    if font is None:
        return pdf(TEMPLATE, sheets)
    with private_folder() as folder:
        path = os.path.join(folder, os.path.basename(font[0].path))
        with open(path, "wb") as file:
            file.write(font[1])
        with beside(font[0]._replace(path=path)):
            return pdf(TEMPLATE, sheets)


def _font() -> tuple[Font, bytes] | None:
    font = given()
    if font is None:
        return None
    with open(font.path, "rb") as file:
        return font, file.read()


def pages(
    subject: Subject,
    size: Size = A4,
    parts: Sequence[str] = PARTS,
    letterhead: Letterhead | None = None,
) -> dict[str, Any]:
    """All that is printed in one packet, as the templates read it."""
    frame = Frame(size)
    room = frame.room(across=False)
    return {
        "frame": frame.data(),
        "name": letters.short(subject.name, room, 9.0),
        "short_name": letters.short(subject.headed, room * 0.4, 9.5, bold=True),
        "document": heads(subject.job.document, room, beside=cover.CODE),
        **cover.title(subject, frame),
        **cover.head(letterhead or Letterhead(), room),
        "groups": [_group(subject, frame, part) for part in parts],
    }


def _group(subject: Subject, frame: Frame, part: str) -> dict[str, Any]:
    body = Pages(frame)
    for write in _SECTIONS[part]:
        write(body, subject)
    return {
        "name": f"{part} part",
        "title": _TITLES[part],
        "contents": part == FILE,
        "front": _front(subject, frame, part),
        "parts": body.parts,
    }


def _front(subject: Subject, frame: Frame, part: str) -> list[Block]:
    if part == FILE:
        return cover.on_file(subject, frame)
    page = Pages(frame)
    key_sheet.write(page, subject)
    return page.blocks
