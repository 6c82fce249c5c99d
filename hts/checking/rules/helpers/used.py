"""What the work uses: the instruments of the treatments, and induction coils."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.language.model.joint import Joint
from hts.language.vocabulary.equipment import Instrument


def instruments(case: Case) -> Iterator[Instrument]:
    """Each recorder and controller once, in the order they are met; those of a preheat, too."""
    seen: dict[int, Instrument] = {}
    for joint in case.joints():
        for chosen, _ in of_preheat(joint):
            seen.setdefault(id(chosen), chosen)
        for treatment in case.treatments(joint):
            for instrument in (treatment.recorder, treatment.controller):
                if instrument is not None and instrument.sound:
                    seen.setdefault(id(instrument), instrument)
    yield from seen.values()


def of_preheat(joint: Joint) -> Iterator[tuple[Instrument, Span]]:
    """What records and controls the preheat of a joint, with where it is chosen."""
    preheat = joint.preheat
    for field in ("recorded_by", "controlled_by"):
        chosen = getattr(preheat, field, None)
        target = chosen.target if chosen is not None else None
        if preheat is not None and isinstance(target, Instrument) and target.sound:
            yield target, preheat.place(field)


def by_induction(joint: Joint) -> bool:
    """Whether an induction coil lies about the joint, for preheat or after welding."""
    heating, preheat = joint.entry.heating, joint.preheat
    return "induction" in (
        heating.method if heating is not None else None,
        preheat.method if preheat is not None else None,
    )


def own_instruments(case: Case) -> Iterator[Instrument]:
    """The controllers and recorders written in this file, whether work uses them or not."""
    for instrument in (*case.spec.file.controllers, *case.spec.file.recorders):
        if instrument.sound:
            yield instrument
