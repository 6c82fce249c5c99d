"""A support lent for the heat stands where the line would otherwise sag."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.supports import nearest
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_ROD = 'support    "rod hanger" 1.2 m upstream fixed'
_LENT = f'{_ROD}\n  support    "trestle" {{}} temporary'

RULE = Rule(
    "N125",
    "lent-support-behind-another",
    "warning",
    summary="A temporary support of a level line farther from the weld than one that stays, on the same "
    "side, and none on the other.",
    why="It carries nothing there, and on the other side the hot line hangs on nothing.",
    fix="Correct its side or its distance.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_ROD, _LENT.format("2.2 m upstream")),),
            at="2.2 m upstream",
            says="trestle stands 2.2 m upstream of W12, behind rod hanger; nothing holds the other side",
        ),
    ),
    good=(
        Good(((_ROD, _LENT.format("0.8 m downstream")),)),
        Good(((_ROD, _LENT.format("0.8 m upstream")),)),
        Good(
            (
                (
                    _ROD,
                    _LENT.format("2.2 m upstream")
                    + '\n  support    "pipe shoe" 2 m downstream guided',
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    supports = joint.entry.supports
    ends = nearest(joint) if joint.is_horizontal and len(supports) > 1 else []
    if len(ends) != 1 or ends[0].state == "temporary":
        return
    for support in supports:
        if support.state == "temporary":
            where = support.where
            case.add(
                RULE.found(
                    f"{support.what} stands {where.distance} {where.side} of {joint.name}, behind "
                    f"{ends[0].what}; nothing holds the other side",
                    support.place("where"),
                    address=joint.address,
                    others=[Label(ends[0].place("where"), ends[0].what)],
                    basis=RULE.basis,
                )
            )
            return
