"""A document for construction has nothing open."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule

RULE = Rule(
    "D103",
    "open-point-for-construction",
    "error",
    summary="A document issued for construction with a point that is still open.",
    why="Work would start on a guess.",
    fix="Close the point (`closed DAY`), or issue the document for review.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("  signed {", '  open point 1 "Wall of the tee to be measured"\n  signed {'),), at="1"
        ),
    ),
    good=(
        Good((("  signed {", '  open point 1 "Wall of the tee" closed 2026-10-01\n  signed {'),)),
        Good(
            (
                ("status for construction\n  history", "status for review\n  history"),
                ("  signed {", '  open point 1 "Wall of the tee to be measured"\n  signed {'),
            )
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or not job.sound or job.revision.status != "for construction":
        return
    for point in job.open_points:
        if point.closed is None:
            case.add(
                RULE.found(
                    f"point {point.number} is open, but the document is for construction",
                    point.place("number"),
                    address=f"{job.name}/{point.number}",
                    others=[Label(job.revision.place("status"), "for construction")],
                )
            )
