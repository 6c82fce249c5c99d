"""Heaters, bands and insulation with what they rest on, and the power they need, estimated."""

from __future__ import annotations

from hts.job.outputs import setpoint_sheet
from hts.paper.packet import layout, letters, power
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages


def on_file(page: Pages, subject: Subject) -> None:
    """The layout of each joint with what it rests on, and the power it is estimated to need."""
    page.section("Heaters, bands and insulation")
    for sheet in subject.sheets:
        subject.head(page, sheet)
        layout.write(page, subject, sheet)
        setpoint_sheet.widths(page, subject.shown, letters.marks(), sheet)
        heating = sheet.joint.entry.heating
        if heating is not None:
            density = heating.power_density
            page.facts(
                [
                    ("Power density", subject.shown.text(density) if density is not None else ""),
                    ("Band ratio", str(heating.band_ratio or "")),
                ]
            )
        power.write(page, subject, sheet)
