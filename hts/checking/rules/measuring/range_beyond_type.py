"""An input reads no more than its type of thermocouple can tell."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import own_instruments
from hts.checking.rules.rule import Agreement, Edge, Good, Rule

#: A second recorder, which no work of the text uses.
_R9 = """recorder R9 {
  channels    12 type {}
  error       +/- 1.5 degC
  interval    60 s
}

recorder R1 {"""


def _second(type: str, range: str) -> tuple[tuple[str, str], ...]:
    return (("recorder R1 {", _R9.replace("{}", f"{type} range {range}")),)


RULE = Rule(
    "C136",
    "range-beyond-type",
    "warning",
    summary="A controller or recorder whose range goes beyond the temperatures for which its type "
    "of thermocouple is defined.",
    why="Type or range is a slip: the instrument is set to another type than it is said to be, "
    "and reads tens of degrees wrong.",
    fix="Correct the type or the range.",
    source="IEC 60584-1:2013, ranges of the reference functions",
    basis="published",
    edges=(
        Edge(
            _second("T", "0 .. {} degC"),
            keeps="400",
            breaks="401",
            at="0 .. 401",
            says="to 401 degC (754 degF) … type T … to 400 degC (752 degF)",
        ),
    ),
    good=(Good(_second("S", "0 .. 1600 degC")),),
    agrees=(
        Agreement("recorder.channels.range", "recorder.channels.type", "the type reaches so far"),
        Agreement(
            "controller.channels.range", "controller.channels.type", "the type reaches so far"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in own_instruments(case):
        channels = instrument.channels
        reads = channels.range if channels is not None else None
        if channels is None or channels.type is None or reads is None:
            continue
        if channels.type in "KN" and reads.high is not None and reads.high <= _USUAL:
            continue
        from hts.science.thermocouples.reference import temperature_range

        low, high = temperature_range(channels.type)
        if reads.high is not None and reads.high.to("degC") > high:
            told = f"to {reads.high.both()}", f"to {_degrees(high, reads.high).both('down')}"
        elif reads.low is not None and reads.low.to("degC") < low:
            told = f"from {reads.low.both()}", f"from {_degrees(low, reads.low).both('up')}"
        else:
            continue
        case.add(
            RULE.found(
                f"{instrument.name} reads {told[0]}; type {channels.type} is defined {told[1]}",
                channels.place("range"),
                address=instrument.name,
                others=[Label(channels.place("type"), "the type")],
            )
        )


_USUAL = Quantity.of(1300, "degC", TEMPERATURE)


def _degrees(value: float, like: Quantity) -> Quantity:
    return Quantity.of(int(value), "degC", TEMPERATURE).in_unit(like.unit.symbol)
