"""Limits and gates: everything the record will be judged by, each with a box to sign."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities import TEMPERATURE
from hts.job.compiler.changes import LIMIT, SETTING, STEP
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.steps import COOL, HEAT, HOLD
from hts.job.demands.asked import Asked
from hts.job.outputs.requirements import Requirement, requirements
from hts.job.outputs.show import Shown
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Point
from hts.paper.packet.groups import Subject
from hts.paper.packet.key_sheet import named
from hts.paper.packet.pages import BOX, Pages

_MEANINGS = (
    "Hold point: work stops until the role has released it. Witness point: the role is called and "
    "work goes on. Review point: the role reviews papers."
)
#: The entries and limits a requirement comes from, for marks of change; steps by their action.
_FROM: dict[str, tuple[str, ...]] = {
    "start of the record": ("start of control",),
    "end of the record": ("end of control",),
    "cooled before heat treatment": ("first cool below", "temperature before heat treatment"),
    "delay before heat treatment": ("begin within", "delay before heat treatment"),
    "heating rate": (HEAT, "rate over", "heating rate", "heating rate at most"),
    "cooling rate": (COOL, "rate over", "cooling rate"),
    "spread while heating and cooling": ("heating spread",),
    "spread during the hold": ("holding spread",),
    "time outside the hold range": ("excursion",),
    "hold time": (HOLD, "hold counts", "interrupted hold", "at least", "interpass"),
    "longest hold": (HOLD,),
    "holding temperature": (HOLD,),
    "highest temperature": (HOLD, "interpass"),
    "insulation": ("remove insulation below",),
    "preheat maintained": ("maintain at least", "at least"),
    "margin below lower critical temperature": ("margin below lower critical",),
    "margin below tempering temperature": ("margin below tempering",),
    "power loss": ("on power loss",),
    "thermocouple loss": ("on thermocouple loss",),
    "over-rate": ("on over-rate",),
    "cooling fault": ("on cooling fault",),
    "greatest preheat": ("at most", "preheat"),
    "guard band": ("guard band",),
    "identity of the recorder": ("recorded by",),
}


def write(page: Pages, subject: Subject) -> None:
    """One table for each treatment, then the points of the inspection plan."""
    page.section("Limits and gates")
    page.line(
        "What the record is judged by. Each is signed when it has been seen to hold; one that does "
        "not hold stops the work, and the supervisor is called."
    )
    for sheet in subject.sheets:
        found = [
            (run, requirements(Asked(subject.job, sheet, run), _shown(subject, run)))
            for run in sheet.runs
        ]
        alike = _in_all([some for _, some in found])
        if alike:
            page.heading(3, f"Joint {sheet.joint.name}, in every treatment")
            _table(page, subject, sheet, sheet.runs[0], alike)
        for run, some in found:
            page.heading(3, f"Joint {sheet.joint.name}, {named(run)}")
            told = {(one.name, one.specified) for one in alike}
            own = [one for one in some if (one.name, one.specified) not in told]
            _table(page, subject, sheet, run, own)
    _points(page, subject)


def _shown(subject: Subject, run: Run) -> Shown:
    """In the governing system alone, as the record is judged; in both where the controller is set
    in the other one."""
    single = subject.shown.single()
    return single if run.program.unit in single.units.symbols(TEMPERATURE) else subject.shown


def _in_all(found: list[list[Requirement]]) -> list[Requirement]:
    """What is asked for alike in every treatment, where there are several."""
    if len(found) < 2:
        return []
    others = [{(one.name, one.specified) for one in some} for some in found[1:]]
    return [one for one in found[0] if all((one.name, one.specified) in some for some in others)]


def _table(
    page: Pages, subject: Subject, sheet: JointSheet, run: Run, found: list[Requirement]
) -> None:
    page.form(
        ("When", "What", "Limit", "Met", "Initials, time"),
        [(one.stage, one.name, one.specified + subject.mark(one.why), BOX, "") for one in found],
        (20, 52, 96, 8, 22),
        height=4.7,
        changed=[_changed(subject, sheet, run, one) for one in found],
        dense=True,
    )


def _changed(subject: Subject, sheet: JointSheet, run: Run, one: Requirement) -> str:
    joint, name = sheet.joint.name, run.program.name
    for source in _FROM.get(one.name.partition(", step")[0], ()):
        if source in (HEAT, HOLD, COOL):
            for step in run.program.steps:
                if step.action == source:
                    mark = subject.shown.changed(joint, name, STEP, str(step.segment))
                    if mark:
                        return mark
        for kind in (SETTING, LIMIT):
            for owner in (name, ""):
                mark = subject.shown.changed(joint, owner, kind, source)
                if mark:
                    return mark
    return ""


def _points(page: Pages, subject: Subject) -> None:
    rows = [
        (f"{sheet.joint.name}: {row[0]}" if len(subject.sheets) > 1 else row[0], *row[1:])
        for sheet in subject.sheets
        for row in _planned(sheet.joint)
    ]
    page.heading(3, "Hold, witness and review points")
    if not rows:
        page.line("None are specified.")
        return
    page.form(
        ("When", "Kind", "What", "By", "Name and signature", "Date, time"),
        rows,
        (24, 24, 44, 30, 34, 24),
        height=6.8,
        dense=True,
    )
    page.line(_MEANINGS)


def _planned(joint: Joint) -> Iterator[tuple[str, ...]]:
    for name, stages in (
        ("before heat", joint.before),
        ("during heat", joint.during),
        ("after heat", joint.after),
    ):
        for stage in stages:
            points: list[Point] = [*stage.hold_points, *stage.witness_points, *stage.review_points]
            for point in points:
                yield name, " ".join(point.words), point.text, point.by or "", "", ""
