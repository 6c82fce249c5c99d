"""The time-at-temperature log."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.wording import worded
from hts.job.outputs.show import DOWN, UP, duration
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

#: Spans a hold may be broken into before the form is full.
_SPANS = 6
_COUNTS = {
    "while all in range": "The time counts while all required thermocouples are in range.",
    "while controlling in range": "The time counts while the controlling thermocouples are in "
    "range.",
}
_HEADS = (
    "Span",
    "In range from",
    "until",
    "Time, h:min",
    "Added up, h:min",
    "Why it ended",
    "Initials",
)
_WIDTHS = (12.0, 32.0, 32.0, 20.0, 22.0, 40.0, 16.0)


def write(page: Pages, subject: Subject) -> None:
    """A log sheet for each hold that has a time, with what the joint has had before."""
    held = [
        (sheet, run, step)
        for sheet in subject.sheets
        for run in sheet.runs
        for step in run.program.steps
        if run.program.kind != PREHEAT and step.action == HOLD and step.least is not None
    ]
    if not held:
        return
    page.section("Time-at-temperature log")
    seen: set[str] = set()
    for sheet, run, step in held:
        name = f"Joint {sheet.joint.name}, {run.program.name}, step {step.number}"
        page.heading(2, name)
        first = sheet.joint.name not in seen
        seen.add(sheet.joint.name)
        page.facts(_required(subject, sheet, run, step, first))
        page.form(
            _HEADS,
            [[str(number), *[""] * 6] for number in range(1, _SPANS + 1)],
            _WIDTHS,
            height=8.0,
        )


def _required(
    subject: Subject, sheet: JointSheet, run: Run, step: Step, first: bool
) -> list[tuple[str, str]]:
    assert step.least is not None
    times = step.times
    most = None
    if times.latest_finish is not None and times.latest_begin is not None:
        most = times.latest_finish - times.latest_begin
    window = step.window
    within = ""
    if window is not None and window.low is not None and window.high is not None:
        low, high = subject.shown.text(window.low, UP), subject.shown.text(window.high, DOWN)
        within = f"{low} to {high}"
    counts = getattr(run.program.entry, "hold_count", None)
    found = [
        ("Every reading within", within),
        ("Hold at least", duration(times.duration or step.least.value)),
        ("Hold at most", duration(most, DOWN) if most is not None else ""),
        ("What counts", _COUNTS.get(counts or "", "")),
    ]
    if first:
        entry = sheet.joint.entry
        found += [
            (
                "Earlier time at temperature",
                f"{worded(past_heating.time)} at {subject.shown.text(past_heating.at)} "
                f"{past_heating.what or ''}".strip(),
            )
            for past_heating in entry.earlier
            if past_heating.at is not None
        ]
        found += [
            ("Qualified for", f"{qualification.record}: {worded(qualification.hold)}")
            for qualification in entry.qualified
            if qualification.hold is not None
        ]
    return found
