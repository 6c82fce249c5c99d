"""The survey of a furnace holds on the day of the work."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint


def _surveyed(day: str) -> tuple[tuple[str, str], ...]:
    return (
        ("heating by resistance", "heating by furnace"),
        (
            "    soak band      by rule\n    heated band    by rule\n    gradient band  by rule\n",
            "",
        ),
        (
            "    ends           closed",
            f'    furnace "Furnace 1" uniformity +/- 8 K surveyed until {day}\n'
            "    ends           closed",
        ),
    )


RULE = Rule(
    "E110",
    "furnace-survey-expired",
    "warning",
    summary="A furnace whose survey of temperatures has run out.",
    why="Nobody knows how much colder its corners have become.",
    fix="Have it surveyed, or use another.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_surveyed("2026-12-31"), at="2026-12-31", today="2027-01-10", says="on 2026-12-31"),),
    edges=(
        Edge(
            _surveyed("{}"),
            keeps="2026-10-02",
            breaks="2026-10-01",
            says="on 2026-10-01 … of 2026-10-02",
        ),
    ),
    good=(Good(_surveyed("2026-12-31"), today="2026-12-31"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    furnace = heating.furnace if heating is not None else None
    if furnace is None or furnace.surveyed is None:
        return
    job = case.spec.file.job
    written = job.revision.on if job is not None and job.revision is not None else None
    before = written is not None and furnace.surveyed < written
    if before or case.past(furnace.surveyed):
        case.add(
            RULE.found(
                f"the survey of the furnace ended on {furnace.surveyed}"
                + (f", before this revision of {written}" if before else ""),
                furnace.place("surveyed"),
                address=f"{joint.address}/heating",
            )
        )
