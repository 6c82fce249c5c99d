"""What the drawings of a joint say alike: titles, sizes, the view."""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import circumference
from hts.job.compiler.job import JointSheet
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import Shown


def view(sheet: JointSheet) -> str:
    """From where clock positions are seen, and what is at 12:00."""
    entry = sheet.joint.entry
    seen = f"seen {entry.viewed}" if entry.viewed else "VIEW NOT STATED: settle it before marking"
    datum = f"12:00 at {entry.datum}" if entry.datum else "12:00 at top (assumed)"
    return f"{seen}, {datum}"


def sizes(sheet: JointSheet, shown: Shown) -> list[str]:
    """Outside diameter and wall of each side that differs from the one before."""
    found: list[str] = []
    for side in sheet.joint.sides:
        parts = []
        if side.outside_diameter is not None and isinstance(side.outside_diameter.value, Quantity):
            parts.append(f"outside diameter {shown.text(side.outside_diameter.value)}")
        if side.wall is not None and isinstance(side.wall.value, Quantity):
            parts.append(f"wall {shown.text(side.wall.value)}")
        text = ", ".join(parts)
        if text and not any(one.endswith(text) for one in found):
            found.append(f"{side.name}: {text}" if _differ(sheet) else text)
    return found


def not_placed(tags: Iterable[Tag]) -> str:
    """What is said of thermocouples that cannot be drawn."""
    named = ", ".join(tag.tag for tag in tags)
    return f"Not drawn, for the specification does not say where: {named}." if named else ""


def _differ(sheet: JointSheet) -> bool:
    figures = {
        tuple(
            figure.value if figure is not None else None for figure in (s.outside_diameter, s.wall)
        )
        for s in sheet.joint.sides
    }
    return len(figures) > 1


def diameters(sheet: JointSheet) -> list[Quantity]:
    """Outside diameters thermocouples are placed on, or that of the joint; each once."""
    found = {
        tag.outside.value: tag.outside
        for tag in sheet.tags
        if tag.outside is not None and tag.arc is not None
    }
    outside = sheet.joint.outside_diameter
    if not found and outside is not None:
        found[outside.value] = outside
    return [found[value] for value in sorted(found)]


def once_round(sheet: JointSheet, shown: Shown) -> str:
    """The length of a turn of the tape, for each outside diameter."""
    texts = []
    several = len(diameters(sheet)) > 1
    for outside in diameters(sheet):
        around = Quantity.of(circumference(outside), "mm", LENGTH)
        on = f" (outside diameter {shown.text(outside)})" if several else ""
        texts.append(f"{shown.tape_text(around)}{on}")
    return f"Once round, outside: {'; '.join(texts)}." if texts else ""
