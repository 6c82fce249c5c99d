"""Instruments say when they were calibrated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.demanded import of_joint
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.demanded import Demanded
from hts.language.vocabulary.equipment import Instrument

RULE = Rule(
    "C106",
    "uncalibrated-instrument",
    "warning",
    summary="A recorder or controller in use whose calibration is not stated.",
    why="Years later the first question is whether the record can be relied on.",
    fix="Write `calibrated DAY until DAY`.",
    source="common practice, no source; ISO 17663 leaves the interval to the maker",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01\n",
                    "resolution  1 K\n",
                ),
            ),
            at="R1",
        ),
    ),
    good=(
        Good(
            (
                ("status for construction\n  history", "status for review\n  history"),
                ("  signed {", '  open point 1 "Recorder to be named"\n  signed {'),
                (
                    "resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01\n",
                    "resolution  1 K\n",
                ),
            )
        ),
    ),
)


def _chosen_later(case: Case) -> bool:
    """Whether the document is for review with points open: instruments are named last, and nothing
    is for construction before the points are closed (D103)."""
    job = case.spec.file.job
    if job is None or job.revision.status != "for review":
        return False
    return any(point.closed is None for point in job.open_points)


def _demanded(case: Case, instrument: Instrument) -> bool:
    """Whether a demand on the calibration of the instrument, not met, tells of it already."""
    places = (instrument.place(), instrument.place("name"))
    return any(
        outcome.verb == "requires" and outcome.verdict == "not met" and outcome.at in places
        for joint in case.joints()
        for outcome in of_joint(case, joint)
        if _on_calibration(outcome.what)
    )


def _on_calibration(demanded: Demanded) -> bool:
    named = {test.field.name for test in demanded.tests}
    named |= {field.name for target in demanded.targets for field in target.chain}
    return not named.isdisjoint(("calibrated", "calibration_age"))


@RULE.for_spec
def check(case: Case) -> None:
    if _chosen_later(case):
        return
    for instrument in instruments(case):
        if instrument.calibrated is None and not _demanded(case, instrument):
            case.add(
                RULE.found(
                    f"{instrument.name} does not say when it was calibrated",
                    instrument.place("name"),
                    address=instrument.name,
                )
            )
