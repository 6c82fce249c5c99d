"""Crews have names of their own."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.crew import Crew

_JOB = "  show         SI and US"

RULE = Rule(
    "K115",
    "crew-named-twice",
    "warning",
    summary="Two crews of one name.",
    why="Plan and hand-over name crews: nobody can tell which of the two a heat is left to, and a "
    "shift that was copied and not renamed may count twice.",
    fix="Give each crew a name of its own, or take one of the two out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    _JOB,
                    f"{_JOB}\n  crew days from 06:00 to 18:00 watches 3\n  crew Days from 18:00 to 06:00 watches 2",
                ),
            ),
            at="Days",
            says="two crews are named days",
        ),
    ),
    good=(
        Good(
            (
                (
                    _JOB,
                    f"{_JOB}\n  crew days from 06:00 to 18:00 watches 3\n  crew nights from 18:00 to 06:00 watches 2",
                ),
            )
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    first: dict[str, Crew] = {}
    for crew in job.crews if job is not None else ():
        if not crew.sound:
            continue
        # What differs in capitals alone is one name to whoever reads it out.
        other = first.setdefault(crew.name.casefold(), crew)
        if other is not crew:
            case.add(
                RULE.found(
                    f"two crews are named {other.name}",
                    crew.place("name"),
                    address=crew.address,
                    others=[Label(other.place("name"), "the other one")],
                    basis=RULE.basis,
                )
            )
