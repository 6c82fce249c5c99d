"""Calibrations on the day of the record."""

from __future__ import annotations

from datetime import timedelta

from hts.job.compiler.why import stated
from hts.language.vocabulary.thermocouples import Calibrated
from hts.record.judging.evidence import Evidence
from hts.record.judging.verdict import MET, NOT_MET, NOT_SHOWN, Failure, Outcome, Verdict
from hts.record.record import after


def verdicts(evidence: Evidence, today: str | None) -> list[Verdict]:
    """Recorder, controller and wire; `today` (ISO date) is the day of a record without dates."""
    plan = evidence.plan
    program, block = plan.run.program, plan.sheet.joint.entry.thermocouples
    asked = [
        (f"{what} {one.name}", one.calibrated)
        for what, one in (("recorder", program.recorder), ("controller", program.controller))
        if one is not None
    ]
    if block is not None and block.calibrated is not None:
        asked.append(("thermocouple wire", block.calibrated))
    days = _days(evidence, today)
    return [_verdict(evidence, name, calibrated, days) for name, calibrated in asked]


def _days(evidence: Evidence, today: str | None) -> tuple[str, str] | None:
    """First and last day of the record."""
    record = evidence.record
    if record.start is None:
        return None if today is None else (today, today)
    end = after(record.start, timedelta(seconds=record.end).total_seconds())
    return record.start.date().isoformat(), end.date().isoformat()


def _verdict(
    evidence: Evidence, name: str, calibrated: Calibrated | None, days: tuple[str, str] | None
) -> Verdict:
    specified, why = "calibrated on the day", None
    outcome: Outcome = NOT_SHOWN
    failures: tuple[Failure, ...] = ()
    if calibrated is None:
        actual = "the specification states no calibration"
    else:
        until = calibrated.until or ""
        specified = f"from {calibrated.on} until {until}"
        why = stated(calibrated, "on", specified)
        if days is None:
            actual = "the record has no date: --today gives it"
        else:
            actual = days[0] if days[0] == days[1] else f"{days[0]} to {days[1]}"
            good = calibrated.on <= days[0] and days[1] <= until
            outcome = MET if good else NOT_MET
    if outcome == NOT_MET:
        sentence = f"{name} was calibrated {specified}, the record is of {actual}"
        failures = (Failure((), 0.0, evidence.record.end, sentence),)
    return Verdict(
        f"calibration of {name}",
        evidence.plan.address,
        specified,
        actual,
        outcome,
        None,
        failures,
        why,
    )
