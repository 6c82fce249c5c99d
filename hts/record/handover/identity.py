"""Whose work it is, on what, measured with what, and who signs: what the specification states."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.job.compiler.tags import Channel
from hts.job.outputs.show import Shown
from hts.language.vocabulary.equipment import Instrument
from hts.language.vocabulary.job import Signature
from hts.record.judging import Judgement
from hts.record.plan import Plan

#: The order in which a document is signed.
_POSTS = ("prepared", "checked", "reviewed", "endorsed", "approved")
#: Where the document names no one who signs.
_USUAL = ("heat treatment", "maker", "inspector", "owner")


def whose(plan: Plan) -> list[tuple[str, str]]:
    """Name and value; what is not stated is left out."""
    job, joint = plan.job.spec.file.job, plan.sheet.joint.entry
    assert job is not None  # or there were no document
    codes = ", ".join(
        f"{one.name} {'edition' if one.is_book else 'revision'} {one.edition}"
        if one.edition
        else one.name
        for one in plan.job.authorities
    )
    welding = joint.welding
    stated = (
        ("Client", job.client),
        ("Project", job.project),
        ("Line", joint.line),
        ("Drawing", joint.drawing),
        ("Size", _size(plan)),
        ("Welding procedure", (welding.procedure or "") if welding is not None else ""),
        ("Procedure qualification", ", ".join(one.record for one in joint.qualified)),
        ("Held to", codes),
        ("Permit", ", ".join(job.permit)),
    )
    return [(name, value) for name, value in stated if value]


def _size(plan: Plan) -> str:
    """`inlet 273 mm × 25 mm, outlet 273 mm × 25 mm`; once where all sides are alike."""
    shown = Shown(plan.job.units)
    sizes = {}
    for side in plan.sheet.joint.sides:
        figures = ((side.outside_diameter, shown.diameter), (side.wall, shown.wall))
        known = [
            say(figure.value)
            for figure, say in figures
            if figure is not None and isinstance(figure.value, Quantity)
        ]
        if known:
            sizes[side.name] = " × ".join(known) + (
                f" {side.wall_taken}" if side.wall_taken else ""
            )
    if len(set(sizes.values())) == 1:
        return next(iter(sizes.values()))
    return ", ".join(f"{name} {size}" for name, size in sizes.items())


def instrument(one: Instrument | None) -> str:
    """`R2, serial 40-126, calibrated 2026-09-08 until 2027-03-08`."""
    if one is None:
        return "not stated"
    told = [one.name]
    if one.serial:
        told.append(f"serial {one.serial}")
    if one.calibrated is not None:
        told.append(f"calibrated {one.calibrated.on} until {one.calibrated.until or 'not stated'}")
    return ", ".join(told)


def wired(judgement: Judgement) -> list[tuple[str, ...]]:
    """A row for each recorded thermocouple: tag, duty, place, clock position, distance from the
    weld, type and class, wire lot, channel of the recorder and of the controller."""
    plan = judgement.plan
    shown, block = Shown(plan.job.units), plan.sheet.joint.entry.thermocouples
    kind = lot = ""
    if block is not None:
        kind = f"{block.type} class {block.grade}" if block.grade else block.type or ""
        lot = block.lot or "not stated"
    rows: list[tuple[str, ...]] = []
    for one in plan.watched:
        if one.tag not in judgement.record.series:
            continue
        tag = one.source
        away = "on the weld" if tag.on_weld else ""
        if tag.offset is not None:
            away = f"{shown.text(tag.offset.distance)} {tag.offset.side}"
        duty = f"{one.duty} of {one.spare_of}" if one.spare_of else one.duty
        clock = str(tag.clock) if tag.clock is not None else ""
        place = f"{one.place}, inside" if tag.surface == "inside" else one.place
        rows.append(
            (one.tag, duty, place, clock, away, kind, lot,
             _channel(tag.recorder), _channel(tag.controller))
        )  # fmt: skip
    return rows


def _channel(one: Channel) -> str:
    """`R2 channel 3`."""
    if one.number is None:
        return one.instrument or ""
    return f"{one.instrument or ''} channel {one.number}".strip()


def signing(plan: Plan) -> list[tuple[str, str]]:
    """Post and role of everyone who signs the document, and so the record of its work."""
    job = plan.job.spec.file.job
    signed = job.signed if job is not None else None
    found = []
    for post in _POSTS:
        ones = getattr(signed, post, None) or []
        for one in ones if isinstance(ones, list) else [ones]:
            if isinstance(one, Signature):
                found.append((post, one.role))
    return found or [(post, "") for post in _USUAL]
