"""The first sheet at the pipe: which weld it is, what is done in which order, what can hurt."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import TEMPERATURE, Quantity
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import BAKE, PREHEAT
from hts.job.compiler.steps import COOL, HEAT, HOLD, Step
from hts.job.outputs.show import DOWN, duration
from hts.job.outputs.waivers import in_force
from hts.paper.packet import hazards
from hts.paper.packet.groups import Subject
from hts.paper.packet.joints import drawing, material, thickness
from hts.paper.packet.pages import Pages


def write(page: Pages, subject: Subject) -> None:
    """Joint, treatments and warnings; the cautions at the end."""
    for sheet in subject.sheets:
        subject.head(page, sheet)
        page.facts(_joint(subject, sheet))
        _treatments(page, subject, sheet)
    _set_aside(page, subject)
    hazards.write(page, subject)


def _joint(subject: Subject, sheet: JointSheet) -> list[tuple[str, str]]:
    entry, shown = sheet.joint.entry, subject.shown
    sizes = []
    for side in sheet.joint.sides:
        parts = []
        for figure, say in ((side.outside_diameter, shown.diameter), (side.wall, shown.wall)):
            if figure is not None and isinstance(figure.value, Quantity):
                parts.append(say(figure.value))
        nominal = " × ".join(parts)
        taken = f" {side.wall_taken}" if side.wall_taken else ""
        sizes.append((f"{nominal}{taken}", material(side, None), side.name))
    alike = len({one[:2] for one in sizes}) == 1
    parts_said: list[tuple[str, str]] = (
        [("Pipe", sizes[0][0]), ("Material", sizes[0][1])]
        if alike
        else [(f"Side {name}", ", ".join(filter(None, (said, what)))) for said, what, name in sizes]
    )
    heating, named_job = entry.heating, subject.job.spec.file.job
    return [
        ("Weld", entry.kind or ""),
        ("Line, spool", ", ".join(filter(None, (entry.line, entry.spool)))),
        ("Drawing", drawing(entry)),
        ("Governing thickness", thickness(subject, sheet)),
        *parts_said,
        ("Axis", subject.words(entry.axis)),
        ("12:00 is at", entry.datum or "top (assumed: none is stated)"),
        ("Clock viewed", entry.viewed or "NOT STATED: settle it before marking"),
        ("Flow", str(entry.flow or "")),
        ("Heated by", (heating.method if heating is not None else None) or ""),
        (
            "Permits",
            ", ".join(named_job.permit) if named_job is not None else "",
        ),
    ]


def _treatments(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    """What is done, in the order it is done."""
    if not sheet.runs:
        page.line("No heating is specified for this joint.")
        return
    page.table(
        (
            "Order",
            "Treatment",
            subject.shown.head("Range", TEMPERATURE),
            "Hold",
            "Heating at most",
            "Cooling at most",
            "Run by",
            "Recorded by",
        ),
        [_treatment(subject, number, run) for number, run in enumerate(sheet.runs, 1)],
    )


def _treatment(subject: Subject, number: int, run: Run) -> tuple[str, ...]:
    program, shown = run.program, subject.shown
    held = [step for step in program.steps if step.action == HOLD]
    hottest = max(held, key=_top, default=None)
    hold = ""
    if hottest is not None and hottest.least is not None:
        hold = f"at least {duration(hottest.times.duration or hottest.least.value)}"
        if hottest.longest is not None:
            hold += f", at most {duration(hottest.longest.value, DOWN)}"
    elif hottest is not None:
        hold = hottest.note
    rates = []
    for action in (HEAT, COOL):
        limits = [one.limit for one in program.steps if one.action == action and one.limit]
        rates.append(shown.text(min(limits), DOWN) if limits else "free")
    controller, recorder = program.controller, program.recorder
    return (
        str(number),
        named(run),
        shown.bare_window(hottest.window) if hottest is not None else "",
        hold,
        *rates,
        "hand" if program.by_hand else controller.name if controller is not None else "not stated",
        recorder.name if recorder is not None else "not stated",
    )


def _top(step: Step) -> Fraction:
    high = step.window.high if step.window is not None else None
    return high.value if high is not None else Fraction(0)


def named(run: Run) -> str:
    """`preheat`, `bake`, `cycle tempering`."""
    program = run.program
    return program.name if program.kind in (PREHEAT, BAKE) else f"cycle {program.name}"


def _set_aside(page: Pages, subject: Subject) -> None:
    """What a check found and nobody mended, and the rules that are waived."""
    waivers = in_force(subject.job, subject.sheets)
    if waivers:
        page.warning("Set aside for this work, and not checked:")
        page.bullets(
            f"{one.rule} on {one.on}: {one.reason} ({one.by}, until {one.until})" for one in waivers
        )
    if subject.job.warnings:
        page.warning("Open warnings of the check when this was compiled:")
        page.bullets(subject.job.warnings)
