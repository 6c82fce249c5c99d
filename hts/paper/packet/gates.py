"""Limits and hold points: everything the record will be judged by, each with a box to sign."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from hts.base.quantities import TEMPERATURE
from hts.job.compiler.changes import LIMIT, SETTING, STEP
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.steps import COOL, HEAT, HOLD
from hts.job.demands.asked import Asked
from hts.job.outputs.requirements import STAGES, Requirement, requirements
from hts.job.outputs.show import Shown
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Point
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.key_sheet import named
from hts.paper.packet.pages import BOX, Pages

_MEANINGS = (
    "Hold point: work stops until the role releases it. Witness point: the role is called, work "
    "goes on. Review point: papers."
)
_STOPS = "One that does not hold stops the work, and the supervisor is called."
_SINGLE = f"What the record is judged by. Each is signed when it has been seen to hold. {_STOPS}"
_SEVERAL = (
    "What the record is judged by. Each box is ticked, with initials beside it, when it has been "
    f"seen to hold in that treatment; a dash: not asked for there. {_STOPS}"
)
#: Where nothing is to be signed.
NONE = "\N{EN DASH}"
#: Treatments beside each other; more have a table of their own. Room for a box with initials.
_MOST, _SIGNED = 6, 12
#: Joints that sign beside each other for a point.
_SIGNERS = 3
#: Room for what is asked and when, and the most for boxes under words that lie, mm.
_ASKED, _SIGNING = 62.5, 52.0
#: The entries and limits a requirement comes from, for marks of change; steps by their action.
_FROM: dict[str, tuple[str, ...]] = {
    "start of the record": ("start of control",),
    "end of the record": ("end of control",),
    "cooled before heat treatment": ("first cool below", "temperature before heat treatment"),
    "kept hot before": ("begins",),
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
    """One table with a column for each treatment, then the points of the inspection plan."""
    page.section("Limits and hold points")
    runs = [(sheet, run) for sheet in subject.sheets for run in sheet.runs]
    if runs:
        page.line(_SEVERAL if len(runs) > 1 else _SINGLE)
        _table(page, subject, runs)
    _points(page, subject)


def _shown(subject: Subject, run: Run) -> Shown:
    """In the governing system alone, as the record is judged; in both where the controller is set
    in the other one."""
    single = subject.shown.single()
    return single if run.program.unit in single.units.symbols(TEMPERATURE) else subject.shown


class _Gate(NamedTuple):
    """One row: `boxes` has the place of each treatment it is signed for."""

    stage: str
    name: str
    limit: str
    boxes: list[int]
    changed: str


def _gates(subject: Subject, runs: Sequence[tuple[JointSheet, Run]]) -> list[_Gate]:
    """What is asked for alike in several treatments is one row, in the order of the stages."""
    found: dict[tuple[str, str, str], _Gate] = {}
    for place, (sheet, run) in enumerate(runs):
        for one in requirements(Asked(subject.job, sheet, run), _shown(subject, run)):
            key = (one.stage, one.name, one.specified + subject.mark(one.why))
            changed = _changed(subject, sheet, run, one)
            gate = found.setdefault(key, _Gate(*key, [], changed))
            if place not in gate.boxes:
                gate.boxes.append(place)
            if changed and not gate.changed:
                found[key] = gate._replace(changed=changed)
    # The same question with other limits stands side by side.
    first: dict[tuple[str, str], int] = {}
    for stage, name, _ in found:
        first.setdefault((stage, name), len(first))
    return sorted(
        found.values(), key=lambda one: (STAGES.index(one.stage), first[one.stage, one.name])
    )


def _table(page: Pages, subject: Subject, runs: Sequence[tuple[JointSheet, Run]]) -> None:
    if len(runs) == 1:
        page.heading(3, f"Joint {runs[0][0].joint.name}, {named(runs[0][1])}")
    for start in range(0, len(runs), _MOST):
        _part(page, subject, runs[start : start + _MOST])


def _part(page: Pages, subject: Subject, runs: Sequence[tuple[JointSheet, Run]]) -> None:
    gates = _gates(subject, runs)
    joints = len({sheet.joint.name for sheet, _ in runs}) > 1
    heads = [
        f"{sheet.joint.name} {run.program.name}" if joints else run.program.name
        for sheet, run in runs
    ]
    alone = len(runs) == 1
    # Where there is room for the words, they lie as they are read.
    boxes = [
        max(letters.width(word, 7.2, True) + 2 * tables.PADDING + 0.2 for word in head.split())
        for head in heads
    ]
    boxes = [max(wide, _SIGNED) for wide in boxes]
    tall = sum(boxes) > _SIGNING
    boxes = [_SIGNED] * len(runs) if tall else boxes
    limit = page.room - _ASKED - sum(boxes)
    page.form(
        ("When", "What", "Limit", *(("Met", "Initials, time") if alone else heads)),
        [
            (
                one.stage,
                one.name,
                one.limit,
                *(BOX if place in one.boxes else NONE for place in range(len(runs))),
                *(("",) if alone else ()),
            )
            for one in gates
        ],
        (18, 46, 92, 8, 22) if alone else (18.5, _ASKED - 18.5, limit, *boxes),
        height=4.4,
        upright=range(3, 3 + len(runs)) if tall and not alone else (),
        changed=[one.changed for one in gates],
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
    """The points of the inspection plan; what is alike for several joints is one row, signed for
    each."""
    found: dict[tuple[str, ...], list[str]] = {}
    for sheet in subject.sheets:
        for row in _planned(sheet.joint):
            found.setdefault(row, []).append(sheet.joint.name)
    page.heading(3, "Hold, witness and review points")
    if not found:
        page.line("None are specified.")
        return
    page.line(_MEANINGS)
    joints = [sheet.joint.name for sheet in subject.sheets]
    for start in range(0, len(joints), _SIGNERS):
        some = joints[start : start + _SIGNERS]
        asked = {row: names for row, names in found.items() if set(some) & set(names)}
        if len(joints) == 1:
            signed: tuple[str, ...] = ("Name and signature", "Date, time")
            widths: tuple[int, ...] = (34, 24)
        else:
            signed = tuple(f"{joint}: name, signature, time" for joint in some)
            widths = (30,) * len(some)
        page.form(
            ("When", "Kind", "What", "By", *signed),
            [
                (*row, *("" if len(joints) == 1 or one in names else NONE for one in columns))
                for row, names in asked.items()
                for columns in (signed if len(joints) == 1 else some,)
            ],
            (24, 24, 44, 30, *widths),
            height=6.0,
            dense=True,
        )


def _planned(joint: Joint) -> Iterator[tuple[str, ...]]:
    for name, stages in (
        ("before heat", joint.before),
        ("during heat", joint.during),
        ("after heat", joint.after),
    ):
        for stage in stages:
            points: list[Point] = [*stage.hold_points, *stage.witness_points, *stage.review_points]
            for point in points:
                yield name, " ".join(point.words), point.text, point.by or ""
