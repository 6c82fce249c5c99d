"""A test piece was held for about as long as the weld is."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold

#: A hold of so many hours is told as a slip of its own.
_LONG = Quantity.of(10, "h", TIME)
#: Of all the time at temperature, what the test piece had at the least.
_TESTED = Fraction(8, 10)
#: A test piece is held for some treatments more than are planned, and not for ten times as long.
_TIMES, _VERY_LONG = 10, Quantity.of(20, "h", TIME)

RULE = Rule(
    "J218",
    "qualified-for-far-less",
    "warning",
    summary="More time at temperature, earlier treatments included, than the test piece covers that had "
    "80 % of it, where nothing is said of toughness; or a test piece held for more than ten times as long, 20 h and "
    "more.",
    why="Strength and hardness fall with time at temperature: those tested are of another weld, or "
    "a time was copied wrong.",
    fix="Copy the hold from the qualification, or use one with a longer hold.",
    source="common practice, no source: the measure that ASME IX QW-407.2 has where toughness counts",
    basis="practice",
    edges=(
        Edge(
            (("hold 8 h condition", "hold {} condition"),),
            keeps="96 min",
            breaks="95 min",
            says="120 min … PQR-31 with 95 min covers 118 min … 0.8",
        ),
        Edge(
            (
                ("hold 8 h condition", "hold 4 h condition"),
                (
                    "  expansion  free\n",
                    '  expansion  free\n  already heated {} at 690 degC "shop"\n',
                ),
            ),
            keeps="180 min",
            breaks="181 min",
            at="4 h",
            says="301 min … PQR-31 with 4 h covers 300 min … 0.8",
        ),
        Edge(
            (("hold 8 h condition", "hold {} condition"),),
            keeps="20 h",
            breaks="20.1 h",
            says="120 min … PQR-31 with 20.1 h more than 10 times",
        ),
    ),
    agrees=(
        Agreement("joint.qualified.hold", "cycle.hold.for", "held about as long"),
        Agreement("joint.qualified.hold", "joint.already heated.time", "earlier times count"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    cycles = treated(joint)
    if not cycles or not all(cycle.entry.sound for cycle in cycles):
        return
    total = sum((past.time.value for past in joint.entry.earlier), Fraction(0))
    for cycle in cycles:
        for hold in cycle.entry.segments:
            if isinstance(hold, Hold):
                time = case.limits(joint, cycle).hold_time(hold)
                if time is not None and time >= _LONG:
                    return
                total += time.value if time is not None else 0
    for qualified in joint.entry.qualified:
        tested = qualified.hold
        if tested is not None and total and tested >= _VERY_LONG and tested.value > total * _TIMES:
            spent = Quantity.of(total, "s", TIME)
            case.add(
                RULE.found(
                    f"{joint.name} spends {spent.show('min', 0, 'up')} at temperature, and the test piece of "
                    f"{qualified.record} with {tested} more than {_TIMES} times as long",
                    qualified.place("hold"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
            continue
        if tested is None or qualified.toughness or total * _TESTED <= tested.value:
            continue
        covered = tested / _TESTED
        spent = Quantity.of(total, "s", TIME)
        case.add(
            RULE.found(
                f"{joint.name} spends {spent.show('min', 0, 'up')} at temperature, and the test piece of "
                f"{qualified.record} with {tested} covers {covered.show('min', 0, 'down')} (hold / 0.8)",
                qualified.place("hold"),
                address=joint.address,
                others=[
                    Label(past.place("time"), "counts as well") for past in joint.entry.earlier
                ],
                basis=RULE.basis,
            )
        )
