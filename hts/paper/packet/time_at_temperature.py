"""The time-at-temperature log."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import CYCLE, PREHEAT
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.wording import worded
from hts.job.demands.asked import Asked
from hts.job.outputs.show import DOWN, UP, duration
from hts.paper.packet.groups import Subject
from hts.paper.packet.groups import joints as named
from hts.paper.packet.pages import Pages
from hts.paper.packet.preheat_log import ROW

#: Spans a hold may be broken into before the form is full; where several holds are logged.
_SPANS, _SPANS_EACH = 4, 3
#: Rows that are kept on one page.
_WHOLE = 12
_COUNTS = {
    "while all in range": "the time counts while all required thermocouples are in range",
    "while controlling in range": "the time counts while the controlling thermocouples are in "
    "range",
}
_WIDTHS = (26.0, 30.0, 32.0, 18.0, 22.0, 44.0, 16.0)


class _Hold(NamedTuple):
    """Holds logged alike: `told` is what is required, `treatment` which step of which."""

    told: tuple[str, ...]
    treatment: str
    joints: list[str]

    def spans(self, subject: Subject, alone: bool) -> list[str]:
        """The first cells of its rows; `alone` where no other hold is logged with it."""
        several = len(subject.sheets) > 1
        count = _SPANS if alone and not several else _SPANS_EACH
        return [
            ", ".join(
                filter(None, (joint if several else "", "" if alone else self.treatment, str(span)))
            )
            for joint in self.joints
            for span in range(1, count + 1)
        ]


def write(page: Pages, subject: Subject) -> None:
    """One form for all holds that have a time, with what the joint has had before."""
    found = list(_holds(subject))
    if not found:
        return
    alone = len(found) == 1
    joints = dict.fromkeys(joint for one in found for joint in one.joints)
    of = f", {found[0].treatment}" if alone else ""
    page.heading(3, f"Time-at-temperature log: {named(list(joints))}{of}")
    # What holds for all of them is said once.
    shared = [part for part in found[0].told if all(part in one.told for one in found)]
    if shared:
        page.line(f"{_begun('; '.join(shared))}.", leads=True)
    for one in found:
        own = "; ".join(part for part in one.told if part not in shared)
        whose = f"{', '.join(one.joints)}, " if len(one.joints) < len(joints) else ""
        if own:
            page.line(f"{whose}{one.treatment}: {own}.", leads=True)
    spans = [span for one in found for span in one.spans(subject, alone)]
    page.form(
        (
            "Span",
            "In range from (date, time)",
            "until (date, time)",
            "Time, h:min",
            "Counts so far, h:min",
            "Why it ended",
            "Initials",
        ),
        [[span, *[""] * 6] for span in spans],
        _WIDTHS,
        height=ROW,
        dense=True,
        whole=len(spans) <= _WHOLE,
    )


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]


def _holds(subject: Subject) -> Iterator[_Hold]:
    found: dict[tuple[tuple[str, ...], str], list[str]] = {}
    before: set[str] = set()
    for sheet in subject.sheets:
        for run in sheet.runs:
            for step in run.program.steps:
                if run.program.kind == PREHEAT or step.action != HOLD or step.least is None:
                    continue
                # What the joint has had before counts with its treatment, not with a bake.
                first = run.program.kind == CYCLE and sheet.joint.name not in before
                if first:
                    before.add(sheet.joint.name)
                required = _required(subject, sheet, run, step, first)
                parts = tuple(f"{name} {text}".strip() for name, text in required if text)
                timed = [one for one in run.program.steps if one.action == HOLD and one.least]
                which = f" step {step.number}" if len(timed) > 1 else ""
                key = parts, f"{run.program.name}{which}"
                found.setdefault(key, []).append(sheet.joint.name)
    for (told, treatment), joints in found.items():
        yield _Hold(told, treatment, joints)


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
        ("every reading from", within),
        ("hold at least", duration(times.duration or step.least.value)),
        ("hold at most", duration(most, DOWN) if most is not None else ""),
        ("", _COUNTS.get(counts or "", "")),
        (
            "if it is interrupted,",
            "the times in range before and after are added up"
            if Asked(subject.job, sheet, run).adds_up
            else "it starts again from zero, and only the longest span counts",
        ),
    ]
    if first:
        entry = sheet.joint.entry
        found += [
            (
                "earlier time at temperature:",
                f"{worded(past_heating.time)} at {subject.shown.text(past_heating.at)} "
                f"{past_heating.what or ''}".strip(),
            )
            for past_heating in entry.earlier
            if past_heating.at is not None
        ]
        found += [
            ("qualified by", f"{qualification.record} for {worded(qualification.hold)}")
            for qualification in entry.qualified
            if qualification.hold is not None
        ]
    return found
