"""A calibration ends after it begins, and each instrument has its own certificate."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Rule
from hts.language.vocabulary.thermocouples import Calibrated

_C1 = "  segments           16\n  calibrated         2026-09-01 until 2027-03-01"
_R1 = "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01"

RULE = Rule(
    "C131",
    "calibration-contradicts",
    "warning",
    summary="A calibration that ends before it begins, or one certificate for two instruments.",
    why="Nothing shows that what measured the weld measured right.",
    fix="Copy the days and the number from the certificate.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_C1, f'{_C1} certificate "CAL-1"'), (_R1, f'{_R1} certificate "CAL-1"')),
            at='"CAL-1"',
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  segments           16\n  calibrated         2026-09-01 until 2027-03-01",
                    "  segments           16\n  calibrated         2027-05-01 until {}",
                ),
            ),
            keeps="2027-05-02",
            breaks="2027-05-01",
            says="on 2027-05-01 … until 2027-05-01",
        ),
    ),
    agrees=(
        Agreement("recorder.calibrated.until", "recorder.calibrated.on", "after it"),
        Agreement("controller.calibrated.until", "controller.calibrated.on", "after it"),
        Agreement(
            "recorder.calibrated.certificate", "controller.calibrated.certificate", "another one"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    certificates: dict[str, tuple[str, Span]] = {}
    for library in case.spec.libraries:
        for instrument in (*library.file.controllers, *library.file.recorders):
            theirs = instrument.calibrated
            if theirs is not None and theirs.certificate is not None:
                known = instrument.name, theirs.place("certificate")
                certificates.setdefault(theirs.certificate, known)
    for instrument in (*file.controllers, *file.recorders):
        calibrated = instrument.calibrated
        if calibrated is None or not instrument.sound:
            continue
        message = _days(calibrated)
        if message:
            _tell(case, message, calibrated.place("until"), instrument.name, [])
        number = calibrated.certificate
        if number is None:
            continue
        at = calibrated.place("certificate")
        name, first = certificates.setdefault(number, (instrument.name, at))
        if first is not at:
            message = f"{name} and {instrument.name} have one certificate, {number}"
            _tell(case, message, at, instrument.name, [Label(first, f"that of {name}")])


def _days(calibrated: Calibrated) -> str:
    if calibrated.until is None or calibrated.until > calibrated.on:
        return ""
    return f"calibrated on {calibrated.on}, and until {calibrated.until}"


def _tell(case: Case, message: str, at: Span, address: str, others: list[Label]) -> None:
    case.add(RULE.found(message, at, address=address, others=others, basis=RULE.basis))
