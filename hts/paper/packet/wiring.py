"""How thermocouples are wired and proved."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet
from hts.job.outputs import tag_sheet
from hts.language.vocabulary.thermocouples import Thermocouples
from hts.paper.packet import letters
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

_POLARITY = (
    "Positive to positive, negative to negative, at every connector and at the instrument; the "
    "colours above decide, not the colours of the last job.",
    "A pair swapped once: the reading falls while the part gets hotter, and the controller runs "
    "to full power.",
    "A pair swapped twice: the reading moves the right way and is false by twice what the "
    "temperature differs between connector and instrument. Only tracing the colours finds it.",
    "Red is the negative conductor by ASTM E230 and was the positive one in withdrawn schemes: "
    f"old cable is not judged by red alone.{letters.PRACTICE}",
)


def write(page: Pages, subject: Subject) -> None:
    """One card for each joint with thermocouples."""
    sheets = [sheet for sheet in subject.sheets if sheet.tags]
    if not sheets:
        return
    page.section("Wiring and polarity")
    for sheet in sheets:
        subject.head(page, sheet)
        _card(page, subject, sheet)
    page.heading(3, "Polarity")
    page.bullets(_POLARITY)


def _card(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    block, marks = sheet.joint.entry.thermocouples, letters.marks()
    if sheet.wire is not None:
        tag_sheet.wiring(page, marks, sheet.wire)
    if block is not None:
        page.facts(_facts(subject, block))
    tag_sheet.proving(page, subject.shown, marks, sheet)


def _facts(subject: Subject, block: Thermocouples) -> list[tuple[str, str]]:
    shown = subject.shown
    return [
        ("Wire size", f"AWG {block.gauge}" if block.gauge else ""),
        ("Wire", block.wire or ""),
        ("Wire insulation", block.wire_insulation or ""),
        ("Wire lot", block.lot or ""),
        ("Wire calibrated", subject.words(block.calibrated)),
        ("Error of the lot", f"± {shown.text(block.error, 'up')}" if block.error else ""),
        ("Extension cable", subject.words(block.extension)),
        ("Attached by", subject.words(block.attached)),
        ("Cover of the junction", block.junction_cover or ""),
        ("Leads", block.leads or ""),
        ("Lead at least", shown.text(block.lead, "up") if block.lead is not None else ""),
    ]
