"""An instrument of this trade reads as far as the work of the trade."""

from __future__ import annotations

from typing import Any

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import own_instruments
from hts.checking.rules.rule import Edge, Rule

_R9 = """recorder R9 {
  channels    12 type K range 0 .. {} degC
  error       +/- 1.5 degC
  interval    60 s
}

recorder R1 {"""
#: Preheats and interpass temperatures of ferritic steels end below it.
_LEAST = Quantity.of(250, "degC", TEMPERATURE)

RULE = Rule(
    "C137",
    "range-for-no-treatment",
    "warning",
    summary="A controller or recorder whose range ends below the temperatures of preheat and heat "
    "treatment.",
    why="A digit is missing, and the instrument is taken to a job whose hold it cannot read.",
    fix="Correct the range.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("recorder R1 {", _R9),),
            keeps="250",
            breaks="249",
            at="0 .. 249",
            says="to 249 degC (480 degF) … 250 degC (482 degF)",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in own_instruments(case):
        reads = instrument.channels.range if instrument.channels is not None else None
        if instrument.channels is None or reads is None or reads.high is None:
            continue
        if reads.high < _LEAST and not _used(case, instrument.name):
            case.add(
                RULE.found(
                    f"{instrument.name} reads to {reads.high.both()}; preheat and interpass go to "
                    f"{_LEAST.in_unit(reads.high.unit.symbol).both()} and holds beyond",
                    instrument.channels.place("range"),
                    address=instrument.name,
                    basis=RULE.basis,
                )
            )


def _used(case: Case, name: str) -> bool:
    """Whether work of the text uses it: then rules about that work judge the range."""
    for joint in case.joints():
        used: list[Any] = [
            each for t in case.treatments(joint) for each in (t.recorder, t.controller)
        ]
        if joint.preheat is not None:
            used += [joint.preheat.recorded_by, joint.preheat.controlled_by]
        if any(each is not None and each.name == name for each in used):
            return True
    return False
