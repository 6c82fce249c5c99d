"""Welds of piping stand under a book for piping, and under none for tanks, structures or other lines besides."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.job import Job
from hts.language.vocabulary.types import Edition

#: Books for what is no piping, and what they are for.
_OTHERS = {
    "api-650": "welded tanks",
    "aws-d1.1": "structures",
    "dnv-os-c401": "offshore structures",
    "cfr-46-54": "pressure vessels in ships",
}
_PIPING = ("asme-b31", "gb-50316", "cfr-46-56", "nycrr")
#: What a book is for that is for one service alone, and the services it is for.
_SERVICES = {
    "ibr-1950": ("boilers and steam pipes", ("steam", "water", "feed water")),
}
_KINDS = ("girth butt", "branch", "socket")
_PARTS = (None, "pipe", "elbow", "bend", "tee", "reducer", "cap", "valve", "socket fitting")
_BOOKS = "asme-b31.3 edition 2018, local-heating"

RULE = Rule(
    "L234",
    "book-of-other-trade",
    "warning",
    summary="A book for tanks, structures or vessels that governs beside a book for piping, where every "
    "weld of the job is one of pipe; a book for steam pipes where the lines carry something else.",
    why="Another book was meant: the one that should govern does not, and its limits are not "
    "looked at.",
    fix="Name the book that is meant, or leave out the one that is for other work.",
    source="the scopes the titles of the books state",
    basis="derived",
    bad=(
        Bad(
            ((_BOOKS, f"{_BOOKS}, api-650"),),
            at="api-650",
            says="api-650 is for welded tanks",
        ),
        Bad(
            (
                (_BOOKS, f"{_BOOKS}, ibr-1950"),
                ("  made in    field\n", "  made in    field\n  service    amine\n"),
            ),
            at="ibr-1950",
            says="ibr-1950 is for boilers and steam pipes, and the lines of this job carry amine",
        ),
    ),
    good=(
        # Steam in one of several lines.
        Good(
            (
                (_BOOKS, f"{_BOOKS}, ibr-1950"),
                (
                    "  made in    field\n",
                    "  made in    field\n  service    steam\n  service    hydrogen\n",
                ),
            )
        ),
        # The nozzle of a tank is welded to a line: both books count.
        Good(
            (
                (_BOOKS, f"{_BOOKS}, api-650"),
                (
                    "  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n",
                    "  side upstream of pipe NPS 12 wall 25.4 mm measured part nozzle\n"
                    "  side downstream of pipe NPS 12 wall 25.4 mm measured\n",
                ),
                ("  between    pipe and pipe\n", ""),
            )
        ),
    ),
    agrees=(
        Agreement("job.governed by", "joint.service", "a book for what the line carries"),
        Agreement("job.governed by", "joint.side.part", "a book for what is welded"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or not job.sound:
        return
    _of_other_service(case, job)
    books = [named.book or "" for named in job.governed_by]
    others = [named for named in job.governed_by if named.book in _OTHERS]
    if not others or not any(book.startswith(_PIPING) for book in books):
        return
    # A joint that could not be read whole may be the one a book is for.
    joints = list(case.joints())
    if not joints or not all(joint.sound for joint in case.spec.joints.values()):
        return
    if not all(_is_of_pipe(joint) for joint in joints):
        return
    for named in others:
        _tell(case, job, named, f"{_OTHERS[named.book]}, and every weld of this job is of pipe")


def _of_other_service(case: Case, job: Job) -> None:
    """A book for lines of one service, where each line is said to carry something else."""
    for named in job.governed_by:
        purpose, services = _SERVICES.get(named.book or "", ("", ()))
        carried = [joint.entry.service for joint in case.joints()] if purpose else []
        if carried and all(each and not {*each} & {*services} for each in carried):
            words = " and ".join(dict.fromkeys(word for each in carried for word in each))
            _tell(case, job, named, f"{purpose}, and the lines of this job carry {words}")


def _tell(case: Case, job: Job, named: Edition, why: str) -> None:
    case.add(
        RULE.found(
            f"{named.book} is for {why}",
            case.spec.source.span(named.start, named.end),
            address=f"{job.name}/governed-by/{named.book}",
        )
    )


def _is_of_pipe(joint: Joint) -> bool:
    """Whether all parts it joins are of sizes of pipe, and none is called a part of another thing."""
    entry = joint.entry
    sized = [each for each in (entry.pipe, *entry.sides) if each is not None]
    return (
        entry.kind in _KINDS
        and bool(sized)
        and all(each.nps is not None or each.dn is not None for each in sized)
        and all(side.part in _PARTS for side in entry.sides)
    )
