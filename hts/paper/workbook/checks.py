"""What is checked, released, witnessed and measured, with room for who did it and when."""

from __future__ import annotations

from collections.abc import Iterator

from hts.job.compiler import Job
from hts.job.compiler.wording import line_of, worded
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Hardness, Point, Work
from hts.paper.packet import letters
from hts.paper.packet.checks import handed, installed
from hts.paper.packet.results import when
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, MOMENT, Cell, Fill

_COLUMNS = (
    Column("Joint"),
    Column("Stage"),
    Column("Kind"),
    Column("What", 56),
    Column("By", 22),
    Column("Result", 18),
    Column("Name and signature", 24),
    Column("When", 17),
)

#: Stage, kind, what, by.
_Row = tuple[str, str, str, str]


def checks(book: Book, job: Job) -> None:
    """All points of the inspection plan, in the order the work happens."""
    rows: list[list[Cell]] = [
        [sheet.joint.name, *row, Fill(), Fill(), Fill(MOMENT)]
        for sheet in job.joints
        for row in _joint(sheet.joint)
    ]
    book.table("Checks", "Checks and points", _COLUMNS, rows)


def _joint(joint: Joint) -> Iterator[_Row]:
    for stage in joint.before:
        yield from _stage("before heat", stage)
        for text in stage.welded_first:
            yield "before heat", "welded on first", text, EMPTY
        if stage.insulation_resistance is not None:
            words = f"of heaters to earth, at least {stage.insulation_resistance}"
            yield "before heat", "insulation resistance", words, EMPTY
    block = joint.entry.thermocouples
    if block is not None and joint.thermocouples:
        for text in installed(joint, block):
            words = text.replace(letters.PRACTICE, " (common practice)")
            yield "before heat", "every thermocouple before it is covered", words, EMPTY
    for during in joint.during:
        yield from _stage("during heat", during)
        if during.chart_shows:
            yield "during heat", "chart shows", ", ".join(during.chart_shows), EMPTY
    for after in joint.after:
        yield from _stage("after heat", after)
        for hardness in after.hardness:
            yield from _hardness(hardness)
        if after.straightness is not None:
            yield "after heat", "straightness", line_of(after.straightness), EMPTY
        for text in after.marking:
            yield "after heat", "marking", text, EMPTY
        for document in after.hand_over:
            yield "after heat", "hand over", handed(document), EMPTY


def _stage(name: str, work: Work) -> Iterator[_Row]:
    for check in work.checks:
        yield name, "check", check.text, check.by or EMPTY
    for examination in work.examinations:
        yield name, "examine", line_of(examination), EMPTY
    points: list[Point] = [*work.hold_points, *work.witness_points, *work.review_points]
    for point in points:
        yield name, " ".join(point.words), point.text, point.by or EMPTY


def _hardness(limit: Hardness) -> Iterator[_Row]:
    """One row for each place that is tested."""
    low = f"at least {limit.at_least}, " if limit.at_least is not None else EMPTY
    words = f"{limit.zone}: {low}at most {worded(limit.at_most)}"
    words += f", at most {limit.share} of base metal" if limit.share is not None else EMPTY
    words += f", {limit.extent} of welds" if limit.extent else EMPTY
    words += (
        f", {when(limit.after, limit.tested_within)}"
        if limit.after or limit.tested_within
        else EMPTY
    )
    count = limit.count or 1
    for number in range(1, count + 1):
        of = f", place {number} of {count}" if count > 1 else EMPTY
        spots = f" ({limit.spots})" if limit.spots else EMPTY
        yield "after heat", "hardness", f"{words}{of}{spots}", EMPTY
