"""The sheet the controllers are set from."""

from __future__ import annotations

from hts.base.quantities import LENGTH, TIME, Quantity
from hts.job.compiler.bands import Band
from hts.job.compiler.changes import BAND, LIMIT, ZONE
from hts.job.compiler.derivations import Derivation, Undecided
from hts.job.compiler.free import FreeTime, free_times
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.program import PREHEAT, Program
from hts.job.compiler.steps import HOLD
from hts.job.compiler.why import Why
from hts.job.outputs import by_hand, cautions, identity, program_table, waivers, weld_lists
from hts.job.outputs.markdown import Page
from hts.job.outputs.marks import Marks
from hts.job.outputs.paper import Paper
from hts.job.outputs.show import DOWN, TOWARD, UP, Shown, duration, sign
from hts.language.model.seam import SIDES
from hts.language.vocabulary.cycle import Cycle

#: Times from here on are limits in whole minutes, in seconds.
_LONG = 600
LIMIT_WORDS = {"minimum": "at least", "maximum": "at most", "exactly": "", "status": ""}


def write(job: Job) -> str:
    """The whole sheet."""
    page, shown, marks = Page(), Shown(job.units, job.changes), Marks()
    identity.head(page, job, "Setpoints")
    weld_lists.write(page, job.spec, (sheet.joint.name for sheet in job.joints))
    for sheet in job.joints:
        page.heading(2, f"Joint {sheet.joint.name}")
        waivers.told(page, job, sheet)
        widths(page, shown, marks, sheet)
        for run in sheet.runs:
            treatment(page, shown, marks, sheet, run)
            settings(page, run.program)
        if not sheet.runs:
            page.line("No heating is specified for this joint.")
        origins(page, shown, marks, sheet)
    page.bullets(marks.notes())
    cautions.write(page, job)
    return page.text()


def widths(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet) -> None:
    """How wide is heated, held and insulated."""
    bands: tuple[Band, ...] = sheet.bands
    if not bands:
        return
    where = "across the weld" if sheet.joint.entry.kind in SIDES else "along the pipe"
    page.heading(3, f"Widths {where}, at least")
    page.table(
        (
            "Width",
            shown.head("In total", LENGTH),
            shown.head("On each side", LENGTH),
            "Counted from",
            "Worked out",
            "Source",
        ),
        [
            (
                band.name,
                shown.bare(band.total, LENGTH, UP),
                marks.marked(shown.bare(band.each, LENGTH, UP), band.why),
                band.datum,
                band.why.numbers,
                band.why.cited,
            )
            for band in bands
        ],
        changed=[shown.changed(sheet.joint.name, "", BAND, band.name) for band in bands],
    )


def treatment(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet, run: Run) -> None:
    """What is set on the instruments for one treatment, and how long it takes."""
    program = run.program
    if program.by_hand:
        by_hand.write(page, shown, marks, run)
        return
    # What is keyed in stands first in the controller's own unit, whatever the sheet is in.
    shown = shown.led_by(program.unit)
    title = program.name.capitalize() if program.kind == program.name else f"Cycle {program.name}"
    page.heading(3, title)
    page.bullets(facts(shown, marks, program))
    _zones(page, shown, run)
    page.heading(4, "Program, for each of these zones")
    program_table.write(page, shown, marks, program)
    times(page, marks, sheet, run)


def times(page: Paper, marks: Marks, sheet: JointSheet, run: Run) -> None:
    """When each step begins and ends, on the clock of the program."""
    program = run.program
    free = free_times(sheet, run)
    page.heading(4, "Times, in h:min since the clock started")
    page.table(
        (
            "Step",
            "Action",
            "Takes",
            "Starts",
            "Ends",
            "Earliest start",
            "Earliest end",
            "Latest start",
            "Latest end",
        ),
        [program_table.times_row(marks, step, free.get(step.number)) for step in program.steps],
    )
    if free:
        page.line(
            "free: no rate limit is in force and no rate is programmed. How long a free step "
            "takes is not counted: the clock stands still and goes on when the next step "
            "begins. The time said for it is an estimate to plan a shift by and no limit: "
            + "; ".join(dict.fromkeys(_reckoned(one) for one in free.values()))
            + "."
        )
    page.line(
        "Earliest: at the full rate limits and the shortest holds. Latest: at the slowest "
        "rates and longest holds the text or a rule states; open: nothing limits it."
    )


def _reckoned(one: FreeTime) -> str:
    """From where to where, and by what: `300 to 80 degC by heat stored / losses`."""
    why = one.why
    said = " by ".join(part for part in (why.numbers, why.formula) if part)
    return f"{said} ({why.note})" if why.note else said


def settings(page: Paper, program: Program) -> None:
    """What else is set, as the text has it."""
    said = program.settings
    if program.by_hand:
        # The table of what is kept by hand has these.
        said = tuple(text for text in said if not text.startswith(by_hand.TOLD))
    if said:
        page.line("Further settings, in the words of the specification:")
        page.bullets(said)


def facts(shown: Shown, marks: Marks, program: Program) -> list[str]:
    """What holds for the whole program, with its reasons."""
    start = program.start
    found = [
        *_together(program),
        f"Starts at {shown.text(start.at)}{marks.of(start.why)}: {_said(start.why)}.",
    ]
    if any(step.rate is not None for step in program.steps):
        found.append(
            f"Set rates stay {float(program.margin * 100):g} %{marks.of(program.margin_why)} below "
            f"the limits: {_said(program.margin_why)}."
        )
    if program.target is not None:
        why = next(
            step.target_why
            for step in program.steps
            if step.end == program.target and step.action == HOLD
        )
        assert why is not None
        held = next(
            step for step in program.steps if step.action == HOLD and step.end == program.target
        )
        numbers = f" ({why.numbers})" if why.formula else ""
        at = shown.setpoint_text(held.set_to or program.target, held.window)
        found.append(f"Setpoint of the hold {at}{marks.of(why)}: {_said(why)}{numbers}.")
    return [*found, *_instruments(program)]


def at_the_pipe(shown: Shown, marks: Marks, program: Program) -> list[str]:
    """The same in short: what stands in the table beside it is left out, and so are reasons, but
    that of a start that is assumed."""
    start = program.start
    assumed = "" if start.why.basis == "stated" else f": {_said(start.why)}"
    begins = f"Starts at {shown.text(start.at)}{marks.of(start.why)}{assumed}."
    return [*_together(program), begins, *_instruments(program)]


def _together(program: Program) -> list[str]:
    if not (isinstance(program.entry, Cycle) and program.entry.together):
        return []
    names = ", ".join(reference.name for reference in program.entry.joints)
    return [f"Heated at the same time: {names}."]


def _instruments(program: Program) -> list[str]:
    found = []
    for what, instrument in (("Controller", program.controller), ("Recorder", program.recorder)):
        if instrument is None:
            continue
        serial = f", serial {instrument.serial}" if instrument.serial else ""
        unit = getattr(instrument, "unit", None)
        units = f", set in {sign(unit)}" if unit else ""
        found.append(f"{what} {instrument.name}{serial}{units}.")
    return found


def _said(why: Why) -> str:
    """Why a value is what it is, in a few words."""
    if why.note:
        return why.note
    return why.formula or (f"{why.numbers}, {why.citation}" if why.numbers else why.citation)


def _zones(page: Paper, shown: Shown, run: Run) -> None:
    by_tag = {tag.tag: tag for tag in run.tags}
    is_along = any(zone.entry.along for zone in run.program.joint.zones)
    way = "Part heated" if is_along else "Arc, clockwise"
    rows = []
    for zone in run.program.zones:
        control = by_tag.get(zone.control.tag) if zone.control is not None else None
        channels = (control.controller, control.recorder) if control is not None else ()
        rows.append(
            (
                zone.name,
                zone.arc,
                control.tag if control is not None else "none",
                *(
                    " ".join(filter(None, (c.instrument, f"channel {c.number}")))
                    if c.number is not None
                    else "not stated"
                    for c in channels
                ),
                *("" for _ in range(2 - len(channels))),
                ", ".join(spare.tag for spare in zone.spares) or "none",
            )
        )
    page.table(
        ("Zone", way, "Controlled by", "Controller", "Recorder", "Spare"),
        rows,
        changed=[
            shown.changed(run.program.joint.name, "", ZONE, zone.name) for zone in run.program.zones
        ],
    )


def origins(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet) -> None:
    """Every limit in force, so that a number on the sheet can be traced."""
    several = sum(1 for run in sheet.runs if run.program.kind != PREHEAT) > 1
    derived = [("", "", derivation) for derivation in sheet.derived]
    for run in sheet.runs:
        owner = f", {run.program.name}" if several else ""
        derived += [(owner, run.program.name, derivation) for derivation in run.program.derived]
    if derived:
        page.heading(3, "Where the limits come from")
        page.table(
            ("Quantity", "Limit", "Worked out", "Source", "Stricter than, by"),
            [_limit_row(shown, marks, owner, one) for owner, _, one in derived],
            changed=[
                shown.changed(sheet.joint.name, treatment, LIMIT, one.quantity)
                for _, treatment, one in derived
            ],
        )
    undecided = [*sheet.undecided, *(u for run in sheet.runs for u in run.program.undecided)]
    if undecided:
        page.warning("Not decided, because the specification does not state what the rule needs:")
        page.bullets(lacking(open_limit) for open_limit in undecided)


def _limit_row(shown: Shown, marks: Marks, owner: str, derivation: Derivation) -> tuple[str, ...]:
    """`owner` tells the treatments of a joint with several apart."""
    words = LIMIT_WORDS[derivation.direction]
    value = amount(shown, derivation.value, derivation.direction)
    above = f" above {shown.text(derivation.above, DOWN)}" if derivation.above is not None else ""
    within = f" within {shown.text(derivation.within, UP)}" if derivation.within is not None else ""
    at = f" at {', '.join(derivation.places)}" if derivation.places else ""
    side = f" ({derivation.side})" if derivation.side is not None else ""
    rival = derivation.rival
    than = ""
    if rival is not None:
        than = f"{amount(shown, rival.value, derivation.direction)} of {rival.why.source}, "
        by = amount(shown, rival.margin, "exactly")
        than += by if is_looser(rival.margin) else "which is as strict"
    return (
        f"{derivation.quantity}{side}{owner}",
        f"{words} {value}{above}{within}{at}".strip() + marks.of(derivation.why),
        derivation.why.numbers,
        derivation.why.cited,
        than,
    )


def is_looser(margin: object) -> bool:
    """Whether a limit that does not govern is looser than the one that does."""
    return bool(margin.value if isinstance(margin, Quantity) else margin)


def amount(shown: Shown, value: object, direction: str) -> str:
    """A bound as text, rounded so that it is not loosened."""
    toward = TOWARD.get(direction, "nearest")
    if isinstance(value, Quantity):
        if value.dimension is TIME:
            return duration(value.value, toward, "min" if value.value >= _LONG else "s")
        return shown.text(value, toward)
    return str(value)


def lacking(open_limit: Undecided) -> str:
    why = f"needs {', '.join(open_limit.lacks)}" if open_limit.lacks else open_limit.reason
    return f"{open_limit.quantity}, {open_limit.source} {open_limit.citation}: {why}"
