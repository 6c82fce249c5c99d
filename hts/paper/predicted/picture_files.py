"""The pictures of predictions as files of their own."""

from __future__ import annotations

import re
from collections.abc import Callable

from hts.job.compiler.document import Document
from hts.paper.predicted.course_views import stages, traces
from hts.paper.predicted.field_views import section, unrolled
from hts.predict.outlook import Outlook

#: Width and height of a picture, mm: a sheet lying on its side.
SIZE = (267.0, 180.0)
VIEWS: tuple[tuple[str, Callable[[Outlook, Document, tuple[float, float]], str]], ...] = (
    ("unrolled", unrolled),
    ("section", section),
    ("course", traces),
    ("stages", stages),
)
_UNSAFE = re.compile(r"[^A-Za-z0-9_.-]+")


def files(outlooks: list[Outlook], document: Document) -> dict[str, bytes]:
    """Name -> SVG in UTF-8. Raises MissingPackage."""
    found: dict[str, bytes] = {}
    for outlook in outlooks:
        setting = outlook.setting
        for what, draw in VIEWS:
            stem = _UNSAFE.sub("-", f"{setting.joint}-{setting.treatment}-predicted-{what}")
            name, number = stem.lstrip(".-")[:90] or "predicted", 2
            free = name
            while f"{free}.svg".lower() in {key.lower() for key in found}:
                free, number = f"{name}-{number}", number + 1
            found[f"{free}.svg"] = draw(outlook, document, SIZE).encode("utf-8")
    return found
