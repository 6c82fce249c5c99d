"""What stands on the attachment card: each value with its letter in the sketches and its basis."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.quantities import ENERGY, LENGTH, TEMPERATURE, Quantity
from hts.job.compiler.job import Job, JointSheet
from hts.job.outputs.show import DOWN, UP, Shown
from hts.language.vocabulary.preheat import Measured
from hts.language.vocabulary.thermocouples import Attached, Thermocouples

THERMOCOUPLE, LEAD, PROBE, CRAYON = "thermocouple", "lead", "probe", "crayon"
WELDED = ("capacitor discharge",)

SPEC = "specification"
_PRACTICE = "practice"
_ABOUT_6_MM = Quantity.of("1/4", "in", LENGTH)
#: The most where neither the text nor a book in force says anything.
_USUAL = {
    "leg separation": (Quantity.of(6, "mm", LENGTH), "AWS D10.10 8.3, memory"),
    "attachment energy": (Quantity.of(125, "J", ENERGY), _PRACTICE),
}
_PROBE_TO = Quantity.of(600, "degF", TEMPERATURE)


class Row(NamedTuple):
    """`mark` is the letter in the sketch `part`; `basis` the specification, a book with its basis,
    or practice."""

    part: str
    mark: str
    what: str
    value: str
    basis: str


def rows(job: Job, sheet: JointSheet) -> list[Row]:
    """The rows of a joint: of its thermocouples, and of what else measures its preheat."""
    shown = Shown(job.units)
    found: list[Row] = []
    block = sheet.joint.entry.thermocouples
    if block is not None:
        found += _attached(block, sheet, shown)
        found += _leads(block, sheet, shown)
    preheat = sheet.joint.preheat
    for way in preheat.measured if preheat is not None else ():
        if way.how == "contact probe":
            found += _probe(way, shown)
        elif way.how == "temperature-indicating crayon":
            found += _crayon(way, sheet, shown)
    # The letters of the sketches, one after the other.
    return sorted(found, key=lambda row: row.mark)


def way_of(sheet: JointSheet) -> str:
    """How the junctions are fixed; empty where the text does not say."""
    block = sheet.joint.entry.thermocouples
    return block.attached.how if block is not None and block.attached is not None else ""


def is_induction(sheet: JointSheet) -> bool:
    """Whether a coil heats the joint, for treatment or preheat."""
    heating, preheat = sheet.joint.entry.heating, sheet.joint.preheat
    methods = (
        heating.method if heating is not None else None,
        preheat.method if preheat is not None else None,
    )
    return "induction" in methods


def _attached(block: Thermocouples, sheet: JointSheet, shown: Shown) -> Iterator[Row]:
    said = block.attached
    how = said.how if said is not None else ""
    yield _row(THERMOCOUPLE, "A", "way of fixing", how or "not stated: settle it", bool(how))
    prepared = said.prepared if said is not None and said.prepared else ""
    bright = prepared or "bright metal, filed or ground"
    yield _row(THERMOCOUPLE, "B", "spot", bright, bool(prepared))
    if how in WELDED and said is not None:
        yield from _welded(said, sheet, shown)
    elif how:
        bias = said.bias if said is not None else None
        yield _row(
            THERMOCOUPLE,
            "C",
            "reads too hot",
            f"by {shown.text(bias, UP)}: allowed for" if bias is not None else "not stated",
            bias is not None,
        )
        yield Row(
            THERMOCOUPLE,
            "D",
            "in touch",
            "pressed on over its whole end; look again when hot",
            _PRACTICE,
        )
    cover = block.junction_cover
    if cover:
        yield Row(THERMOCOUPLE, "H", "cover", cover, SPEC)
    else:
        yield Row(
            THERMOCOUPLE,
            "H",
            "cover",
            "shield it from the radiation of the heaters",
            "AWS D10.10:2021, published",
        )


def _welded(said: Attached, sheet: JointSheet, shown: Shown) -> Iterator[Row]:
    bare = said.stripped
    yield _row(
        THERMOCOUPLE,
        "C",
        "bare length of each wire",
        shown.text(bare) if bare is not None else f"about {shown.text(_ABOUT_6_MM)}",
        bare is not None,
    )
    first = f", {said.order} first" if said.order else ""
    yield _row(
        THERMOCOUPLE, "D", "each wire", f"attached by itself{first}", said.separate or bool(first)
    )
    yield _bounded(
        THERMOCOUPLE, "E", "wires apart", said.separation, "leg separation", sheet, shown
    )
    yield _row(
        THERMOCOUPLE, "F", "tested", "bent flat onto the metal and back, each wire", said.bent
    )
    yield _bounded(THERMOCOUPLE, "G", "energy", said.energy, "attachment energy", sheet, shown)
    if said.taped:
        yield Row(THERMOCOUPLE, "I", "taped down", "behind the junction: nothing pulls", SPEC)


def _leads(block: Thermocouples, sheet: JointSheet, shown: Shown) -> Iterator[Row]:
    if is_induction(sheet):
        along = block.leads or "square to the coil"
        yield _row(LEAD, "K", "lead", f"{along}, clear of its turns", bool(block.leads))
    else:
        yield Row(LEAD, "K", "lead", "clear of the heaters, under the blanket", _PRACTICE)
    if block.lead is not None:
        yield Row(LEAD, "L", "lead at least", shown.text(block.lead, UP), SPEC)
    wire = sheet.wire
    if wire is not None and wire.couple is not None:
        yield Row(
            LEAD,
            "M",
            "polarity of the wire",
            f"+ {wire.couple.positive}, \N{EN DASH} {wire.couple.negative}",
            f"{wire.standard}, {wire.couple.origin.basis}",
        )
    if wire is not None and wire.cable is not None:
        yield Row(
            LEAD,
            "N",
            f"cable {wire.cable_code}",
            f"+ {wire.cable.positive}, \N{EN DASH} {wire.cable.negative}",
            f"{wire.standard}, {wire.cable.origin.basis}",
        )
    said = block.extension.connectors if block.extension is not None else None
    yield _row(LEAD, "O", "connector", said or "same alloy, + to +", bool(said))
    yield Row(LEAD, "P", "tag", "at both ends, the same on both", _PRACTICE)


def _probe(way: Measured, shown: Shown) -> Iterator[Row]:
    yield from _where(PROBE, "Q", way, shown)
    yield Row(PROBE, "R", "held", "its whole face on the metal until the reading stands", _PRACTICE)
    yield Row(
        PROBE,
        "S",
        "when it lifts off",
        "it reads too low, and the metal is overheated",
        "derived: heat has to pass the gap",
    )
    if way.highest is not None:
        low = f"{shown.text(way.lowest)} to " if way.lowest is not None else "up to "
        yield Row(PROBE, "T", "its range", low + shown.text(way.highest, DOWN), SPEC)
    yield Row(PROBE, "U", "trusted up to", shown.text(_PROBE_TO, DOWN), _PRACTICE)


def _crayon(way: Measured, sheet: JointSheet, shown: Shown) -> Iterator[Row]:
    yield from _where(CRAYON, "V", way, shown)
    least, most = sheet.limits.preheat(), sheet.limits.interpass()
    if least is not None:
        text = f"melts before the arc: mark for {shown.text(least, UP)} or the next above"
        yield Row(CRAYON, "W", "first mark", text, "minimum preheat of this joint")
    if most is not None:
        text = f"does not melt before the next pass: mark for {shown.text(most, DOWN)} or below"
        yield Row(CRAYON, "X", "second mark", text, "maximum interpass of this joint")
    yield Row(CRAYON, "Y", "never", "in the groove or on metal to be welded", _PRACTICE)


def _where(part: str, mark: str, way: Measured, shown: Shown) -> Iterator[Row]:
    places = [f"{shown.text(way.at)} from the edge of the groove" if way.at is not None else ""]
    places += [
        f"{lead} {text}" if text else ""
        for lead, text in (("on the", way.face), ("kept", way.placed), ("kept", way.kept))
    ]
    text = ", ".join(place for place in places if place)
    yield _row(part, mark, "where", text or "not stated: settle it", bool(text))


def _row(part: str, mark: str, what: str, value: str, is_stated: bool) -> Row:
    return Row(part, mark, what, value, SPEC if is_stated else _PRACTICE)


def _bounded(
    part: str,
    mark: str,
    what: str,
    said: Quantity | None,
    quantity: str,
    sheet: JointSheet,
    shown: Shown,
) -> Row:
    """What the text states, else the most that a book or a procedure allows."""
    governing = sheet.limits.of(quantity)
    demand = governing.setter("maximum") if governing is not None else None
    most = demand.bounds["maximum"] if demand is not None else None
    if said is not None:
        return Row(part, mark, what, shown.text(said), SPEC)
    if demand is None or not isinstance(most, Quantity):
        usual, basis = _USUAL[quantity]
        return Row(part, mark, what, f"at most {shown.text(usual, DOWN)}", basis)
    source = demand.limit.source
    basis = f"{source.name}, {source.basis}" if source.basis else source.name
    return Row(part, mark, what, f"at most {shown.text(most, DOWN)}", basis)
