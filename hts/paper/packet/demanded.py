"""What the owner's procedures demand of a job, and where it is met: for whoever approves it."""

from __future__ import annotations

from hts.paper.packet import tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

_SHOWN = {"met": "met", "not met": "NOT MET", "undecided": "NOT DECIDED", "checked": "checked"}


def write(page: Pages, subject: Subject) -> None:
    """One row for each demand; nothing where the procedures make none."""
    names = {sheet.joint.name for sheet in subject.sheets}
    joints: dict[tuple[str, ...], list[str]] = {}
    for each in subject.job.demands:
        if not each.joint or each.joint in names:
            what = each.what + (f" ({each.note})" if each.note else "")
            row = (f"{each.procedure} {each.line}", what, _SHOWN[each.verdict], each.where)
            joints.setdefault(row, []).append(each.joint or "job")
    # What several joints meet in the same way is one row.
    rows = [(by, what, ", ".join(of), shown, at) for (by, what, shown, at), of in joints.items()]
    if not rows:
        return
    page.section("Demands of the procedures")
    page.line(
        "What the procedures in force demand of the entries of this job, and the line of the "
        "specification that meets it. Limits on figures are with the figures they limit."
    )
    page.table(("Procedure", "Demand", "For", "Result", "Where, or why not"), rows, tables.SMALL)
