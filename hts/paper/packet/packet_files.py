"""The packets of a job as files."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

from hts.job.compiler import Job
from hts.paper.packet import (
    appendix,
    cautions,
    checks,
    cover,
    cycle,
    heating,
    interruptions,
    joints,
    letters,
    readings,
    results,
    scope,
    thermocouples,
    time_at_temperature,
    wiring,
)
from hts.paper.packet.frame import Frame
from hts.paper.packet.groups import Subject, subjects
from hts.paper.packet.heads import heads
from hts.paper.packet.pages import Pages
from hts.paper.sheet import A4, Size
from hts.paper.sheet.typeset import pdf

#: The sections in the order the work is done.
_SECTIONS = (
    scope.write,
    joints.write,
    heating.write,
    thermocouples.write,
    wiring.write,
    cycle.write,
    checks.write,
    interruptions.write,
    cautions.write,
    readings.write,
    time_at_temperature.write,
    results.write,
    appendix.write,
)
#: More do not make it faster, and each takes memory.
_WORKERS = 4
_TEMPLATE = os.path.join(os.path.dirname(__file__), "templates", "packet.typ")


def files(
    job: Job, size: Size = A4, progress: Callable[[int, int], None] | None = None
) -> dict[str, bytes]:
    """Name -> PDF, one for each joint or group of joints heated together.

    `progress` is told how many of how many are done. Raises MissingPackage.
    """
    found: dict[str, bytes] = {}
    all_of_them = subjects(job)
    workers = min(os.cpu_count() or 1, _WORKERS, len(all_of_them))
    waiting: deque[tuple[str, Future[bytes]]] = deque()

    def take() -> None:
        name, packet = waiting.popleft()
        found[name] = packet.result()
        if progress is not None:
            progress(len(found), len(all_of_them))

    # Setting type needs no Python, so that the next pages are made meanwhile.
    with ThreadPoolExecutor(workers) as pool:
        for subject in all_of_them:
            if len(waiting) > workers:
                take()
            setting = pool.submit(pdf, _TEMPLATE, pages(subject, size))
            waiting.append((f"packet-{subject.file}.pdf", setting))
        while waiting:
            take()
    return found


def pages(subject: Subject, size: Size = A4) -> dict[str, Any]:
    """All that is printed in one packet, as the templates read it."""
    frame = Frame(size)
    body = Pages(frame)
    for write in _SECTIONS:
        write(body, subject)
    room = frame.room(across=False)
    return {
        "frame": frame.data(),
        "name": letters.short(subject.name, room, 9.0),
        "short_name": letters.short(f"Joint {subject.name}", room * 0.4, 9.5, bold=True),
        "document": heads(subject.job.document, room, beside=cover.CODE),
        **cover.data(subject, frame),
        "parts": body.parts,
    }
