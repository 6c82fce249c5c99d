"""What the zones are estimated to need."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet
from hts.job.compiler.power import estimate
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages


def write(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    """Powers of each zone and what they rest on; nothing where they cannot be estimated."""
    found = estimate(sheet)
    if found is None:
        return
    shown = subject.shown
    page.heading(3, "Heating power, estimated")
    page.line(
        f"For {found.treatment}, at {shown.text(found.at)} and while heating at "
        f"{shown.text(found.rate)}: a heat balance to size heaters and supply by, without "
        f"reserve{letters.mark_of(found.origin.basis)}. Properties of the steel: {found.origin}."
    )
    page.table(
        (
            "Zone",
            "Stored in the metal, kW",
            "Lost through the blanket, kW",
            "Lost along the pipe, kW",
            "Needed to heat, kW",
            "Needed to hold, kW",
            "Installed, kW",
        ),
        [
            (
                zone.zone,
                *(
                    f"{float(power.value) / 1000:.1f}" if power is not None else ""
                    for power in zone[1:]
                ),
            )
            for zone in found.zones
        ],
        tables.SMALL,
    )
    page.bullets((f"Assumed: {'; '.join(found.assumptions)}.",))
