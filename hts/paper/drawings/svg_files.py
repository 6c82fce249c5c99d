"""The drawings of a job as files of their own."""

from __future__ import annotations

import re

from hts.job.compiler.job import Job
from hts.paper.drawings.along_view import section_along
from hts.paper.drawings.card_view import attachment_card
from hts.paper.drawings.cycle_view import cycle_chart
from hts.paper.drawings.section_view import section
from hts.paper.drawings.unrolled_view import unrolled
from hts.paper.sheet.size import Size

_MARGIN = 15.0  # of the sheet the drawing is printed on, mm
_UNSAFE = re.compile(r"[^A-Za-z0-9_.-]+")


def files(job: Job, size: Size) -> dict[str, bytes]:
    """Name -> SVG in UTF-8, for every joint its views and for every run its chart.

    Each picture is as large as fits the sheet lying on its side. Raises MissingPackage.
    """
    picture = (size.height - 2 * _MARGIN, size.width - 2 * _MARGIN)
    found: dict[str, bytes] = {}
    for sheet in job.joints:
        joint = sheet.joint.name
        _put(found, joint, "unrolled", unrolled(job, sheet, picture))
        _put(found, joint, "section", section(job, sheet, picture))
        _put(found, joint, "section-along", section_along(job, sheet, picture))
        _put(found, joint, "attachment-card", attachment_card(job, sheet, picture))
        for run in sheet.runs:
            chart = cycle_chart(job, sheet, run, picture)
            _put(found, joint, f"{run.program.name}-chart", chart)
    return found


def _put(found: dict[str, bytes], joint: str, what: str, svg: str) -> None:
    """Adds a file under a name that is safe on every system and not taken yet."""
    name = _UNSAFE.sub("-", f"{joint}-{what}").lstrip(".-")[:80] or "drawing"
    number, free = 2, name
    while f"{free}.svg".lower() in {key.lower() for key in found}:
        free, number = f"{name}-{number}", number + 1
    found[f"{free}.svg"] = svg.encode("utf-8")
