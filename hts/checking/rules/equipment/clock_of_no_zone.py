"""The clock of a recorder is set to a time zone there is."""

from __future__ import annotations

import re
from fractions import Fraction

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule

_INTERVAL = "  interval    60 s\n"


def _clock(zone: str) -> tuple[tuple[str, str], ...]:
    return ((_INTERVAL, f'{_INTERVAL}  clock       "{zone}"\n'),)


RULE = Rule(
    "E120",
    "clock-of-no-zone",
    "warning",
    summary="A recorder whose clock is said to be so many hours from UTC as no place of the earth is.",
    why="Records of two shifts, or of two recorders, are laid one beside the other by it.",
    fix="Correct the zone: from UTC-12 to UTC+14, in quarters of an hour.",
    source="time zones in use, UTC-12:00 to UTC+14:00",
    basis="published",
    bad=(
        Bad(_clock("UTC+1:17"), at="UTC+1:17", says="R1 is said to be set to UTC+1:17"),
        Bad(_clock("UTC-13"), at="UTC-13", says="set to UTC-13"),
        Bad(_clock("UTC+15"), at="UTC+15", says="set to UTC+15"),
    ),
    good=(
        Good(_clock("UTC+14")),
        Good(_clock("UTC-12")),
        Good(_clock("UTC+5:45")),
        Good(_clock("UTC+0530")),
        Good(_clock("CET")),
        Good(_clock("Tern Island time, UTC+1 in summer")),
    ),
)

_OFFSET = re.compile(r"(?:UTC|GMT) ?([+-]) ?(\d{1,2})(?::?(\d{2}))?")
_EAST, _WEST = 14, 12


@RULE.for_spec
def check(case: Case) -> None:
    for file in (case.spec.file, *(library.file for library in case.spec.libraries)):
        for recorder in file.recorders:
            if not isinstance(recorder.clock, str):
                continue
            found = _OFFSET.fullmatch(recorder.clock.strip())
            if found is None:
                continue
            minutes = int(found[3] or 0)
            hours = int(found[2]) + Fraction(minutes, 60)
            if hours <= (_EAST if found[1] == "+" else _WEST) and minutes in (0, 15, 30, 45):
                continue
            case.add(
                RULE.found(
                    f"the clock of {recorder.name} is said to be set to {recorder.clock}, where no time zone is",
                    recorder.place("clock"),
                    address=recorder.name,
                    basis=RULE.basis,
                )
            )
