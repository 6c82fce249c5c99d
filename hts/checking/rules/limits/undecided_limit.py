"""Everything a limit hangs on is stated."""

from __future__ import annotations

from hts.base.findings import ERROR
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.missing import already_told, merged, wanted
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint
from hts.limits import HEAT_TREATMENT, LIMITED, Unanswered

RULE = Rule(
    "L218",
    "undecided-limit",
    "warning",
    summary="A limit that could not be judged because the text does not say what it depends on.",
    why="A limit nobody could apply protects nobody.",
    fix="State what the message names.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                ("  cap width  30 mm\n", ""),
                ("heated band    by rule", "heated band    600 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 300 mm"),
                ("at 6:00,  287 mm", "at 6:00,  300 mm"),
                ("soak band      by rule", "soak band      81 mm total"),
            ),
            at="W12",
        ),
        Bad((("when t <= 60 mm", "when service = steam"),), base="procedure", at="W12"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    undecided = _unanswered(case, joint)
    job = case.spec.file.job
    books = sum(authority.is_book for authority in case.authorities)
    # A book that is not there, or not read, may be what gives the fact: told at the book.
    unread = job is not None and (not job.sound or books < len(job.governed_by))
    if not undecided or unread:
        return
    already = already_told(joint)
    undecided = [item for item in undecided if not any(name in already for name in item.names)]
    unbounded = _unbounded(case, joint)
    for names, items in merged(undecided):
        quantities = list(dict.fromkeys(item.limit.quantity for item in items))
        sources = list(dict.fromkeys(item.limit.source.name for item in items))
        needed, entries = wanted(names)
        reasons = [f"{i.limit.quantity}: {i.reason}" for i in items if i.reason]
        finding = RULE.found(
            f"limits of {joint.name} on {', '.join(quantities)} ({', '.join(sources)}) depend on "
            f"{needed}, which is not stated"
            if names
            else f"limits of {joint.name} on {', '.join(quantities)} ({', '.join(sources)}) have no "
            "value",
            joint.place("names"),
            address=joint.address,
            notes=reasons,
            help=f"write {entries}" if entries else "",
        )
        if not unbounded.isdisjoint(quantities):
            finding.severity = ERROR
        case.add(finding)


def _unbounded(case: Case, joint: Joint) -> set[str]:
    """What of the hold nothing limits while its limits are undecided: nobody may heat to that."""
    return {
        quantity
        for cycle in treated(joint)
        if cycle.entry.sound
        for quantity in ("hold temperature", "hold time")
        if (found := case.limits(joint, cycle).of(quantity)) is not None
        and found.unanswered
        and found.setter("minimum") is None
    }


def _unanswered(case: Case, joint: Joint) -> list[Unanswered]:
    """What could not be decided about the parts of the work that the text describes."""
    subjects = {"joint"}
    kept: list[JointLimits] = []
    for cycle in treated(joint):
        if cycle.entry.sound:
            subjects.add("cycle")
            kept.append(case.limits(joint, cycle))
    for bake in joint.bakes:
        if bake.entry.sound:
            subjects.add("bake")
            kept.append(case.limits(joint, bake))
    if joint.preheat is not None:
        subjects.add("preheat")
    if joint.entry.heating is None:
        subjects.discard("joint")
    found: dict[tuple[int, str | None], Unanswered] = {}
    for limits in kept or [case.limits(joint)]:
        for quantity, governing in limits.governing.items():
            treatment = quantity == HEAT_TREATMENT
            # An exemption that might apply does not matter where the joint is treated anyway.
            if treatment and ("cycle" in subjects or governing.status is not None):
                continue
            if treatment or LIMITED[quantity].subject in subjects:
                for item in governing.unanswered:
                    found.setdefault((id(item.limit), item.side), item)
    return list(found.values())
