"""What can hurt."""

from __future__ import annotations

from hts.outputs import cautions
from hts.packet.groups import Subject
from hts.packet.pages import Pages


def write(page: Pages, subject: Subject) -> None:
    """The cautions for these joints, then those of the trade."""
    page.section("Cautions")
    cautions.listed(page, subject.job._replace(joints=subject.sheets))
