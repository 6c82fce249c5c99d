"""The lines of the kit list, each with how its count was come by."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, pi
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.checking.rules.helpers.counted import counted
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.wording import clauses, worded
from hts.job.outputs.show import DOWN, UP, Shown
from hts.language.model.seam import Pad, Seam, weld_along
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.equipment import Controller, Recorder
from hts.language.vocabulary.heating import Heating
from hts.paper.packet.groups import Subject, subjects
from hts.paper.packet.instruments import powered, used

#: Common practice, no source: blanket laid over itself, mm; one steel band for each so many mm of
#: width, and one more; thermocouples and wire taken along above those needed.
OVERLAP, BAND_EVERY, RESERVE = 100, 300, Fraction(1, 10)
STATED, PRACTICE = "stated", "practice"


class Line(NamedTuple):
    """One thing to load: how many in all, and how many at once by the joints heated together."""

    group: str
    item: str
    unit: str
    total: Fraction
    at_once: Fraction
    how: str
    basis: str


class _Need(NamedTuple):
    group: str
    item: str
    unit: str
    needed: Fraction
    how: str
    basis: str


def kit_rows(job: Job) -> list[Line]:
    """The whole list, alike things in one line, in the order they are used at the pipe."""
    shown = Shown(job.units)
    total: dict[tuple[str, str, str], Fraction] = {}
    once: dict[tuple[str, str, str], Fraction] = {}
    first: dict[tuple[str, str, str], _Need] = {}
    groups = subjects(job)
    for subject in groups:
        here: dict[tuple[str, str, str], Fraction] = {}
        for sheet in subject.sheets:
            for need in _needs(subject, shown, sheet):
                key = (need.group, need.item, need.unit)
                first.setdefault(key, need)
                total[key] = total.get(key, Fraction(0)) + need.needed
                here[key] = here.get(key, Fraction(0)) + need.needed
        for key, count in here.items():
            once[key] = max(once.get(key, Fraction(0)), count)
    lines = [Line(*key, total[key], once[key], first[key].how, first[key].basis) for key in total]
    return [*sorted(lines, key=lambda line: _ORDER.index(line.group)), *_shared(job, groups, shown)]


_ORDER = ("heating", "insulation", "thermocouples", "preheat")


def _needs(subject: Subject, shown: Shown, sheet: JointSheet) -> Iterator[_Need]:
    heating = sheet.joint.entry.heating
    if heating is not None:
        yield from _heaters(shown, heating)
        yield from _insulation(shown, sheet, heating)
    yield from _thermocouples(shown, sheet)
    preheat = sheet.joint.preheat
    for one in preheat.measured if preheat is not None else ():
        if one.how != "thermocouple":
            ends = ((one.lowest, UP), (one.highest, DOWN))
            reach = " to ".join(shown.text(end, way) for end, way in ends if end is not None)
            item = f"{one.how}, {reach}" if reach else one.how
            yield _Need("preheat", item, "pieces", Fraction(1), "one for each joint", STATED)


def _heaters(shown: Shown, heating: Heating) -> Iterator[_Need]:
    if heating.coil is not None:
        yield _Need("heating", f"coil: {_words(heating.coil)}", "pieces", Fraction(1), "", STATED)
    for heater in heating.heaters:
        size = " × ".join(
            shown.text(side) for side in (heater.width, heater.length) if side is not None
        )
        power = worded(heater.power) if heater.power is not None else ""
        item = ", ".join(filter(None, (heater.kind or "heater", size, power)))
        count = Fraction(heater.count or 1)
        yield _Need("heating", item, "pieces", count, "heaters as listed", STATED)
    if heating.heaters:
        return
    for zone in heating.zones:
        if zone.heaters:
            each = ""
            if zone.power is not None:
                kilowatts = zone.power.to("kW") / zone.heaters
                each = f", {float(kilowatts):.3g} kW"
            how = "heaters of the zones; power of the zone / heaters"
            item = f"heater, size not stated{each}"
            yield _Need("heating", item, "pieces", Fraction(zone.heaters), how, STATED)


def _insulation(shown: Shown, sheet: JointSheet, heating: Heating) -> Iterator[_Need]:
    blanket, outside = heating.insulation, sheet.joint.outside_diameter
    width, weld = _width(sheet, heating), weld_along(sheet.joint)
    if blanket is not None and width is not None and weld is not None:
        size = f" {shown.text(blanket.thickness, UP)}" if blanket.thickness else ""
        item = f"{blanket.material or 'insulation'}{size} in {blanket.layers or 1} layers"
        flat, how = _flat_area(weld, float(width))
        total = Fraction(flat) * (blanket.layers or 1) / 1_000_000
        yield _Need("insulation", item, "m²", total, f"{how}, each layer", PRACTICE)
        return
    if blanket is None or outside is None or width is None:
        return
    thick = blanket.thickness.value if blanket.thickness is not None else Fraction(0)
    layers = blanket.layers or 1
    each = thick / layers
    area = sum(
        (Fraction(pi * float(outside.value + (2 * n + 1) * each)) + OVERLAP) * width
        for n in range(layers)
    )
    size = f" {shown.text(blanket.thickness, UP)} in {layers} layers" if blanket.thickness else ""
    item = f"{blanket.material or 'insulation'}{size}"
    how = f"π × (diameter at the middle of each layer) + {OVERLAP} mm overlap, × width, each layer"
    yield _Need("insulation", item, "m²", Fraction(area) / 1_000_000, how, PRACTICE)
    bands = layers * (ceil(width / BAND_EVERY) + 1)
    how = f"one for each {BAND_EVERY} mm of width and one more, each layer"
    yield _Need("insulation", "steel bands with clips", "pieces", Fraction(bands), how, PRACTICE)
    if heating.inside_insulation is not None:
        item = f"inside: {_words(heating.inside_insulation)}"
        yield _Need("insulation", item, "sets", Fraction(1), "one for each joint", STATED)
    if heating.liner is not None:
        item = f"liner: {_words(heating.liner)}"
        yield _Need("insulation", item, "sets", Fraction(1), "one for each joint", STATED)


def _flat_area(weld: Seam | Pad, width: float) -> tuple[float, str]:
    """mm² of a blanket about a weld that does not go round, and how they are counted."""
    if isinstance(weld, Pad):
        area = (weld.width + width) * (weld.height + width)
        return area, "(width + insulated width) × (height + insulated width) of the pad"
    return (weld.length + width) * width, "(length of the seam + insulated width) × that width"


def _width(sheet: JointSheet, heating: Heating) -> Fraction | None:
    said = heating.insulation.width if heating.insulation is not None else None
    amount = getattr(said, "amount", None)
    if isinstance(amount, Quantity):
        return amount.value * (2 if getattr(said, "each_side", False) else 1)
    for name in ("gradient band", "heated band"):
        for band in sheet.bands:
            if band.name == name:
                return band.total.value if band.total is not None else band.each.value * 2
    return None


def _thermocouples(shown: Shown, sheet: JointSheet) -> Iterator[_Need]:
    block = sheet.joint.entry.thermocouples
    if block is None or not sheet.tags:
        return
    kind = f"type {block.type} class {block.grade}"
    count = Fraction(len(sheet.tags))
    lot = f", lot {block.lot}" if block.lot else ""
    gauge = f", AWG {block.gauge}" if block.gauge else ""
    reserve = Fraction(ceil(count * RESERVE))
    leads = [tag.lead.value for tag in sheet.tags if tag.lead is not None]
    if leads:
        metres = sum(leads, Fraction(0)) / 1000 * (1 + RESERVE)
        how = "sum of the leads and a tenth more"
        item = f"thermocouple wire {kind}{gauge}{lot}"
        yield _Need("thermocouples", item, "m", metres, how, PRACTICE)
    yield _Need("thermocouples", f"tags for {kind}", "pairs", count, "one at each end", STATED)
    item = f"thermocouples in reserve, {kind}"
    yield _Need("thermocouples", item, "pieces", reserve, "a tenth of those placed", PRACTICE)
    cable = block.extension
    if cable is not None:
        grade = f" class {cable.grade}" if cable.grade else ""
        name = f"{cable.code}{grade}"
        if cable.length is not None:
            metres = cable.length.value / 1000 * count
            how = f"{shown.text(cable.length)} for each thermocouple"
            item = f"extension cable {name}"
            yield _Need("thermocouples", item, "m", metres, how, STATED)
        if cable.connectors not in (None, "none"):
            item = f"connectors {cable.code}, {cable.connectors}"
            how = "plug and socket for each thermocouple"
            yield _Need("thermocouples", item, "pairs", count, how, STATED)


def _shared(job: Job, groups: list[Subject], shown: Shown) -> list[Line]:
    """Instruments and supplies, each once, and the largest demand of joints heated together."""
    found: dict[str, Line] = {}
    one = Fraction(1)
    for sheet in job.joints:
        block = sheet.joint.entry.thermocouples
        attached = block.attached if block is not None else None
        if attached is not None and attached.how == "capacitor discharge":
            energy = f" up to {worded(attached.energy)}" if attached.energy else ""
            item = f"attachment unit, capacitor discharge{energy}"
            how = "one serves every joint"
            found.setdefault(item, Line("instruments", item, "pieces", one, one, how, STATED))
    for subject in groups:
        for instrument in used(subject):
            kind = "controller" if isinstance(instrument, Controller) else "recorder"
            if not isinstance(instrument, (Controller, Recorder)):
                continue
            channels = instrument.channels
            inputs = f", {counted(channels.count, 'channel')}" if channels is not None else ""
            serial = f", serial {instrument.serial}" if instrument.serial else ""
            item = f"{kind} {instrument.name}{serial}{inputs}"
            found.setdefault(item, Line("instruments", item, "pieces", one, one, "", STATED))
        for supply in powered(subject):
            output = f", {worded(supply.output)}" if supply.output is not None else ""
            circuits = f", {counted(supply.circuits, 'circuit')}" if supply.circuits else ""
            standby = f", standby {supply.reserve}" if supply.reserve else ""
            item = f"supply {supply.name}{output}{circuits}{standby}"
            found.setdefault(item, Line("supplies", item, "pieces", one, one, "", STATED))
    demands = {subject.name: _kilowatts(subject) for subject in groups}
    known = {name: power for name, power in demands.items() if power is not None}
    if known:
        name = max(known, key=lambda key: known[key])
        item = f"largest demand of joints heated together: {name}"
        how = "sum of the powers of their zones; kVA by the power factor of the supply"
        total = sum(known.values(), Fraction(0))
        found[item] = Line("supplies", item, "kW", total, known[name], how, STATED)
    return sorted(found.values(), key=lambda line: line.group)


def _kilowatts(subject: Subject) -> Fraction | None:
    powers = [zone.entry.power for sheet in subject.sheets for zone in sheet.joint.zones]
    known = [power.to("kW") for power in powers if power is not None]
    return sum(known, Fraction(0)) if known and len(known) == len(powers) else None


def _words(entry: Entry) -> str:
    return ", ".join(clauses(entry))
