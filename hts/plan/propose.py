"""The proposal: a timetable of all that can be planned, and why the rest is left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from hts.language.model.shifts import unwatched
from hts.plan.heats import Heat
from hts.plan.keeping import clashes, keepings, no_room
from hts.plan.timetable import TICK, NoRoom, Terms, Timetable, has_room, timetable
from hts.plan.work import Unit


def propose(
    heats: Sequence[Heat], terms: Terms, at: Callable[[int], str]
) -> tuple[Timetable, list[str]]:
    """A timetable, and a reason for each heat that is left out: preheat that has to be kept until a
    treatment, and no machine free to keep it. `at` tells a time in words.

    Raises MissingPackage, and ValueError where none is found in the effort allowed.
    """
    fitting, found = clashes(heats, terms.ready, (terms.set_up, terms.cool_off), at)
    reasons = [clash.why for clash in found]
    try:
        return timetable(fitting, terms), reasons
    except NoRoom:
        pass
    since = {
        id(heat): min(each.since for each in kept)
        for heat in fitting
        if (kept := keepings(heat, terms.ready))
    }
    # Without any such heat there always is a timetable: all others can wait.
    taken: list[Heat] = []
    for heat in sorted((h for h in fitting if id(h) in since), key=lambda h: since[id(h)]):
        if has_room([*taken, heat], terms):
            taken.append(heat)
        else:
            reasons.append(no_room(heat, at(since[id(heat)])))
    left = {id(heat) for heat in fitting if id(heat) in since} - {id(heat) for heat in taken}
    return timetable([heat for heat in fitting if id(heat) not in left], terms), reasons


def too_long(unit: Unit, terms: Terms) -> str:
    """Why no crews could look after a unit all the time, "" where they can."""
    most, ticks = terms.most_ticks, terms.ticks_of(unit.seconds)
    if most is None or ticks <= most:
        return ""
    return (
        f"{unit.name} takes {ticks * TICK / 3600:g} h with setting up and cooling off, and crews "
        f"are there for {most * TICK / 3600:g} h without a break: nobody is there "
        f"{' or '.join(unwatched(terms.shifts))}"
    )


def in_order(table: Timetable, units: Sequence[Unit], terms: Terms) -> Timetable:
    """The same timetable with heats that could change places in the order of the text: who looks
    for the next weld of a list looks where the list goes on."""
    order = {unit.name: n for n, unit in enumerate(units)}
    times = Counter(name for slot in table.slots for u in slot.heat.units for name in u.joints)
    alike: dict[tuple[object, ...], list[int]] = {}
    for n, slot in enumerate(table.slots):
        # A joint that is heated twice has its bake before its cycle, and stays.
        once = all(times[name] == 1 for unit in slot.heat.units for name in unit.joints)
        alike.setdefault(_needs(slot.heat, terms) if once else (n,), []).append(n)
    slots = list(table.slots)
    for places in alike.values():
        heats = sorted(
            (table.slots[n].heat for n in places), key=lambda h: min(order[u.name] for u in h.units)
        )
        for n, heat in zip(places, heats, strict=True):
            slots[n] = slots[n]._replace(heat=heat)
    return table._replace(slots=slots)


def _needs(heat: Heat, terms: Terms) -> tuple[object, ...]:
    """All that the place of a heat in a timetable hangs on."""
    units = sorted(
        repr((unit._replace(joints=()), [terms.ready.get(name) for name in unit.joints]))
        for unit in heat.units
    )
    return (heat.first.group, *units)
