"""No two supports of a line are at one place."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.joint import Support

_ROD = 'support    "rod hanger" 1.2 m upstream fixed'

RULE = Rule(
    "N122",
    "supports-at-one-place",
    "warning",
    summary="Two supports at the same distance on the same side of the weld.",
    why="One of them is elsewhere: the hot line is held less often than the paper says.",
    fix="Correct the distance or the side of one of them.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_ROD, f'{_ROD}\n  support    "pipe shoe" 1200 mm upstream guided'),),
            at="1200 mm upstream",
            says="rod hanger and pipe shoe are both 1200 mm upstream",
        ),
    ),
    good=(Good(((_ROD, f'{_ROD}\n  support    "pipe shoe" 1.2 m downstream guided'),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    seen: dict[tuple[object, str], Support] = {}
    for support in joint.entry.supports:
        where = support.where
        other = seen.setdefault((where.distance.value, where.side), support)
        if other is not support:
            case.add(
                RULE.found(
                    f"{other.what} and {support.what} are both {where.distance} {where.side} of "
                    f"{joint.name}",
                    support.place("where"),
                    address=joint.address,
                    others=[Label(other.place("where"), other.what)],
                    basis=RULE.basis,
                )
            )
