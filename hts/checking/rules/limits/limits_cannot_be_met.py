"""The limits of a joint leave a value that meets them all."""

from __future__ import annotations

from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted, shown
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint
from hts.limits import LIMITED

RULE = Rule(
    "L216",
    "limits-cannot-be-met",
    "error",
    summary="Limits of books, procedures or the two sides of a joint that exclude each other.",
    why="Whoever works to one of them breaks the other; the choice is not the technician's.",
    fix="Have the owner of the limits say which of them gives way, in a procedure or by an option.",
    source="arithmetic: the governing limits",
    basis="derived",
    bad=(
        Bad(
            (("  hold time        at most 6 h", "  hold time        at most 30 min"),),
            base="procedure",
            at="W12",
        ),
        Bad(
            (("  hold time        at most 6 h", "  hold temperature at most 670 degC"),),
            base="procedure",
            at="W12",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found: dict[str, JointLimits] = {}
    subjects = {"joint"}
    kept = [case.limits(joint, cycle) for cycle in treated(joint) if cycle.entry.sound]
    if kept:
        subjects.add("cycle")
    if joint.bakes:
        subjects.add("bake")
        kept += [case.limits(joint, bake) for bake in joint.bakes if bake.entry.sound]
    if joint.preheat is not None:
        subjects.add("preheat")
    for limits in kept or [case.limits(joint)]:
        for quantity, governing in limits.governing.items():
            if LIMITED[quantity].subject not in subjects:
                continue
            directions = {d for demand in governing.demands for d in demand.bounds}
            if len(directions) > 1 and governing.empty:
                found.setdefault(quantity, limits)
    for quantity, limits in found.items():
        conflict = limits.governing[quantity].conflict()
        assert conflict is not None
        low, high = conflict
        case.add(
            RULE.found(
                f"no {quantity} meets the limits of {joint.name}: {cited(low.limit.source)} asks "
                f"for at least {shown(low.bounds['minimum'])}{_of(low.side)}, "
                f"{cited(high.limit.source)} allows at most {shown(high.bounds['maximum'])}"
                f"{_of(high.side)}",
                joint.place("names"),
                address=joint.address,
                others=[*places(low.limit.source), *places(high.limit.source)],
                notes=[*quoted(low.limit.source), *quoted(high.limit.source)],
            )
        )


def _of(side: str | None) -> str:
    return f" on the {side} side" if side else ""
