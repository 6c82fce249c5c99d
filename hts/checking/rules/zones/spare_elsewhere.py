"""A spare sits beside the thermocouple it stands in for."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited
from hts.checking.rules.helpers.asked import asked, spares
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.apart import apart
from hts.language.model.joint import Joint, Thermocouple

_NEAR = Quantity.of(25, "mm", LENGTH)

RULE = Rule(
    "Z108",
    "spare-elsewhere",
    "error",
    summary="A spare on the other surface, or more than 25 mm from the one it stands in for.",
    why="After the change the controller would follow another place than before.",
    fix="Place the spare beside the thermocouple it stands in for.",
    source="common practice, no source (25 mm along the surface); or a limit of the procedure on the distance",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "at 6:10  on weld              channel 8",
                    "at 6:10  on weld surface inside channel 8",
                ),
            ),
            at="inside",
        ),
    ),
    edges=(
        Edge(
            (("spare for T2            at 6:10", "spare for T2            at {}"),),
            keeps="6:17",
            breaks="6:18",
            says="is 26 mm … at most 25 mm (0.9842 in)",
        ),
        Edge(
            (
                (
                    "  requires spare for controlling thermocouples within 20 mm",
                    "  spare distance at most {}",
                ),
                ("spare for T1            at 12:10", "spare for T1            at 12:05"),
            ),
            keeps="15 mm",
            breaks="14 mm",
            at="6:10",
            base="procedure",
            says="is 15 mm … at most 14 mm (0.5511 in)",
        ),
    ),
    good=(Good((("spare for T2            at 6:10", "spare for T2            at 5:50"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        first = tc.spare_of
        if first is None:
            continue
        beside = [Label(first.place("name"), "the one it stands in for")]
        if tc.surface != first.surface:
            case.add(
                RULE.found(
                    f"{tc.tag} is on the {tc.surface} of the pipe, {first.tag} on the "
                    f"{first.surface}",
                    tc.place("surface"),
                    address=tc.address,
                    others=beside,
                )
            )
            continue
        distance = apart(tc, first)
        # Most spares are near by any measure; the limits are asked only for the others.
        if distance is None or distance <= 5:
            continue
        if _falls_short(case, joint, first, distance):
            continue
        near, basis = _NEAR, "practice"
        limit = limits_of(case, joint).derived("spare distance", "maximum")
        by = ""
        if limit is not None and isinstance(limit.value, Quantity) and limit.value < near:
            near, basis = limit.value, limit.demand.limit.source.basis
            by = f" by {cited(limit.demand.limit.source)}"
        if distance > near.value:
            far = Quantity.of(distance, "mm", LENGTH)
            case.add(
                RULE.found(
                    f"{tc.tag} is {far.show('mm', 0, 'up')} from {first.tag}; at most "
                    f"{near.both('down')} is "
                    + ("common practice" if basis == "practice" else f"required{by}"),
                    tc.place("at" if tc.entry.at is not None else "arc"),
                    address=tc.address,
                    others=beside,
                    basis=basis,
                )
            )


def _falls_short(case: Case, joint: Joint, first: Thermocouple, distance: Fraction) -> bool:
    """Whether a procedure demands the spare to be nearer, so that its line is what is told."""
    return any(
        test.field.name == "apart"
        and isinstance(test.most, Quantity)
        and distance > test.most.value
        for _, line in asked(case, limits_of(case, joint), lambda what: spares(what, first.duty))
        for test in (line.what.tests if line.what is not None else ())
    )
