"""What the head and the foot of every page say, for the templates."""

from __future__ import annotations

from typing import Any

from hts.job.compiler.document import Document
from hts.paper.packet import letters

#: A title up to here is set large.
_LONG = 100


def heads(named: Document, room: float, beside: float = 0.0) -> dict[str, Any]:
    """The document, its texts cut to what fits a page of `room` mm; on the first page the title has
    `beside` mm less."""
    return {
        "title": letters.pieces(named.title, room - beside, 17.0, bold=True),
        "title_size": 17.0 if len(named.title) <= _LONG else 12.0,
        "short_title": letters.short(named.title, room * 0.6, 7.8),
        "short": letters.short(named.number, room * 0.3, 9.5, bold=True),
        "revision": letters.short(named.revision, room * 0.12, 9.5),
        "dated": named.dated,
        "status": named.status,
        "for_work": named.for_work,
        "fingerprint": named.fingerprint,
    }
