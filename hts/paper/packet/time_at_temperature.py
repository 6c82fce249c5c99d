"""The time-at-temperature log."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import CYCLE, PREHEAT
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.wording import worded
from hts.job.demands.asked import Asked
from hts.job.outputs.show import DOWN, UP, duration
from hts.paper.packet.groups import Subject
from hts.paper.packet.key_sheet import named
from hts.paper.packet.pages import Pages

#: Spans a hold may be broken into before the form is full.
_SPANS = 4
_COUNTS = {
    "while all in range": "The time counts while all required thermocouples are in range.",
    "while controlling in range": "The time counts while the controlling thermocouples are in "
    "range.",
}
_WIDTHS = (11.0, 32.0, 32.0, 18.0, 22.0, 44.0, 16.0)


def write(page: Pages, subject: Subject) -> None:
    """A form for each hold that has a time, with what the joint has had before."""
    held = [
        (sheet, run, step)
        for sheet in subject.sheets
        for run in sheet.runs
        for step in run.program.steps
        if run.program.kind != PREHEAT and step.action == HOLD and step.least is not None
    ]
    if not held:
        return
    before: set[str] = set()
    for sheet, run, step in held:
        page.heading(
            3,
            f"Time-at-temperature log: joint {sheet.joint.name}, {named(run)}, step {step.number}",
        )
        # What the joint has had before counts with its treatment, not with a bake.
        first = run.program.kind == CYCLE and sheet.joint.name not in before
        if first:
            before.add(sheet.joint.name)
        told = (f"{name}: {text}" for name, text in _required(subject, sheet, run, step, first))
        page.line("; ".join(one.rstrip(".") for one in told if not one.endswith(": ")) + ".")
        adds = Asked(subject.job, sheet, run).adds_up
        page.form(
            (
                "Span",
                "In range from (date, time)",
                "until (date, time)",
                "Time, h:min",
                "Added up, h:min" if adds else "Longest, h:min",
                "Why it ended",
                "Initials",
            ),
            [[str(number), *[""] * 6] for number in range(1, _SPANS + 1)],
            _WIDTHS,
            height=5.0,
            dense=True,
        )


def _required(
    subject: Subject, sheet: JointSheet, run: Run, step: Step, first: bool
) -> list[tuple[str, str]]:
    assert step.least is not None
    times = step.times
    most = step.longest.value if step.longest is not None else None
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
        (
            "If interrupted",
            "The times in range before and after are added up."
            if Asked(subject.job, sheet, run).adds_up
            else "The hold starts again from zero.",
        ),
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
