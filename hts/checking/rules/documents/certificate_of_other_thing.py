"""Each certificate is of one thing: a heat of steel, an instrument, a person's training."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

_HEAT = '  heat number  "H4471"\n'
_C1 = "  segments           16\n  calibrated         2026-09-01 until 2027-03-01"
_OTHER = """
material header {
  grade        "A335 P11"
  heat number  "L1107"
  tempered at 730 degC certificate "MC-4471"
}
"""


def _both(mill: str, calibration: str) -> tuple[tuple[str, str], ...]:
    return (
        (_HEAT, f'{_HEAT}  tempered at 740 degC certificate "{mill}"\n'),
        (_C1, f'{_C1} certificate "{calibration}"'),
    )


RULE = Rule(
    "D118",
    "certificate-of-other-thing",
    "warning",
    summary="One certificate for a heat of steel and for the calibration of an instrument, or for "
    "two grades of steel.",
    why="One of the two numbers was copied from the wrong paper: nothing shows what it should.",
    fix="Copy the number from the certificate of the thing itself.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _both("MC-4471", "MC-4471"),
            at='"MC-4471"',
            says="MC-4471 is the certificate of the tempering of pipe and of the calibration of C1",
        ),
        Bad(
            (
                (_HEAT, f'{_HEAT}  tempered at 740 degC certificate "MC-4471"\n'),
                ("\njoint W12 {", f"{_OTHER}\njoint W12 {{"),
            ),
            at='"MC-4471"',
            says="of the tempering of header",
        ),
    ),
    good=(Good(_both("MC-4471", "CAL-0118")),),
    agrees=(
        Agreement("material.tempered.certificate", "controller.calibrated.certificate", "another"),
        Agreement("material.tempered.certificate", "recorder.calibrated.certificate", "another"),
        Agreement("material.tempered.certificate", "material.grade", "one for each grade"),
        Agreement("job.qualification.certificate", "recorder.calibrated.certificate", "another"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    seen: dict[str, tuple[str, str, Span]] = {}
    for number, kind, name, at in _certificates(case):
        known_kind, known, there = seen.setdefault(number.casefold(), (kind, name, at))
        # That two instruments share one has a rule of its own.
        if known_kind == kind:
            continue
        case.add(
            RULE.found(
                f"{number} is the certificate of {known} and of {name}",
                at,
                address=name.split(" of ")[-1],
                others=[Label(there, f"that of {known}")],
                basis=RULE.basis,
            )
        )


def _certificates(case: Case) -> Iterator[tuple[str, str, str, Span]]:
    """Each certificate: its number, what kind of thing it is of, that thing, where it stands."""
    files = [case.spec.file, *(library.file for library in case.spec.libraries)]
    for file in files:
        for material in file.materials:
            tempered = material.tempered
            if tempered is not None and tempered.certificate is not None:
                name = f"the tempering of {material.name}"
                at = tempered.place("certificate")
                yield tempered.certificate, f"steel {material.grade}", name, at
    for file in files:
        for instrument in (*file.controllers, *file.recorders):
            calibrated = instrument.calibrated
            if calibrated is not None and calibrated.certificate is not None:
                name = f"the calibration of {instrument.name}"
                yield calibrated.certificate, "instrument", name, calibrated.place("certificate")
    job = case.spec.file.job
    for qualification in job.qualifications if job is not None else ():
        if qualification.certificate is not None:
            name = f"the training of {qualification.role}"
            yield qualification.certificate, "person", name, qualification.place("certificate")
