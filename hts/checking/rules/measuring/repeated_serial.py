"""Two instruments have two serial numbers."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments, own_instruments
from hts.checking.rules.rule import Bad, Rule
from hts.language.vocabulary.equipment import Instrument, PowerSource

_RECORDER = (
    'recorder {} {{\n  serial "40-118"\n  channels 12 type K range 0 .. 1200 degC\n'
    "  interval 60 s\n  error +/- 1.5 degC\n  calibrated 2026-09-01 until 2027-03-01\n}}\n\n"
)

RULE = Rule(
    "C118",
    "repeated-serial",
    "warning",
    summary="Two recorders or controllers, or two power sources, with one serial number.",
    why="Either a number is wrong, or one instrument both controls and makes the record that is "
    "to check it.",
    fix="Correct the number, or name another instrument.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((('"40-118"', '"40-207"'),), at='"40-207"'),
        Bad(
            (
                (
                    "power source PS1 {",
                    'power source PS2 {\n  serial "P-1"\n  kind transformer\n  output 65 kVA\n  circuits 6\n}\n\n'
                    'power source PS1 {\n  serial "P-1"',
                ),
            ),
            at='"P-1"',
            says="PS2 and PS1",
        ),
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
    chosen = {id(each): each for each in (*instruments(case), *own_instruments(case))}
    _compare(case, list(chosen.values()))
    # A supply may be one cabinet with its controller.
    _compare(case, [each for each in case.spec.file.power_sources if each.sound])
    _compare_with_others(case, set(chosen))


def _compare_with_others(case: Case, chosen: set[int]) -> None:
    """The instruments of this file with those of the files it uses that no work has chosen."""
    files = [library.file for library in case.spec.libraries]
    others = [each for file in files for each in (*file.controllers, *file.recorders)]
    for own in own_instruments(case):
        for other in others:
            # One name and one number: the same cabinet, told of anew.
            if other.sound and id(other) not in chosen and other.name != own.name:
                _compare(case, [other, own])


def _compare(case: Case, numbered: Sequence[Instrument | PowerSource]) -> None:
    seen: dict[str, Instrument | PowerSource] = {}
    for instrument in numbered:
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
