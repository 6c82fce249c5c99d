"""Instruments and thermocouple wire are in calibration."""

from __future__ import annotations

from collections.abc import Iterator

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.thermocouples import Calibrated

RULE = Rule(
    "C105",
    "expired-calibration",
    "error",
    floor="error",
    summary="A recorder, controller or thermocouple wire whose calibration has run out.",
    why="A record made with it proves nothing.",
    fix="Have it calibrated, or use another.",
    source="common practice, no source; ISO 17663 leaves the interval to the maker",
    basis="practice",
    bad=(
        Bad(
            (("2027-03-01\n}\n\nrecorder", "2027-09-01\n}\n\nrecorder"),),
            at="2027-03-01",
            today="2027-06-01",
            says="on 2027-03-01",
        ),
        Bad(
            (
                (
                    "    colours ",
                    "    calibrated 2026-03-01 until 2026-12-01\n    colours ",
                ),
            ),
            at="2026-12-01",
            today="2027-01-10",
            says="on 2026-12-01",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01",
                    "resolution  1 K\n  calibrated  2026-03-01 until {}",
                ),
            ),
            keeps="2026-10-02",
            breaks="2026-10-01",
            says="on 2026-10-01 … of 2026-10-02",
        ),
    ),
    good=(Good((), today="2027-03-01"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    written = job.revision.on if job is not None and job.sound else None
    for calibrated, name, address in _calibrations(case):
        until = calibrated.until
        before = until is not None and written is not None and until < written
        if before or case.past(until):
            case.add(
                RULE.found(
                    f"the calibration of {name} ended on {until}"
                    + (f", before this revision of {written}" if before else ""),
                    calibrated.place("until"),
                    address=address,
                )
            )


def _calibrations(case: Case) -> Iterator[tuple[Calibrated, str, str]]:
    """Those of the instruments used and of the wire of each joint, each told once."""
    for instrument in instruments(case):
        if instrument.calibrated is not None:
            yield instrument.calibrated, instrument.name, instrument.name
    already: set[int] = set()
    for joint in case.joints():
        block = joint.entry.thermocouples
        if block is not None and block.calibrated is not None and id(block) not in already:
            already.add(id(block))
            yield block.calibrated, f"the wire at {joint.name}", f"{joint.address}/thermocouples"
