"""The instruments that the treatments of a specification use."""

from __future__ import annotations

from collections.abc import Iterator

from hts.govern.case import Case
from hts.vocabulary.equipment import Instrument


def instruments(case: Case) -> Iterator[Instrument]:
    """Each recorder and controller once, in the order they are met."""
    seen: dict[int, Instrument] = {}
    for joint in case.joints():
        for treatment in case.treatments(joint):
            for instrument in (treatment.recorder, treatment.controller):
                if instrument is not None and instrument.sound:
                    seen.setdefault(id(instrument), instrument)
    yield from seen.values()
