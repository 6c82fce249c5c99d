"""The plan on paper, as CSV and as a chart: a proposal, and said to be one everywhere."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence

from hts.checking.rules.helpers.counted import counted
from hts.job.outputs import identity
from hts.job.outputs.cautions import APPROVAL
from hts.job.outputs.markdown import Page
from hts.job.outputs.text import csv_text
from hts.plan.chart import chart
from hts.plan.crews import in_words, stints, there
from hts.plan.load import Load, loads
from hts.plan.proposal import PROPOSAL, Plan
from hts.plan.timetable import Slot, Terms
from hts.plan.work import Unit

_HOUR = 3600
_HEADS = (
    "heat", "joints", "treatment", "controller", "recorder", "supply", "channel offset",
    "set-up from", "program from", "program to", "free at", "latest begin", "late [min]",
    "preheat kept [min]", "power [kW]", "crews at the start",
)  # fmt: skip


def files(plan: Plan) -> dict[str, bytes]:
    """Name -> bytes. The same job and terms, the same bytes."""
    return {
        "plan.md": markdown(plan).encode(),
        "plan.csv": _csv(plan).encode(),
        "load.csv": _load_csv(plan).encode(),
        "plan.svg": chart(plan).encode(),
    }


def summary(plan: Plan) -> list[str]:
    """What came of it, line by line, with the bounds that were proved."""
    table = plan.table
    joints = sum(len(unit.joints) for slot in table.slots for unit in slot.heat.units)
    count = len(table.slots)
    heats = f"{counted(joints, 'treatment')} in {counted(count, 'heat')}"
    fewer = (
        "fewer are not possible: proved"
        if count <= plan.least_heats
        else f"fewer than {plan.least_heats} are not possible: proved"
    )
    best = (
        "no plan on these machines ends sooner: proved"
        if table.end <= table.least
        else f"none can end before {plan.at(table.least)}: proved"
    )
    lines = [f"{heats} ({fewer})", f"the last machine is free at {plan.at(table.end)} ({best})"]
    if not count:
        lines = ["no heat can be planned"]
    late = [slot for slot in table.slots if slot.late]
    if late:
        least = (
            "with these heats less is not possible: proved"
            if table.late <= table.least_late
            else f"with these heats less than {table.least_late // 60} min is not possible: proved"
        )
        names = "; ".join(slot.heat.first.name for slot in late[:5])
        lines.append(
            f"{counted(len(late), 'heat')} {'begin' if len(late) > 1 else 'begins'} too late, "
            f"{table.late // 60} min in all ({least}): "
            f"{names}{' …' if len(late) > 5 else ''}"
        )
    lines += in_words(plan.terms.shifts)
    lines += [f"not planned: {reason}" for reason in plan.left_out]
    lines += _open(plan)
    return lines


def _open(plan: Plan) -> Iterator[str]:
    """What the plan could not take into account."""
    units = [unit for slot in plan.table.slots for unit in slot.heat.units]
    unknown = [
        unit
        for unit in units
        if (unit.within is not None or unit.kept)
        and any(name not in plan.terms.ready for name in unit.joints)
    ]
    if unknown:
        yield (
            "not taken into account: how long after welding a treatment may begin, and preheat "
            f"that is kept until then, for {counted(len(unknown), 'treatment')}; say when welding "
            "ends with --ready"
        )
    untold = [unit for unit in units if unit.kept and not unit.keeper]
    if untold:
        first = "; ".join(unit.name for unit in untold[:5])
        yield (
            f"not limited: what keeps the preheat until {first}{' …' if len(untold) > 5 else ''}; "
            "say `controlled by`, or a `method` by heaters"
        )
    if any(unit.watts is None for unit in units):
        yield "not taken into account: zones that do not state their power"
    for kind, what, unit_of in (
        ("controller", "channels", [u.controller for u in units]),
        ("recorder", "channels", [u.recorder for u in units]),
        ("supply", "watts", [u.supply for u in units]),
    ):
        names = sorted({m.name for m in unit_of if m.name and getattr(m, what) is None})
        if names:
            amount = "output" if what == "watts" else what
            does, its = ("do", "their") if len(names) > 1 else ("does", "its")
            yield f"not limited: {kind} {', '.join(names)} {does} not state {its} {amount}"
        if any(not m.name for m in unit_of):
            yield f"not limited: treatments without a {kind}"


def markdown(plan: Plan) -> str:
    """The plan as a sheet to print."""
    page = Page()
    identity.head(page, plan.job, "Plan of heats")
    page.line(PROPOSAL)
    page.bullets(summary(plan))
    page.bullets(
        (
            f"Setting up {plan.terms.set_up / _HOUR:g} h before the program, cooling off and "
            f"taking down {plan.terms.cool_off / _HOUR:g} h after it: stated for the plan.",
            _crews(plan.terms),
            "Power is that of all zones of a heat for the whole of its program: never less than "
            "what is drawn. kVA of a supply are taken for kW.",
            "A controller that keeps preheat until a treatment is taken from the end of welding "
            "on, and set up before that; what this draws until the program begins is not counted.",
        )
    )
    page.heading(2, "Heats")
    page.table(
        ("Heat", "Joints", "Treatment", "Machines", "Recorder channels", "Set-up from",
         "Program", "Free at", "Power"),
        [
            (
                str(number),
                ", ".join(name for unit in slot.heat.units for name in unit.joints),
                slot.heat.first.treatment,
                _machines(slot.heat.first),
                _channels(slot),
                plan.at(slot.begin),
                f"{plan.at(slot.start)} to {plan.at(slot.finish)}",
                plan.at(slot.end),
                f"{slot.heat.total('watts') / 1000:.1f} kW",
            )
            for number, slot in enumerate(plan.table.slots, 1)
        ],
    )  # fmt: skip
    page.heading(2, "By shift")
    page.table(
        ("Shift", "Set up", "Programs that begin", "Programs that end", "Largest power"),
        list(_shifts(plan)),
    )
    page.line(APPROVAL[0])
    return page.text()


def _crews(terms: Terms) -> str:
    if terms.shifts:
        return "Crews look after a heat from setting up until it has cooled off."
    if terms.crews is None:
        return "Crews look after any number of heats at once."
    return f"Crews look after {counted(terms.crews, 'heat')} at once."


def _machines(unit: Unit) -> str:
    names = (unit.controller.name, unit.recorder.name, unit.supply.name)
    return ", ".join(name for name in names if name) or "none stated"


def offsets(slot: Slot) -> list[tuple[Unit, int]]:
    """The channel offset proposed for each unit of a heat, so that no channel is used twice."""
    found, used = [], 0
    for unit in slot.heat.units:
        found.append((unit, used))
        used += unit.inputs
    return found


def _channels(slot: Slot) -> str:
    """Which channels of the recorder are whose."""
    found = offsets(slot)
    return ", ".join(
        (f"{' and '.join(unit.joints)}: " if len(found) > 1 else "")
        + (f"{offset + 1} to {offset + unit.inputs}" if unit.inputs else "none stated")
        for unit, offset in found
    )


def _shifts(plan: Plan) -> Iterator[tuple[str, ...]]:
    numbered = list(enumerate(plan.table.slots, 1))
    load = loads(plan.table.slots)
    for begin, end, crews in _hours(plan):
        power = max(
            (each.watts for each in load if each.begin < end and each.end > begin), default=0
        )
        yield (
            f"{plan.at(begin)} to {plan.at(min(end, plan.table.end))}{crews}",
            _among(numbered, "begin", begin, end),
            _among(numbered, "start", begin, end),
            _among(numbered, "finish", begin, end),
            f"{power / 1000:.1f} kW",
        )


def _hours(plan: Plan) -> Iterator[tuple[int, int, str]]:
    """Begin and end of each shift, and who is there: of equal length where no crew says its own."""
    terms = plan.terms
    if not terms.shifts:
        for begin in range(0, plan.table.end, plan.shift):
            yield begin, begin + plan.shift, ""
        return
    for stint in stints(terms.shifts, terms.clock, plan.table.end):
        yield stint.begin, stint.end, f": {', '.join(stint.crews) or 'nobody'}"


def _among(slots: Sequence[tuple[int, Slot]], what: str, begin: int, end: int) -> str:
    return ", ".join(str(n) for n, slot in slots if begin <= getattr(slot, what) < end) or "none"


def _csv(plan: Plan) -> str:
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([*_HEADS, *identity.COLUMNS])
    for number, slot in enumerate(plan.table.slots, 1):
        for unit, offset in offsets(slot):
            ready = [plan.terms.ready[n] for n in unit.joints if n in plan.terms.ready]
            latest = plan.at(min(ready) + unit.within) if ready and unit.within is not None else ""
            row = (
                str(number),
                " ".join(unit.joints),
                unit.treatment,
                unit.controller.name,
                unit.recorder.name,
                unit.supply.name,
                str(offset),
                plan.at(slot.begin),
                plan.at(slot.start),
                plan.at(slot.finish),
                plan.at(slot.end),
                latest,
                str(slot.late // 60),
                str((slot.start - min(ready)) // 60) if unit.kept and ready else "",
                "" if unit.watts is None else f"{unit.watts / 1000:.1f}",
                " ".join(there(plan.terms.shifts, plan.terms.clock, slot.start)),
                *identity.cells(plan.job.document),
            )
            writer.writerow([csv_text(cell) for cell in row])
    return text.getvalue()


def _load_csv(plan: Plan) -> str:
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(
        ("from", "to", "supply", "power [kW]", "circuits", "recorder channels", "heats")
    )
    names = sorted({slot.heat.first.supply.name for slot in plan.table.slots})
    for name in names:
        slots = [slot for slot in plan.table.slots if slot.heat.first.supply.name == name]
        for each in loads(slots):
            writer.writerow([csv_text(cell) for cell in _load_row(plan, name, each)])
    return text.getvalue()


def _load_row(plan: Plan, supply: str, each: Load) -> tuple[str, ...]:
    return (
        plan.at(each.begin),
        plan.at(each.end),
        supply,
        f"{each.watts / 1000:.1f}",
        str(each.circuits),
        str(each.inputs),
        str(each.heats),
    )
