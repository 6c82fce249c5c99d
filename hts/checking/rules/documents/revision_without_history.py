"""The history holds the present revision."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule

RULE = Rule(
    "D101",
    "revision-without-history",
    "warning",
    summary="A revision that the history does not mention, or mentions with another day.",
    why="Nobody can see what has changed since the paper they hold.",
    fix="Add a line for the revision to the history.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("revision     A on 2026-10-02", "revision     B on 2026-11-20"),), at="B"),
        Bad(
            (("revision     A on 2026-10-02", "revision     A on 2026-10-05"),),
            at="2026-10-05",
            says="of 2026-10-05 … of 2026-10-02",
        ),
        Bad((('  history {\n    A on 2026-10-02 "First issue"\n  }\n', ""),), at="A"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or not job.sound:
        return
    revision = job.revision
    lines = job.history.lines if job.history is not None else ()
    line = next((line for line in lines if line.name == revision.name), None)
    address = f"{job.name}/{revision.name}"
    if line is None:
        case.add(
            RULE.found(
                f"the history does not say what revision {revision.name} changed",
                revision.place("name"),
                address=address,
                others=[] if job.history is None else [Label(job.history.place(), "the history")],
                help=f'write in `history`: {revision.name} on {revision.on} "…"',
            )
        )
    elif line.on is not None and revision.on is not None and line.on != revision.on:
        case.add(
            RULE.found(
                f"revision {revision.name} is of {revision.on}, in the history of {line.on}",
                revision.place("on"),
                address=address,
                others=[Label(line.place("on"), "history")],
            )
        )
