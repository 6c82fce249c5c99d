"""What can hurt."""

from __future__ import annotations

from hts.job.outputs import cautions
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages


def write(page: Pages, subject: Subject) -> None:
    """The cautions for these joints, then those of the trade."""
    page.section("Cautions")
    cautions.listed(page, subject.job._replace(joints=subject.sheets))
