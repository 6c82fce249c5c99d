"""Thermocouples of a long seam or a pad: places told along the weld."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from hts.base.quantities import LENGTH, Quantity
from hts.job.compiler.changes import THERMOCOUPLE
from hts.job.compiler.job import JointSheet
from hts.job.compiler.tags import Tag
from hts.job.outputs.paper import Paper
from hts.job.outputs.show import Shown
from hts.language.model.seam import Pad, Seam, weld_along


def how_to_find(shown: Shown, sheet: JointSheet) -> list[str]:
    """How to stand before the weld, and from where the tape is laid."""
    weld = weld_along(sheet.joint)
    if weld is None:
        return [
            "CAUTION: the specification does not tell the size of the weld that distances are "
            "taken along: settle it before marking."
        ]
    whole = shown.tape_text(length_of(weld))
    if isinstance(weld, Pad):
        datum = sheet.joint.entry.datum or "top, assumed"
        facts = [
            f"Face the pad from outside with {datum} above. Distances along the weld count "
            f"clockwise from the {weld.start}; once round is {whole}.",
        ]
    else:
        facts = _faced(weld, whole)
    return [*facts, "Distances beside the weld are square to it, from its centreline."]


def _faced(weld: Seam, whole: str) -> list[str]:
    counted = f"Distances along the weld count from {weld.start}; its length is {whole}."
    if not weld.hand:
        return [
            counted,
            "CAUTION: the specification does not say on which hand that end lies with side A "
            "above: settle it before marking.",
        ]
    facing = "Face the weld from outside with side A above"
    return [f"{facing}: {weld.start} is on your {weld.hand}.", counted]


def length_of(weld: Seam | Pad) -> Quantity:
    """How long the weld is, once round a pad."""
    return Quantity.of(Fraction(round(weld.length * 1000), 1000), "mm", LENGTH)


def table(page: Paper, shown: Shown, sheet: JointSheet, duty: Callable[[Tag], str]) -> None:
    """One row for each thermocouple; `duty` says what each does."""
    page.table(
        (
            "Tag",
            "Duty",
            shown.head("Along the weld", LENGTH),
            shown.head("From the weld centreline", LENGTH),
            shown.head("From the weld toe", LENGTH),
            "Side",
            "Surface",
        ),
        [(tag.tag, duty(tag), *places(shown, tag), tag.surface) for tag in sheet.tags],
        changed=[shown.changed(sheet.joint.name, "", THERMOCOUPLE, tag.tag) for tag in sheet.tags],
    )


def places(shown: Shown, tag: Tag) -> tuple[str, str, str, str]:
    """Along the weld, from its centreline, from its toe, and the side."""
    offset = tag.offset
    beside = "on weld" if tag.on_weld else "not stated"
    if offset is not None:
        beside = shown.bare(offset.distance, LENGTH)
    return (
        shown.tape(tag.along) if tag.along is not None else "not stated",
        beside,
        shown.bare(tag.from_toe, LENGTH),
        offset.side if offset is not None else "",
    )
