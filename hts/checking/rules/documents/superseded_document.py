"""Nobody works to a specification that is superseded."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule

_CURRENT = "A on 2026-10-02 status for construction"

RULE = Rule(
    "D113",
    "superseded-document",
    "warning",
    summary="A document of work whose own status says that it is superseded.",
    why="Its setpoints and paper look like those in force.",
    fix="Work to the document that takes its place, or correct the status.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_CURRENT, "A on 2026-10-02 status superseded"),), at="superseded"),),
    good=(Good(((_CURRENT, "A on 2026-10-02 status in preparation"),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    revision = job.revision if job is not None else None
    if job is not None and revision is not None and revision.status == "superseded":
        case.add(
            RULE.found(
                f"revision {revision.name} of {job.number or job.name} is superseded",
                revision.place("status"),
                address=f"{job.name}/{revision.name}",
                basis=RULE.basis,
            )
        )
