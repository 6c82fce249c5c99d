"""A shift is no longer than people stay awake."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.shifts import lasting, length

_JOB = "  show         SI and US"

RULE = Rule(
    "K109",
    "long-shift",
    "warning",
    summary="A shift of more than 14 hours.",
    why="Whoever watches glowing pipe that long sees alarms late, or sleeps.",
    fix="Let another crew take over.",
    source="API RP 755 (fatigue of personnel), from memory",
    basis="memory",
    edges=(
        Edge(
            (
                (
                    _JOB,
                    f"{_JOB}\n  crew days from 06:00 to {{}} watches 3\n  crew nights from 18:00 to 06:00 watches 3",
                ),
            ),
            keeps="20:00",
            breaks="20:01",
            says="the shift of crew days lasts 14:01 h … more than 14:00 h",
        ),
    ),
    good=(
        Good(
            (
                (
                    _JOB,
                    f"{_JOB}\n  crew days from 18:00 to 06:00 watches 3\n  crew nights from 6:00 to 18:00 watches 2",
                ),
            )
        ),
    ),
)
#: Minutes.
_MOST = 14 * 60


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    for crew in job.crews if job is not None else ():
        minutes = length(crew)
        if crew.sound and minutes > _MOST:
            case.add(
                RULE.found(
                    f"the shift of crew {crew.name} lasts {lasting(minutes)}, which is more than 14:00 h",
                    crew.place("ends"),
                    address=crew.address,
                    basis=RULE.basis,
                )
            )
