"""What the head and the foot of every page say, for the templates."""

from __future__ import annotations

from typing import Any

from hts.job.compiler.document import Document
from hts.paper.packet import letters

#: A title up to here is set large.
_LONG = 100
#: Letters of the document number in points, and the smallest of them that is read with ease.
_NUMBER, _SMALLEST = 9.5, 6.0
#: A number of more lines than this is none.
_LINES = 3


def heads(named: Document, room: float, beside: float = 0.0) -> dict[str, Any]:
    """The document, its texts cut to what fits a page of `room` mm, but never its number, which is
    set smaller and at last in several lines; on the first page the title has `beside` mm less."""
    number = letters.short(named.number, room * 0.3 * _LINES, _SMALLEST, bold=True)
    wide = letters.width(number, _NUMBER, bold=True)
    points = max(_SMALLEST, min(_NUMBER, _NUMBER * room * 0.3 / max(wide, 1.0)))
    return {
        "title": letters.pieces(named.title, room - beside, 17.0, bold=True),
        "title_size": 17.0 if len(named.title) <= _LONG else 12.0,
        "short_title": letters.short(named.title, room * 0.6, 7.8),
        "short": letters.printed(number, room * 0.3, points, bold=True),
        "short_size": round(points, 2),
        "number": number,
        "revision": letters.short(named.revision, room * 0.12, 9.5),
        "dated": named.dated,
        "status": named.status,
        "for_work": named.for_work,
        "fingerprint": named.fingerprint,
    }
