"""The limits of a joint leave a value that meets them all."""

from __future__ import annotations

from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted, shown
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.model.side import Side
from hts.limits import LIMITED, Demand

RULE = Rule(
    "L216",
    "limits-cannot-be-met",
    "error",
    summary="Limits of books, procedures or the two sides of a joint that exclude each other.",
    why="Whoever keeps one of them breaks the other, and the choice is not the technician's.",
    fix="Have the owner of the limits decide which of them gives way, in a procedure or by an "
    "option.",
    source="arithmetic: the governing limits",
    basis="derived",
    bad=(
        Bad(
            (("  hold time        at most 6 h", "  hold temperature at most 670 degC"),),
            base="procedure",
            at="W12",
            says="at least 675 degC (1250 degF) … at most 670 degC (1238 degF)",
        ),
    ),
    edges=(
        Edge(
            (
                ("  hold time        at most 6 h", "  hold time        at most {} min"),
                ("730 degC for 2 h", "730 degC for 64 min"),
            ),
            keeps="64",
            breaks="63",
            at="W12",
            base="procedure",
            says="at least 63.5 min … at most 63 min",
        ),
    ),
)

_DISSIMILAR = (
    "have the owner say in the procedure which side counts (`when more_alloyed = yes`), or butter "
    "and treat one side before; a waiver leaves the other limits of each side in force"
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
        apart = low.side is not None and high.side is not None and low.side != high.side
        case.add(
            RULE.found(
                f"{_between(joint, low, high) if apart else f'no {quantity} meets the limits of {joint.name}'}: "
                f"{cited(low.limit.source)} asks for at least {shown(low.both('minimum'), 'up')}"
                f"{_of(low.side)}, {cited(high.limit.source)} allows at most "
                f"{shown(high.both('maximum'), 'down')}{_of(high.side)}",
                joint.place("names"),
                address=joint.address,
                others=[*places(low.limit.source), *places(high.limit.source)],
                notes=[
                    *_asked_first(case, low, high),
                    *quoted(low.limit.source),
                    *quoted(high.limit.source),
                ],
                help=_DISSIMILAR if apart else "",
            )
        )


def _asked_first(case: Case, low: Demand, high: Demand) -> list[str]:
    """Whose owner the job asks first, where it ranks the two documents."""
    job = case.spec.file.job
    ranked = job.precedence if job is not None else ()
    names = {low.limit.source.name, high.limit.source.name}
    first = [name for name in ranked if name in names]
    if len(first) < 2:
        return []
    return [f"the job puts {first[0]} before {first[1]}: ask the owner of that first"]


def _between(joint: Joint, low: Demand, high: Demand) -> str:
    """The two metals that exclude each other, in words."""
    assert low.side is not None and high.side is not None
    metals = {side.name: _metal(side) for side in joint.sides}
    return (
        f"the two metals of {joint.name} have no {low.limit.quantity} in common, "
        f"{metals[low.side]} {low.side} and {metals[high.side]} {high.side}"
    )


def _metal(side: Side) -> str:
    if side.grade is not None:
        return side.grade.name
    number = side.figure("p_number")
    return f"P-number {number.value}" if number is not None else "the metal"


def _of(side: str | None) -> str:
    return f" on the {side} side" if side else ""
