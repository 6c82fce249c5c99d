"""The certificates of persons hold on the day of the work."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule

_HISTORY = "  history {\n"


def _until(day: str) -> tuple[tuple[str, str], ...]:
    line = f'  qualification "Technician" "Trained" certificate "C-7" until {day}\n'
    return ((_HISTORY, line + _HISTORY),)


RULE = Rule(
    "D115",
    "qualification-expired",
    "warning",
    summary="A person's certificate that has run out.",
    why="The procedure lets nobody work without it, and the record names who did.",
    fix="Have it renewed, or name somebody whose certificate holds.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_until("2026-12-31"), at="2026-12-31", today="2027-01-10", says="on 2026-12-31"),),
    edges=(
        Edge(
            _until("{}"),
            keeps="2026-10-02",
            breaks="2026-10-01",
            says="on 2026-10-01 … of 2026-10-02",
        ),
    ),
    good=(Good(_until("2026-12-31"), today="2026-12-31"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None:
        return
    written = job.revision.on if job.revision is not None and job.sound else None
    for qualification in job.qualifications:
        until = qualification.until
        before = until is not None and written is not None and until < written
        if before or case.past(until):
            case.add(
                RULE.found(
                    f"the certificate of the {qualification.role} ended on {until}"
                    + (f", before this revision of {written}" if before else ""),
                    qualification.place("until"),
                    address="job",
                )
            )
