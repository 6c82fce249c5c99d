"""How wide is heated, held and insulated."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.facts import total_width
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.why import Why, demanded, stated
from hts.language.model.joint import Joint
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.types import WidthValue

BANDS = ("soak band", "heated band", "gradient band")
CENTRELINE, EDGE = "weld centreline", "edge of the weld"


class Band(NamedTuple):
    """A width along the pipe: in total, and on each side counted from `datum`.

    `total` is None where only the part beside the weld is told.
    """

    name: str
    total: Quantity | None
    each: Quantity
    datum: str
    why: Why


def bands(joint: Joint, limits: JointLimits) -> list[Band]:
    """The bands of a joint and the widths of its preheat and bake. Raises CannotCompile."""
    found: list[Band] = []
    heating = joint.entry.heating
    for name in BANDS if heating is not None else ():
        assert heating is not None
        field = name.replace(" ", "_")
        said = getattr(heating, field)
        width = limits.band(name)
        if width is not None:
            why = _why(heating, field, said, limits, name)
            found.append(_in_total(name, limits.printed(width, name, "minimum"), why))
        elif said is not None:
            raise CannotCompile([f"{joint.name}/heating: no rule gives the {name}"])
    preheat = joint.preheat
    if preheat is not None:
        found += _beside(preheat, limits, "preheat width")
    for bake in joint.bakes:
        found += _beside(bake.entry, limits, "bake width")
    return found


def _beside(entry: Entry, limits: JointLimits, name: str) -> list[Band]:
    """A width beside the weld: stated, else by rule; none where neither speaks of it."""
    said = getattr(entry, "width", None)
    if isinstance(said, WidthValue):
        total = total_width(said, limits.thickness)
        if total is None:
            raise CannotCompile(
                [f"{limits.joint.name}: the {name} depends on a thickness that is not known"]
            )
        why = stated(entry, "width", entry.place("width").text)
        if said.each_side:
            each = total / 2
            if name == "preheat width":
                each = limits.printed(each, name, "minimum")
            return [Band(name, None, each, EDGE, why)]
        return [_in_total(name, limits.printed(total, name, "minimum"), why)]
    ruled = limits.derived(name, "minimum")
    if ruled is None or not isinstance(ruled.value, Quantity):
        return []
    why = demanded(ruled.demand, "minimum")
    width = limits.printed(ruled.value, name, "minimum")
    if name == "preheat width":  # books give it beside the weld, a bake width in total
        return [Band(name, None, width, EDGE, why)]
    return [_in_total(name, width, why)]


def _in_total(name: str, width: Quantity, why: Why) -> Band:
    each = width / 2
    if width.beside is not None:
        each = each.with_beside(width.beside / 2)
    return Band(name, width, each, CENTRELINE, why)


def _why(entry: Entry, field: str, said: object, limits: JointLimits, name: str) -> Why:
    ruled = limits.derived(name, "minimum")
    if isinstance(said, WidthValue) or ruled is None:
        return stated(entry, field, entry.place(field).text)
    return demanded(ruled.demand, "minimum")
