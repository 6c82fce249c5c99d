"""Nobody works to a superseded or rejected document."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule

RULE = Rule(
    "D105",
    "superseded-procedure",
    "warning",
    summary="A procedure the job follows that is superseded, or was not approved.",
    why="The limits the job is held to are no longer those of the owner.",
    fix="Follow the present revision of the procedure.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("2 on 2026-03-01 status for construction", "2 on 2026-03-01 status superseded"),),
            base="procedure",
            at="P-07",
        ),
        Bad(
            (
                (
                    "2 on 2026-03-01 status for construction",
                    "2 on 2026-03-01 status for approval answer not approved",
                ),
            ),
            base="procedure",
            at="P-07",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    for reference in job.follows if job is not None else ():
        procedure = reference.target
        revision = procedure.revision if procedure is not None else None
        if revision is None or job is None:
            continue
        field = "status" if revision.status == "superseded" else "answer"
        if revision.status == "superseded" or revision.answer == "not approved":
            state = "superseded" if field == "status" else "not approved"
            case.add(
                RULE.found(
                    f"{reference.name} revision {revision.name} is {state}",
                    case.spec.source.span(reference.start, reference.end),
                    address=f"{job.name}/follows/{reference.name}",
                    others=[Label(revision.place(field), "said here")],
                )
            )
