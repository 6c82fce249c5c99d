"""Two instruments have two serial numbers."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Bad, Rule
from hts.language.vocabulary.equipment import Instrument

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
    bad=(Bad((('"40-118"', '"40-207"'),), at='"40-207"'),),
)


@RULE.for_spec
def check(case: Case) -> None:
    seen: dict[str, Instrument] = {}
    for instrument in instruments(case):
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
