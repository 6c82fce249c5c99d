"""Forms for what is measured and handed over after the heat."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities import Quantity
from hts.job.compiler.wording import worded
from hts.job.outputs.show import DOWN, UP
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Hardness, Work
from hts.paper.packet.checks import handed_over
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import BOX, Pages


def write(page: Pages, subject: Subject) -> None:
    """Hardness, non-destructive tests, and what is handed over, for each joint."""
    page.section("Hardness, tests and hand-over")
    for sheet in subject.sheets:
        joint = sheet.joint
        subject.head(page, sheet)
        _hardness(page, subject, joint)
        _tests(page, joint)
    _finish(page, subject)


def _hardness(page: Pages, subject: Subject, joint: Joint) -> None:
    rows = [
        row for stage in joint.after for limit in stage.hardness for row in _places(subject, limit)
    ]
    page.heading(3, "Hardness")
    if not rows:
        page.line("No hardness limit is specified.")
        return
    page.form(
        ("Where", "Place", "At least", "At most", "Readings", "Mean", "Within limits", "Initials"),
        rows,
        (32, 34, 20, 20, 32, 16, 16, 16),
        height=7.4,
    )
    page.form(
        ("Instrument, serial", "Reference block", "Reading on it", "Name, date"),
        [("", "", "", "")],
        (50, 50, 30, 50),
    )


def _places(subject: Subject, limit: Hardness) -> Iterator[tuple[str, ...]]:
    count = limit.count or 1
    for number in range(1, count + 1):
        place = f"{number} of {count}" if count > 1 else ""
        told = ", ".join(
            part
            for part in (
                limit.spots,
                limit.extent and f"{limit.extent} of welds",
                when(limit.after, limit.tested_within),
            )
            if part
        )
        spots = f" ({told})" if told and number == 1 else ""
        yield (
            limit.zone,
            f"{place}{spots}",
            subject.shown.text(limit.at_least, UP) if limit.at_least is not None else "",
            _most(subject, limit),
            "",
            "",
            BOX,
            "",
        )


def _most(subject: Subject, limit: Hardness) -> str:
    most = subject.shown.text(limit.at_most, DOWN) if limit.at_most is not None else ""
    share = f"{limit.share} of base metal" if limit.share is not None else ""
    return ", ".join(part for part in (most, share) if part)


def when(after: Quantity | None, within: Quantity | None) -> str:
    """When a test may be done: `not before 24 h, within 5 d`."""
    parts = [f"not before {worded(after)}"] if after is not None else []
    parts += [f"within {worded(within)}"] if within is not None else []
    return ", ".join(parts)


def _tests(page: Pages, joint: Joint) -> None:
    stages: list[tuple[str, Work]] = [
        *(("before heat", stage) for stage in joint.before),
        *(("during heat", stage) for stage in joint.during),
        *(("after heat", stage) for stage in joint.after),
    ]
    rows = [
        (
            name,
            examination.method,
            examination.extent or "",
            when(examination.after, examination.within),
            "yes" if examination.accepted else "",
            examination.report or "",
            "",
            "",
        )
        for name, stage in stages
        for examination in stage.examinations
    ]
    if not rows:
        return
    page.heading(3, "Non-destructive tests")
    page.form(
        ("Stage", "Test", "Extent", "When", "To be accepted", "Report", "Result", "Name, date"),
        rows,
        (22, 18, 18, 28, 18, 26, 22, 30),
        height=8.0,
    )


def _finish(page: Pages, subject: Subject) -> None:
    """What is handed over, once for all joints it is asked of."""
    found: dict[str, list[str]] = {}
    for sheet in subject.sheets:
        for text in handed_over(subject, sheet.joint):
            joints = found.setdefault(text, [])
            if sheet.joint.name not in joints:
                joints.append(sheet.joint.name)
    if not found:
        return
    page.heading(3, "To be handed over and kept")
    several = len(subject.sheets) > 1
    page.form(
        ("What", *(("Joints",) if several else ()), "Done", "Name, date"),
        [
            (text, *((", ".join(joints),) if several else ()), BOX, "")
            for text, joints in found.items()
        ],
        (100, 20, 14, 46) if several else (120, 14, 46),
        height=7.0,
    )
