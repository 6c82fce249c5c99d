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
#: So many times as long as the test piece is far longer.
_FAR = 2

RULE = Rule(
    "J218",
    "qualified-for-far-less",
    "warning",
    summary="Twice the time at temperature of the test piece or more, earlier treatments included, "
    "where nothing is said of toughness.",
    why="Strength and hardness fall with time at temperature: those tested are of another weld, or "
    "a time was copied wrong.",
    fix="Copy the hold from the qualification, or use one with a longer hold.",
    source="common practice, no source; ASME IX QW-407.2 asks for more where toughness counts",
    basis="practice",
    edges=(
        Edge(
            (("hold 8 h condition", "hold {} condition"),),
            keeps="61 min",
            breaks="60 min",
            says="120 min … PQR-31 60 min",
        ),
        Edge(
            (
                ("hold 8 h condition", "hold 4 h condition"),
                (
                    "  expansion  free\n",
                    '  expansion  free\n  already heated {} at 690 degC "shop"\n',
                ),
            ),
            keeps="359 min",
            breaks="360 min",
            at="4 h",
            says="480 min … PQR-31 4 h",
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
        if tested is None or qualified.toughness or total < _FAR * tested.value:
            continue
        spent = Quantity.of(total, "s", TIME)
        case.add(
            RULE.found(
                f"{joint.name} spends {spent.show('min', 0, 'up')} at temperature, and the test "
                f"piece of {qualified.record} {tested}",
                qualified.place("hold"),
                address=joint.address,
                others=[
                    Label(past.place("time"), "counts as well") for past in joint.entry.earlier
                ],
                basis=RULE.basis,
            )
        )
