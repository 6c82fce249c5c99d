"""A procedure that a job follows is for the joints of the job."""

from __future__ import annotations

from hts.base.findings import WARNING, Label
from hts.base.text import Span
from hts.checking.govern.applying import Refusal, refusals
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import few
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.procedure import Procedure

RULE = Rule(
    "R110",
    "procedure-for-other-work",
    "error",
    floor="warning",
    summary="A joint that no procedure of the job applies to, or a procedure that applies to none "
    "of its joints.",
    why="All limits of the procedure silently drop out, while the paper still names it.",
    fix="Follow a procedure that covers the joint, or have this one extended.",
    source="derived: what the procedure says it applies to",
    basis="derived",
    bad=(
        Bad(
            (("applies to wall      at most 75 mm", "applies to wall at most 25 mm"),),
            "W12",
            "procedure",
            says="is 25.4 mm (1 in)",
        ),
        Bad((("applies to p-number  1, 4, 5A", "applies to p-number 1, 4"),), "W12", "procedure"),
        Bad(
            (
                ("applies to wall      at most 75 mm", "applies to method induction"),
                ("delay before heat treatment  at most 48 h", "applies to kind branch"),
            ),
            "W12",
            "procedure",
        ),
        Bad(
            (
                ("  follows      P-07\n", "  follows      P-07, P-08\n"),
                (
                    "procedure P-07",
                    'procedure P-08 "Branches" {\n  applies to kind branch\n'
                    "  holding spread at most 60 K\n}\n\nprocedure P-07",
                ),
            ),
            "P-08",
            "procedure",
        ),
    ),
    good=(
        Good(
            (
                (
                    "applies to wall      at most 75 mm",
                    "applies to wall at most 75 mm\n"
                    "  applies to kind girth butt, branch\n  applies to method resistance",
                ),
            ),
            "procedure",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    followed = [a.procedure for a in case.authorities if a.procedure is not None]
    if job is None or not job.follows or not followed:
        return
    # A joint that could not be read whole may be the one a procedure is for, and so may a row.
    whole = all(joint.sound for joint in case.spec.own)
    whole = whole and all(listed.sound for listed in case.spec.weld_lists)
    idle = {procedure.name: procedure for procedure in followed} if whole else {}
    uncovered: dict[tuple[tuple[str, Refusal], ...], list[Joint]] = {}
    nothing = case.nothing_at(RULE.kind.code)
    for joint in case.joints():
        if joint.name in nothing:
            # Each procedure is for it.
            idle.clear()
            continue
        refused: dict[str, list[tuple[str, Refusal]]] = {}
        for procedure in followed:
            sides = refusals(procedure, limits_of(case, joint))
            if not all(sides.values()):
                idle.pop(procedure.name, None)
            for side, why in sides.items():
                if why:
                    refused.setdefault(side, []).append((procedure.name, why[0]))
        if not refused:
            nothing.add(joint.name)
        outside = [why for why in refused.values() if len(why) == len(followed)]
        if outside:
            uncovered.setdefault(tuple(outside[0]), []).append(joint)
    for reasons, joints in uncovered.items():
        _tell(case, reasons, joints)
    told = {name for reasons in uncovered for name, _ in reasons}
    for name, procedure in idle.items():
        if name not in told:
            _idle(case, procedure)


def _tell(case: Case, why: tuple[tuple[str, Refusal], ...], joints: list[Joint]) -> None:
    first, *others = joints
    reasons = "; ".join(f"{name} {refusal.clause}, and {refusal.is_}" for name, refusal in why)
    notes = ["none of its limits are in force for this joint, and none of its lines are printed"]
    if others:
        notes.append(f"the same for {few([joint.name for joint in others])}")
    case.add(
        RULE.found(
            f"no procedure of this job is for {first.name}: {reasons}",
            first.place("names"),
            address=first.address,
            others=[Label(refusal.at, "the clause") for _, refusal in why],
            notes=notes,
        )
    )


def _idle(case: Case, procedure: Procedure) -> None:
    finding = RULE.found(
        f"{procedure.name} is for none of the joints of this job",
        _followed(case, procedure.name) or procedure.place("name"),
        address=procedure.name,
        help="leave it out of `follows`, or correct what it applies to",
    )
    finding.severity = WARNING
    case.add(finding)


def _followed(case: Case, name: str) -> Span | None:
    job = case.spec.file.job
    assert job is not None
    return next(
        (case.spec.source.span(r.start, r.end) for r in job.follows if r.name == name), None
    )
