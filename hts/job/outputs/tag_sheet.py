"""The sheet thermocouples are placed, connected and proved by."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import DIFFERENCE, LENGTH, TEMPERATURE, Quantity
from hts.base.quantities.clock import circumference
from hts.job.compiler.changes import THERMOCOUPLE
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Channel, Tag, Wire
from hts.job.compiler.why import tabled
from hts.job.outputs import along_weld, cautions, identity, waivers
from hts.job.outputs.markdown import Page
from hts.job.outputs.marks import Marks
from hts.job.outputs.paper import Paper
from hts.job.outputs.show import UP, Shown
from hts.language.model.branching import Branching, NotPlaced, branching


def write(job: Job) -> str:
    """The whole sheet; joints without thermocouples are not on it."""
    page, shown, marks = Page(), Shown(job.units, job.changes), Marks()
    identity.head(page, job, "Thermocouples")
    with_tags = [sheet for sheet in job.joints if sheet.tags]
    for sheet in with_tags:
        page.heading(2, f"Joint {sheet.joint.name}")
        waivers.told(page, job, sheet)
        placing(page, shown, sheet)
        connections(page, shown, marks, sheet)
        proving(page, shown, marks, sheet)
    if not with_tags:
        page.line("No thermocouples are specified.")
    page.bullets(marks.notes())
    cautions.write(page, job)
    return page.text()


def placing(page: Paper, shown: Shown, sheet: JointSheet) -> None:
    """Where each thermocouple sits, and how its place is found."""
    page.heading(3, "Where they go")
    page.bullets(how_to_find(shown, sheet))
    if is_along(sheet):
        along_weld.table(page, shown, sheet, duty)
        return
    page.table(
        (
            "Tag",
            "Duty",
            "Clock",
            "Angle, deg",
            shown.head("Arc from 12:00", LENGTH),
            shown.head("Along the pipe", LENGTH),
            "Side",
            "Surface",
        ),
        [_place(shown, tag) for tag in sheet.tags],
        changed=_changed(shown, sheet),
    )
    about_branch(page, shown, sheet)


def is_along(sheet: JointSheet) -> bool:
    """Whether places are told along the weld."""
    return any(tag.along is not None for tag in sheet.tags)


def _place(shown: Shown, tag: Tag) -> tuple[str, ...]:
    return (
        tag.tag,
        duty(tag),
        str(tag.clock) if tag.clock is not None else "",
        f"{float(tag.degrees):.4g}" if tag.degrees is not None else "",
        shown.tape(tag.arc),
        "on weld"
        if tag.on_weld
        else shown.bare(tag.offset.distance if tag.offset is not None else None, LENGTH)
        or "not stated",
        tag.offset.side if tag.offset is not None else "",
        tag.surface,
    )


def how_to_find(shown: Shown, sheet: JointSheet) -> list[str]:
    """How a place is found: from where the clock is seen, and how the tape is laid."""
    if is_along(sheet):
        return along_weld.how_to_find(shown, sheet)
    entry = sheet.joint.entry
    facts = [
        f"12:00 is at: {entry.datum}."
        if entry.datum
        else "12:00 is at: top, assumed, for the specification states no datum.",
        f"Clock positions are seen {seen(entry.viewed)}."
        if entry.viewed
        else "CAUTION: the specification does not say from which side clock positions are seen. "
        "Left and right can be changed over: settle it before marking.",
        "Arc: from 12:00 clockwise in that view, along the outside, with a tape.",
        "Distances along the pipe are from the weld centreline.",
    ]
    diameters = _diameters(sheet.tags)
    for outside in diameters:
        around = Quantity.of(circumference(outside), "mm", LENGTH)
        # At a branch the parts differ: a tape laid round the wrong one misplaces the thermocouple.
        on = [tag.tag for tag in sheet.tags if tag.outside == outside and tag.arc is not None]
        whose = f"For {', '.join(on)}: once" if len(diameters) > 1 else "Once"
        facts.append(
            f"{whose} round an outside diameter of {shown.diameter(outside)}: "
            f"{shown.tape_text(around)}. If the tape reads otherwise, take the angle of what it "
            "reads: arc = reading × angle / 360."
        )
    return facts


def about_branch(page: Paper, shown: Shown, sheet: JointSheet) -> None:
    """The lengths that lead to places about a branch, and what they count from."""
    found = [tag for tag in sheet.tags if tag.taped is not None]
    if not found:
        return
    page.heading(3, "Found about the branch with a tape")
    page.bullets(counted_from(shown, sheet))
    page.table(
        ("Tag", "On", "Seen at", "Taped along the outside"),
        [
            (
                tag.tag,
                tag.offset.side.removeprefix("on ") if tag.offset is not None else "",
                str(tag.clock) if tag.clock is not None else "",
                taped(shown, tag),
            )
            for tag in found
        ],
    )


def counted_from(shown: Shown, sheet: JointSheet) -> list[str]:
    """What the lengths taped about a branch count from; nothing where none can be worked out."""
    stands = branching(sheet.joint)
    return [] if isinstance(stands, NotPlaced) else branch_facts(shown, stands)


def taped(shown: Shown, tag: Tag) -> str:
    """The lengths that lead to a place about a branch, empty where none are needed."""
    if tag.taped is None:
        return ""
    lengths = "; ".join(
        f"{measure.words} {shown.tape_text(measure.length)}" for measure in tag.taped.measures
    )
    return lengths or f"not worked out: {tag.taped.why}"


def branch_facts(shown: Shown, stands: Branching) -> list[str]:
    """From where lengths about a branch count, and what was assumed."""
    crossing = stands.crossing
    crotch, heel = crossing.on_run(0.0), crossing.on_run(180.0)
    apart = Quantity.of(Fraction(round((crotch.along - heel.along) * 10), 10), "mm", LENGTH)
    facts = [
        f"The crotch is at {stands.clock(0)}, the flanks are at {stands.clock(90)} and "
        f"{stands.clock(270)}. The weld centreline is taken to lie where the outsides of branch "
        "and run meet.",
        "Lengths along the run count from half way between the weld at "
        f"{stands.clock(0)} and at {stands.clock(180)} ({shown.tape_text(apart)} apart), those "
        "round the run from the line through these two.",
        "A clock position is the direction seen along the branch; the distance of the "
        "specification is the shortest along the outside from the weld centreline.",
    ]
    if stands.assumed:
        facts.append(f"Assumed: {', '.join(stands.assumed)}.")
    return facts


def _changed(shown: Shown, sheet: JointSheet) -> list[str]:
    return [shown.changed(sheet.joint.name, "", THERMOCOUPLE, tag.tag) for tag in sheet.tags]


def seen(viewed: str) -> str:
    """From where the clock is seen, in words."""
    return {"with flow": "looking with the flow", "against flow": "looking against the flow"}.get(
        viewed, viewed
    )


def _diameters(tags: tuple[Tag, ...]) -> list[Quantity]:
    found = {
        tag.outside.value: tag.outside
        for tag in tags
        if tag.outside is not None and tag.arc is not None
    }
    return [found[value] for value in sorted(found)]


def duty(tag: Tag) -> str:
    """What a thermocouple does: `controls zone top`."""
    if tag.spare_of:
        return f"spare of {tag.spare_of}"
    return " ".join(
        part for part in (tag.duty, tag.place or (tag.zone and f"zone {tag.zone}")) if part
    )


def connections(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet) -> None:
    """To which channel each is connected, and the wire they have in common."""
    page.heading(3, "How they are connected")
    if sheet.wire is not None:
        wiring(page, marks, sheet.wire)
    for_run = f" (channels for {sheet.hottest.program.name})" if sheet.hottest is not None else ""
    page.line(
        "Warm each by hand before power goes on, and see that its own channel, and no other, rises"
        f"{for_run}."
    )
    page.table(
        ("Tag", "Duty", "Controller", "Recorder", "Connected", shown.head("Lead at least", LENGTH)),
        [
            (
                tag.tag,
                duty(tag),
                connection(tag.controller),
                connection(tag.recorder),
                "yes" if tag.connected else "no: led out only",
                shown.bare(tag.lead, LENGTH, UP),
            )
            for tag in sheet.tags
        ],
        changed=_changed(shown, sheet),
    )


def connection(channel: Channel) -> str:
    """`R2 channel 5`; empty where it is not connected."""
    if channel.number is None:
        return ""
    return f"{channel.instrument or ''} channel {channel.number}".strip()


def short_connection(channel: Channel) -> str:
    """`R2-5` for channel 5 of R2; empty where it is not connected."""
    if channel.number is None:
        return ""
    return f"{channel.instrument}-{channel.number}" if channel.instrument else str(channel.number)


def wiring(page: Paper, marks: Marks, wire: Wire) -> None:
    """Colours of wire and cable by the standard the text names."""
    rows = [("thermocouple wire", f"{wire.type} class {wire.grade}", wire.couple)]
    if wire.cable_code:
        grade = f" class {wire.cable_grade}" if wire.cable_grade else ""
        rows.append(("extension cable", f"{wire.cable_code}{grade}", wire.cable))
    page.table(
        ("Colours", "Marking", "Positive", "Negative", "Jacket", "Standard"),
        [
            (
                what,
                marking,
                *(
                    (colours.positive, colours.negative, colours.jacket)
                    if colours is not None
                    else ("not held",) * 3
                ),
                marks.marked(wire.standard, tabled(colours.origin)) if colours else wire.standard,
            )
            for what, marking, colours in rows
        ],
    )


def proving(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet) -> None:
    """What a loop must read when it is proved."""
    proofs = [run.proof for run in sheet.runs if run.proof is not None]
    if not proofs:
        return
    page.heading(3, "Proving a loop")
    page.line(
        "Millivolts at the end of the wire when the junction is at the hold setpoint and "
        "the reference junction at the temperature named (ITS-90)."
    )
    page.table(
        (
            "For",
            shown.head("At", TEMPERATURE),
            shown.head("Reference junction", TEMPERATURE),
            "Expected, mV",
            shown.head("Limit of error of the wire, ±", DIFFERENCE),
            "Source of the limit",
        ),
        [
            (
                proof.program,
                shown.setpoint(proof.at),
                marks.marked(shown.bare(proof.reference, TEMPERATURE), proof.reference_why),
                proof.millivolts or "outside the range of the type",
                marks.marked(shown.bare(proof.wire.error, DIFFERENCE, UP), proof.wire.why)
                if proof.wire is not None
                else "not held",
                proof.wire.why.cited if proof.wire is not None else "",
            )
            for proof in proofs
        ],
    )
    assumed = [proof for proof in proofs if proof.reference_why.basis == "practice"]
    if assumed:
        page.line(
            f"The reference junction at {shown.text(assumed[0].reference)} is assumed, for "
            "the specification states none."
        )
