"""Two instruments have two serial numbers."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments, own_instruments
from hts.checking.rules.rule import Bad, Rule
from hts.language.vocabulary.equipment import Instrument

_RECORDER = (
    'recorder {} {{\n  serial "40-118"\n  channels 12 type K range 0 .. 1200 degC\n'
    "  interval 60 s\n  error +/- 1.5 degC\n  calibrated 2026-09-01 until 2027-03-01\n}}\n\n"
)

RULE = Rule(
    "C118",
    "repeated-serial",
    "warning",
    summary="Two recorders or controllers with one serial number.",
    why="Either a number is wrong, or one instrument both controls and makes the record that is "
    "to check it.",
    fix="Correct the number, or name another instrument.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((('"40-118"', '"40-207"'),), at='"40-207"'),
        # In a library, too, that no work uses yet.
        Bad(
            (("joint W12 {", f"{_RECORDER.format('R1')}{_RECORDER.format('R2')}joint W12 {{"),),
            base="joint",
            at='"40-118"',
            says="R1 and R2",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    seen: dict[str, Instrument] = {}
    chosen = {id(each): each for each in (*instruments(case), *own_instruments(case))}
    for instrument in chosen.values():
        if instrument.serial is None:
            continue
        other = seen.setdefault(instrument.serial, instrument)
        if other is not instrument:
            case.add(
                RULE.found(
                    f"{other.name} and {instrument.name} have the serial number "
                    f"{instrument.serial}",
                    instrument.place("serial"),
                    address=instrument.name,
                    others=[Label(other.place("serial"), f"that of {other.name}")],
                    basis=RULE.basis,
                )
            )
