"""The procedures that come with a job are followed."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.job import Job
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.spec import File

_FOLLOWS = "  follows      P-07\n"
_AMENDMENT = (
    "procedure P-07 ",
    "procedure P-07A {\n  revision 1 on 2026-05-01 status for construction\n"
    "  amends P-07 revision 2\n  hold time at most 5 h replaces P-07.hold-time\n}\n\n"
    "procedure P-07 ",
)

RULE = Rule(
    "D119",
    "procedure-not-followed",
    "warning",
    summary="A job that has a procedure in its text or in a file it uses and follows none of that file, "
    "or follows a procedure and not the amendment beside it; a rule book of its own that is not in force.",
    why="None of the owner's limits are in force, and the paper looks the same.",
    fix="Name it after `follows`, or take the `use` line out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_FOLLOWS, ""),), base="procedure", at="P-07"),
        Bad((_AMENDMENT,), base="procedure", at="P-07A"),
    ),
    good=(
        Good(((_FOLLOWS, "  follows      P-07A, P-07\n"), _AMENDMENT), base="procedure"),
        Good(
            (
                (
                    "procedure P-07 ",
                    "procedure P-08 {\n  hold time at most 4 h\n}\n\nprocedure P-07 ",
                ),
            ),
            base="procedure",
        ),
    ),
)
#: Of an amendment: nobody works to it yet, or any more.
_NOT_IN_FORCE = ("superseded", "in preparation", "for review", "for approval", "for information")


@RULE.for_spec
def check(case: Case) -> None:
    spec = case.spec
    job = spec.file.job
    # A name that leads nowhere is told as that; which procedure was meant is open.
    if job is None or any(reference.target is None for reference in job.follows):
        return
    _books(case, job)
    followed = {procedure.name: procedure for procedure in spec.procedures}
    for file in (spec.file, *(library.file for library in spec.libraries)):
        names = [procedure.name for procedure in file.procedures if isinstance(procedure.name, str)]
        amended = [each for each in file.procedures if each.name not in followed]
        if names and not {*followed} & {*names}:
            first = ", ".join(names[:3])
            case.add(
                RULE.found(
                    f"{job.name} follows none of the procedures at hand: {first}",
                    _at(case, file, file.procedures[0]),
                    address=job.name,
                    basis=RULE.basis,
                )
            )
            continue
        for procedure in amended:
            for name in _amended_as_followed(procedure, followed):
                case.add(
                    RULE.found(
                        f"{job.name} follows {name} and not {procedure.name}, which amends it",
                        _at(case, file, procedure),
                        address=job.name,
                        basis=RULE.basis,
                    )
                )


def _books(case: Case, job: Job) -> None:
    """A rule book that the text itself brings along is there to govern."""
    # One in the precedence that is not in force is told there.
    governing = {*(edition.book for edition in job.governed_by), *job.precedence}
    for book in case.spec.books:
        name = book.file.id
        if not any(book.entry is each for each in case.spec.file.books) or name in governing:
            continue
        case.add(
            RULE.found(
                f"{job.name} brings {name} along and is not governed by it",
                book.entry.place("path"),
                address=job.name,
                help="Name it after `governed by`, or take the `book` line out.",
                basis=RULE.basis,
            )
        )


def _amended_as_followed(procedure: Procedure, followed: dict[str, Procedure]) -> Iterator[str]:
    """The procedures followed in the very revision that another one amends, while it is valid."""
    if procedure.revision is not None and procedure.revision.status in _NOT_IN_FORCE:
        return
    for line in procedure.amends:
        other = followed.get(line.procedure.name) if line.procedure is not None else None
        if other is not None and other.revision and other.revision.name == line.revision:
            yield other.name


def _at(case: Case, file: File, procedure: Procedure) -> Span:
    """The procedure, or the line that brings its file along."""
    if file is case.spec.file:
        return procedure.place("name")
    name = file.source.name.rsplit("/", 1)[-1]
    for use in case.spec.file.uses:
        if use.path is not None and use.path.rsplit("/", 1)[-1] == name:
            return use.place("path")
    return case.spec.file.uses[0].place("path")
