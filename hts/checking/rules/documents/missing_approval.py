"""Somebody other than the writer approves the document."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule

RULE = Rule(
    "D104",
    "missing-approval",
    "warning",
    summary="A document that nobody is to approve, or that is approved by the role that prepared "
    "it.",
    why="The second pair of eyes finds what the first no longer sees.",
    fix="Name the role that approves it, in `signed`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((('    approved   "Owner\'s engineer"\n', ""),), at="signed"),
        Bad(
            (('    approved   "Owner\'s engineer"', '    approved   "Heat-treatment engineer"'),),
            at="Heat-treatment engineer",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    signed = job.signed if job is not None else None
    if job is None or signed is None or not job.sound:
        return
    if not signed.approved:
        case.add(
            RULE.found(
                "nobody is to approve the document", signed.place(), address=f"{job.name}/signed"
            )
        )
        return
    prepared = signed.prepared.role if signed.prepared is not None else None
    if all(approval.role == prepared for approval in signed.approved):
        case.add(
            RULE.found(
                f"{prepared} prepares and approves the document",
                signed.approved[0].place("role"),
                address=f"{job.name}/signed",
            )
        )
