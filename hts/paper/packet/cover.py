"""The first sheet of a part: identity, history, signatures, and the code to compare papers by."""

from __future__ import annotations

import io
from typing import Any

from hts.job.compiler.document import Document
from hts.language.vocabulary.job import Job, Signature
from hts.paper.packet import letters
from hts.paper.packet.frame import Frame
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Block, Pages
from hts.paper.sheet import needed
from hts.paper.sheet.letterhead import Letterhead

#: Room beside the title for the code, mm.
CODE = 42.0
_POSTS = ("prepared", "checked", "reviewed", "endorsed", "approved")
ROUNDING = (
    "Rounding: a least value is rounded up and a greatest down, so that no figure on these "
    "pages is looser than the limit it stands for."
)
#: A longer number makes a code no camera reads; the fingerprint alone tells papers apart.
_LONGEST = 60


def on_file(subject: Subject, frame: Frame) -> list[Block]:
    """Identity, history and signatures."""
    job = subject.job.spec.file.job
    assert job is not None
    page = Pages(frame)
    page.facts(_identity(subject, job))
    page.heading(3, "Revisions")
    page.table(("Revision", "Date", "Change", "Part", "Approved by"), _history(job))
    page.heading(3, "Signatures")
    page.form(
        ("Signs as", "Role", "Date in the text", "Name", "Signature", "Date"),
        _signatures(job),
        (18, 42, 24, 38, 36, 20),
        height=8.5,
    )
    page.line(ROUNDING)
    return page.blocks


def title(subject: Subject, frame: Frame) -> dict[str, Any]:
    """What stands at the top of the first sheet of a part."""
    return {
        "for_joints": letters.pieces(subject.headed, frame.room(False) - CODE, 11.0),
        "code": _code(subject.job.document),
    }


def head(letterhead: Letterhead, room: float) -> dict[str, Any]:
    """Company and mark for the first sheet of a part; the mark as its bytes, numbers 0 to 255."""
    return {
        "company": letters.short(letterhead.company, room * 0.6, 11.0, bold=True),
        "mark": list(letterhead.mark),
        "mark_kind": letterhead.kind,
    }


def _identity(subject: Subject, job: Job) -> list[tuple[str, str]]:
    named = subject.job.document
    systems = {"SI": "SI", "US": "US customary"}
    shown = [systems[system] for system in subject.job.units.systems]
    return [
        ("Document", named.number),
        ("Revision", f"{named.revision} of {named.dated}" if named.dated else named.revision),
        ("Status", named.status),
        ("Client's answer", job.revision.answer or ""),
        ("Client", job.client or ""),
        ("Project", job.project or ""),
        ("Area, unit", ", ".join(filter(None, (job.area, job.plant_unit)))),
        ("Order", job.order or ""),
        ("Units", f"{shown[0]} govern; {shown[1]} in brackets" if len(shown) > 1 else shown[0]),
        ("Fingerprint", named.fingerprint),
        *(("Settings that quiet rules", str(each)) for each in subject.job.spec.defaults.quieted),
        ("Compiled by", named.tool),
    ]


def _history(job: Job) -> list[tuple[str, ...]]:
    lines = job.history.lines if job.history is not None else []
    return [
        (line.name, line.on or "", line.change, ", ".join(line.sections), line.approved or "")
        for line in lines
    ]


def _signatures(job: Job) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for post in _POSTS:
        signed = getattr(job.signed, post, None) or []
        for one in signed if isinstance(signed, list) else [signed]:
            if isinstance(one, Signature):
                rows.append((post, one.role, one.on or "", "", "", ""))
    return rows


def _code(named: Document) -> str:
    """A QR code (ISO/IEC 18004) with number, revision and fingerprint, as SVG."""
    segno = needed("segno", "paper")
    text = f"{named.number[:_LONGEST]}\nrevision {named.revision[:_LONGEST]}\n{named.fingerprint}"
    drawn = io.BytesIO()
    segno.make(text, error="m", micro=False).save(drawn, kind="svg", xmldecl=False, border=2)
    return drawn.getvalue().decode("ascii")
