"""All treatments together are no longer than a procedure allows."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import broken, cited, places, shown_bound
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold

_LINE = "  requires spare for controlling thermocouples"

RULE = Rule(
    "L230",
    "treated-for-too-long",
    "error",
    summary="More time at temperature, earlier treatments included, than a procedure allows.",
    why="Strength and toughness fall with every hour, whichever treatment it belongs to.",
    fix="Shorten the hold, or ask the owner how much more the metal can bear.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  requires spare for controlling thermocouples",
                    "  total hold at most {}\n  requires spare for controlling thermocouples",
                ),
            ),
            keeps="120 min",
            breaks="119 min",
            at="2 h",
            base="procedure",
            says="for 120 min … at most 119 min",
        ),
    ),
    good=(Good(((_LINE, f"  total hold at most 6 h\n{_LINE}"),), base="procedure"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    cycles = [cycle for cycle in treated(joint) if cycle.entry.sound]
    total = sum((past.time.value for past in joint.entry.earlier), Fraction(0))
    last: Hold | None = None
    for cycle in cycles:
        for hold in cycle.entry.segments:
            if isinstance(hold, Hold):
                time = hold.longest or case.limits(joint, cycle).hold_time(hold)
                total += time.value if time is not None else 0
                last = hold
    governing = case.limits(joint, cycles[-1]).of("total hold") if cycles else None
    if governing is None or last is None:
        return
    spent = Quantity.of_base(total, TIME, "h")
    found = broken(governing, "maximum", spent)
    if not found:
        return
    first = found[0]
    past = [Label(one.place("time"), "counts as well") for one in joint.entry.earlier]
    case.add(
        RULE.found(
            f"{joint.name} is held for {spent.show('min', 0, 'up')} in all, but "
            f"{cited(first.limit.source)} allows at most {shown_bound(first, 'maximum', spent)}",
            last.place("time"),
            address=joint.address,
            others=[*places(first.limit.source), *past],
            basis=first.limit.source.basis,
        )
    )
