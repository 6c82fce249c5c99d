"""Every book that governs has something to say about a joint of the job."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule

_BOOKS = "asme-b31.3 edition 2018, local-heating"

RULE = Rule(
    "L232",
    "book-for-other-work",
    "warning",
    summary="A governing book that limits nothing of any joint of the job.",
    why="Another book was meant: the one that should govern does not, and its limits are not "
    "looked at.",
    fix="Name the book that is meant, or leave out the one that says nothing here.",
    source="derived: the rows of the book and the facts of the joints",
    basis="derived",
    bad=(Bad(((_BOOKS, f"{_BOOKS}, adn-ammonia"),), at="adn-ammonia"),),
    good=(Good(((_BOOKS, f"{_BOOKS}, common-practice"),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    books = [authority.name for authority in case.authorities if authority.is_book]
    if job is None or not job.sound or len(books) < 2:
        return
    # A joint that could not be read whole may be the one a book is for.
    if not all(joint.sound for joint in case.spec.joints.values()):
        return
    idle = dict.fromkeys(books)
    any_joint = False
    for joint in case.joints():
        any_joint = True
        treatments = [t for t in (*joint.cycles, *joint.bakes) if t.entry.sound]
        for limits in [limits_of(case, joint), *(case.limits(joint, t) for t in treatments)]:
            for governing in limits.governing.values():
                for demand in governing.demands:
                    idle.pop(demand.limit.source.name, None)
                for open_row in governing.unanswered:
                    idle.pop(open_row.limit.source.name, None)
            if not idle:
                return
    if not any_joint:
        return
    for named in job.governed_by:
        if named.book in idle:
            case.add(
                RULE.found(
                    f"{named.book} limits nothing of any joint of this job",
                    case.spec.source.span(named.start, named.end),
                    address=f"{job.name}/governed-by/{named.book}",
                )
            )
