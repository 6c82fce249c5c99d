"""The order of precedence names all books and procedures of the job, each once."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.job import Job
from hts.limits.books import books

RULE = Rule(
    "D108",
    "precedence-of-other-documents",
    "warning",
    summary="An order of precedence that names a document that does not govern the job, leaves out "
    "one that does, or names one twice.",
    why="Whoever asks which document to follow is sent to one that is not in force, or finds no "
    "answer.",
    fix="Name the books after `governed by` and the procedures after `follows`, each once.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "  show         SI and US",
                    "  precedence   P-09, asme-b31.3\n  show         SI and US",
                ),
            ),
            at="P-09",
        ),
        Bad(
            (
                (
                    "  show         SI and US",
                    "  precedence   local-heating, local-heating\n  show         SI and US",
                ),
            ),
            at="local-heating, local-heating",
        ),
        Bad(
            (
                (
                    "  show         SI and US",
                    "  precedence   local-heating\n  show         SI and US",
                ),
            ),
            at="local-heating",
        ),
    ),
    good=(
        Good(
            (
                (
                    "  show         SI and US",
                    "  precedence   asme-b31.3, local-heating\n  show         SI and US",
                ),
            )
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or not job.precedence:
        return
    known = {*books(), *(loaded.file.id for loaded in case.spec.books)}
    if not job.sound or any(named.book not in known for named in job.governed_by):
        return  # a book by a name nobody knows has been told
    in_force = set(_documents(job))
    named = job.precedence
    wrong = next((name for name in named if name not in in_force), None)
    twice = next((name for n, name in enumerate(named) if name in named[:n]), None)
    missing = next((name for name in _documents(job) if name not in named), None)
    if wrong is None and twice is None and missing is None:
        return
    case.add(
        RULE.found(
            f"{wrong} is no book or procedure of this job"
            if wrong is not None
            else f"{twice} is named twice"
            if twice is not None
            else f"the order does not say where {missing} comes",
            job.place("precedence"),
            address=f"{job.name}/precedence",
            help=f"the job is governed by {', '.join(sorted(in_force))}",
        )
    )


def _documents(job: Job) -> list[str]:
    return [*(named.book for named in job.governed_by), *(ref.name for ref in job.follows)]
