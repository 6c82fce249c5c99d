"""The waivers in force for a joint, as they stand on every sheet that goes to the pipe."""

from __future__ import annotations

import re
from collections.abc import Iterable

from hts.job.compiler.job import Job, JointSheet
from hts.job.outputs.paper import Paper
from hts.language.vocabulary.job import Waive


def in_force(job: Job, sheets: Iterable[JointSheet]) -> list[Waive]:
    """The waivers for these joints, and those for no joint in particular."""
    ours = {sheet.joint.name for sheet in sheets}
    others = {sheet.joint.name for sheet in job.joints} - ours
    return [one for one in job.spec.waivers if one.sound and _first(one) not in others]


def _first(waiver: Waive) -> str:
    return re.split(r"[/.]", waiver.on or "")[0]


def told(page: Paper, job: Job, sheet: JointSheet) -> None:
    """What is set aside for a joint, in a few lines; nothing where nothing is."""
    waivers = in_force(job, [sheet])
    if not waivers:
        return
    page.warning("Set aside for this joint, and not checked:")
    page.bullets(
        f"{one.rule} on {one.on}: {one.reason}; decided by {one.by}, until {one.until}"
        for one in waivers
    )
