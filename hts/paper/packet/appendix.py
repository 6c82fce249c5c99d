"""Where every value comes from, and what was set aside."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities import Quantity
from hts.job.compiler.derivations import Derivation
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.why import Why
from hts.job.outputs.setpoint_sheet import LIMIT_WORDS, amount, is_looser, lacking
from hts.job.outputs.show import DOWN, UP, Shown
from hts.job.outputs.waivers import in_force
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

_HEADS = ("Value", "Result", "Formula", "With these numbers", "Source", "Basis", "Note")
_LEGEND = (
    "Basis: stated, in this specification or a procedure; published, seen in the standard or an "
    "agency's document; memory, recalled and not confirmed; practice, no standard behind it; "
    "derived, arithmetic from the values named. After it, how sure that is."
)
#: What the value is, its text, why.
_Line = tuple[str, str, Why]


def write(page: Pages, subject: Subject) -> None:
    """The waivers, for they are read first, then the reasons of each joint."""
    page.section("Waivers and derivations", across=True)
    _waivers(page, subject)
    page.line(_LEGEND)
    for sheet in subject.sheets:
        subject.head(page, sheet)
        rows = [_row(line) for line in _lines(subject.shown, sheet)]
        page.table(_HEADS, rows, tables.SMALL)
        _undecided(page, sheet)


def _waivers(page: Pages, subject: Subject) -> None:
    waivers = in_force(subject.job, subject.sheets)
    if not waivers:
        page.line("Waivers in force: none.")
        return
    page.heading(3, "Waivers in force")
    page.table(
        ("Rule set aside", "For", "Why", "Decided by", "Until"),
        [
            (waiver.rule, waiver.on or "", waiver.reason, waiver.by, waiver.until or "")
            for waiver in waivers
        ],
    )


def _row(line: _Line) -> tuple[str, ...]:
    what, text, why = line
    sure = f"{why.basis}, {why.confidence}" if why.basis != "stated" else why.basis
    return (
        what,
        text + letters.mark_of(why.basis),
        why.formula,
        why.numbers,
        why.cited,
        sure,
        why.note,
    )


def _lines(shown: Shown, sheet: JointSheet) -> Iterator[_Line]:
    for band in sheet.bands:
        total = f"{shown.text(band.total, UP)} in total, " if band.total is not None else ""
        each = f"{shown.text(band.each, UP)} on each side, from the {band.datum}"
        yield band.name, total + each, band.why
    # A width taken over from its limit has been told.
    told = {(band.name, band.why) for band in sheet.bands}
    own = tuple(one for one in sheet.derived if (one.quantity, one.why) not in told or one.rival)
    yield from _limits(shown, "", own)
    for run in sheet.runs:
        yield from _run(shown, run)
    yield from _arcs(shown, sheet)


def _arcs(shown: Shown, sheet: JointSheet) -> Iterator[_Line]:
    """One line for all arcs of one diameter; each stated arc by itself."""
    worked: dict[str, list[str]] = {}
    why_of: dict[str, Why] = {}
    for tag in sheet.tags:
        if tag.arc is None or tag.arc_why is None:
            continue
        if tag.arc_why.basis == "derived" and tag.outside is not None:
            key = shown.diameter(tag.outside)
            worked.setdefault(key, []).append(f"{tag.tag} {shown.tape_text(tag.arc)}")
            numbers = f"π × {tag.outside} × angle / 360"
            why_of.setdefault(key, tag.arc_why._replace(numbers=numbers))
        else:
            yield f"arc of {tag.tag}", shown.tape_text(tag.arc), tag.arc_why
    for key, texts in worked.items():
        yield f"arcs on {key}", ", ".join(texts), why_of[key]


def _limits(shown: Shown, owner: str, found: tuple[Derivation, ...]) -> Iterator[_Line]:
    for one in found:
        side = f" ({one.side})" if one.side is not None else ""
        above = f" above {shown.text(one.above, DOWN)}" if one.above is not None else ""
        within = f" within {shown.text(one.within, UP)}" if one.within is not None else ""
        at = f" at {', '.join(one.places)}" if one.places else ""
        words = LIMIT_WORDS[one.direction]
        text = f"{words} {amount(shown, one.value, one.direction)}{above}{within}{at}".strip()
        why = one.why
        yield f"{owner}{one.quantity}{side}", text, why
        if one.rival is not None:
            loose = f"{words} {amount(shown, one.rival.value, one.direction)}".strip()
            by = amount(shown, one.rival.margin, "exactly")
            rival = one.rival.why
            than = f"looser by {by}" if is_looser(one.rival.margin) else "as strict"
            note = "; ".join(part for part in (f"does not govern: {than}", rival.note) if part)
            yield f"{owner}{one.quantity}{side}, next", loose, rival._replace(note=note)


def _run(shown: Shown, run: Run) -> Iterator[_Line]:
    program = run.program
    owner = f"{program.name}: "
    yield f"{owner}start", shown.text(program.start.at), program.start.why
    yield f"{owner}rate margin", f"{float(program.margin * 100):g} %", program.margin_why
    yield from _limits(shown, owner, program.derived)
    for step in program.steps:
        yield from _step(shown, f"{owner}step {step.number}, ", step)
    proof = run.proof
    if proof is None:
        return
    yield f"{owner}reference junction", shown.text(proof.reference), proof.reference_why
    yield f"{owner}expected at the hold", f"{proof.millivolts or '–'} mV", proof.millivolts_why
    if proof.wire is not None:
        error = f"± {shown.text(proof.wire.error, UP)}"
        yield f"{owner}limit of error of the wire", error, proof.wire.why


def _step(shown: Shown, owner: str, step: Step) -> Iterator[_Line]:
    ends = (step.window.low, step.window.high) if step.window is not None else (None, None)
    window = ""
    if ends[0] is not None and ends[1] is not None:
        window = f"{shown.text(ends[0], UP)} to {shown.text(ends[1], DOWN)}"
    if step.action == HOLD and step.end is not None and step.target_why is not None:
        yield f"{owner}setpoint", shown.setpoint_text(step.end, step.window), step.target_why
    for why in step.window_why:
        yield f"{owner}hold range", window, why
    for what, value, direction, reason in (
        ("rate limit", step.limit, "maximum", step.limit_why),
        ("set rate", step.rate, "maximum", step.rate_why),
        ("hold time", step.least, "minimum", step.least_why),
    ):
        if isinstance(value, Quantity) and reason is not None:
            yield f"{owner}{what}", amount(shown, value, direction), reason
    for what, value, toward, reason in (
        ("alarm above", step.alarm_high, DOWN, step.alarm_high_why),
        ("alarm below", step.alarm_low, UP, step.alarm_low_why),
    ):
        if value is not None and reason is not None:
            yield f"{owner}{what}", shown.text(value, toward), reason


def _undecided(page: Pages, sheet: JointSheet) -> None:
    found = [
        *sheet.undecided,
        *(open_limit for run in sheet.runs for open_limit in run.program.undecided),
    ]
    if found:
        page.warning("Not decided, because the specification does not state what the rule needs:")
        page.bullets(lacking(one) for one in found)
