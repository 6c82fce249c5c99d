"""Checks before and during heat, and the points at which work stops or somebody is called."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Point, Work
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import BOX, Pages

_MEANINGS = (
    "Hold point: work stops until the role has released it. Witness point: the role is called and "
    "work goes on. Review point: the role reviews papers."
)


def write(page: Pages, subject: Subject) -> None:
    """Checks of each joint, then the points of its inspection plan."""
    page.section("Checks before and during heat", across=False)
    for sheet in subject.sheets:
        joint = sheet.joint
        subject.head(page, sheet)
        first = [
            f"Welded on first: {text}" for stage in joint.before for text in stage.welded_first
        ]
        _checks(page, "Before heat", joint.before, [*first, *_resistance(subject, joint)])
        _checks(page, "During heat", joint.during, [])
        if not joint.before and not joint.during:
            page.warning(
                "The specification lists no checks. The usual ones are not left out for that: "
                "permit, isolation, bore, ends, supports, heaters, thermocouples, instruments."
            )
    page.section("Hold, witness and review points")
    for sheet in subject.sheets:
        subject.head(page, sheet)
        rows = list(_points(sheet.joint))
        if not rows:
            page.line("None are specified.")
            continue
        page.form(
            ("Stage", "Kind", "What", "By", "Name and signature", "Date, time"),
            rows,
            (22, 24, 44, 32, 32, 24),
            height=9.0,
        )
    page.line(_MEANINGS)


def _resistance(subject: Subject, joint: Joint) -> list[str]:
    return [
        "Insulation resistance of the heaters to earth at least "
        f"{subject.shown.text(stage.insulation_resistance, 'up')}; measured:"
        for stage in joint.before
        if stage.insulation_resistance is not None
    ]


def _checks(page: Pages, title: str, stages: Sequence[Work], more: list[str]) -> None:
    said = [(check.text, check.by or "") for stage in stages for check in stage.checks]
    said += [(text, "") for text in more]
    if not said:
        return
    page.heading(3, title)
    page.form(
        ("No.", "Check", "By", "Done", "Initials, time"),
        [(str(number), text, by, BOX, "") for number, (text, by) in enumerate(said, 1)],
        (10, 88, 36, 13, 28),
        height=6.8,
    )


def _points(joint: Joint) -> Iterator[tuple[str, ...]]:
    for name, stages in (
        ("before heat", joint.before),
        ("during heat", joint.during),
        ("after heat", joint.after),
    ):
        for stage in stages:
            points: list[Point] = [*stage.hold_points, *stage.witness_points, *stage.review_points]
            for point in points:
                yield name, " ".join(point.words), point.text, point.by or "", "", ""
