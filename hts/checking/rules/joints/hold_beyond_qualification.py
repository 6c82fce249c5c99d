"""All the time at temperature is covered by the qualification."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "J201",
    "hold-beyond-qualification",
    "error",
    summary="More time at temperature, earlier treatments included, than the qualification with "
    "toughness covers.",
    why="Toughness falls with time at temperature, and the test piece had less time.",
    fix="Use a qualification with a longer hold.",
    source="ASME IX QW-407.2 (as quoted elsewhere): the test piece had at least 80 % of the "
    "aggregate time",
    basis="published",
    edges=(
        Edge(
            (("hold 8 h condition", "hold {} with toughness condition"),),
            keeps="96 min",
            breaks="95 min",
            says="120 min … 95 min covers 118 min … 0.8)",
        ),
        Edge(
            (
                ("hold 8 h condition", "hold {} with toughness condition"),
                (
                    "  expansion  free\n",
                    '  expansion  free\n  already heated 1 h at 690 degC "shop stress relief"\n',
                ),
            ),
            keeps="144 min",
            breaks="143 min",
            says="180 min … 143 min covers 178 min … 0.8)",
        ),
    ),
    good=(
        Good((("hold 8 h condition", "hold 96 min with toughness condition"),)),
        Good((("hold 8 h condition", "hold 96 min condition"),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    total = sum((past_heating.time.value for past_heating in joint.entry.earlier), Fraction(0))
    for cycle in treated(joint):
        for hold in cycle.entry.segments:
            if isinstance(hold, Hold) and cycle.entry.sound:
                time = hold.longest or case.limits(joint, cycle).hold_time(hold)
                total += time.value if time is not None else 0
    for qualified in joint.entry.qualified:
        if qualified.hold is None or not qualified.toughness:
            continue
        covered = qualified.hold / Fraction(8, 10)
        if total > covered.value:
            spent = Quantity.of(total, "s", TIME)
            case.add(
                RULE.found(
                    f"{joint.name} spends {spent.show('min', 0, 'up')} at temperature; "
                    f"{qualified.record} with {qualified.hold} covers "
                    f"{covered.show('min', 0, 'down')} (hold / 0.8)",
                    qualified.place("hold"),
                    address=joint.address,
                    others=[
                        Label(past_heating.place("time"), "counts as well")
                        for past_heating in joint.entry.earlier
                    ],
                )
            )
