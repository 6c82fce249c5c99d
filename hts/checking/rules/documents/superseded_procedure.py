"""Nobody works to a superseded or rejected document."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.job import Job, Revision

RULE = Rule(
    "D105",
    "superseded-procedure",
    "warning",
    summary="A procedure the job follows that is superseded, was not approved, or that work for "
    "construction follows although it is not issued for it.",
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
        Bad(
            (("2 on 2026-03-01 status for construction", "2 on 2026-03-01 status in preparation"),),
            base="procedure",
            at="P-07",
        ),
        Bad(
            (("2 on 2026-03-01 status for construction", "2 on 2026-03-01 status for approval"),),
            base="procedure",
            at="P-07",
            says="is for approval, and the job for construction",
        ),
        Bad(
            (
                (
                    "2 on 2026-03-01 status for construction",
                    "2 on 2026-03-01 status for information",
                ),
            ),
            base="procedure",
            at="P-07",
            says="is for information, and the job for construction",
        ),
    ),
    good=(
        Good(
            (
                ("2 on 2026-03-01 status for construction", "2 on 2026-03-01 status for review"),
                ("A on 2026-10-02 status for construction", "A on 2026-10-02 status for review"),
            ),
            base="procedure",
        ),
        Good(
            (
                ("2 on 2026-03-01 status for construction", "2 on 2026-03-01"),
                ("A on 2026-10-02 status for construction", "A on 2026-10-02"),
            ),
            base="procedure",
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
        state, field = _state(revision, job)
        if state:
            case.add(
                RULE.found(
                    f"{reference.name} revision {revision.name} is {state}",
                    case.spec.source.span(reference.start, reference.end),
                    address=f"{job.name}/follows/{reference.name}",
                    others=[Label(revision.place(field), "said here")],
                )
            )


#: What the owner has not issued to work to.
_UNISSUED = ("in preparation", "for review", "for approval", "for information")


def _state(revision: Revision, job: Job) -> tuple[str, str]:
    """What is wrong with working to it, and the field that says so; "" for nothing."""
    if revision.status == "superseded":
        return "superseded", "status"
    if revision.answer == "not approved":
        return "not approved", "answer"
    issued = job.revision is not None and job.revision.status == "for construction"
    if issued and revision.status in _UNISSUED:
        return f"{revision.status}, and the job for construction", "status"
    return "", ""
