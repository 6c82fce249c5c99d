"""The length that hangs free is what the nearest supports leave free."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.supports import apart, nearest
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_SHOE = '  support    "pipe shoe" 0.8 m downstream guided\n'
#: A length paced off agrees with the drawing so far.
_NEAR = Fraction(1, 20)
#: A sum is met by chance elsewhere.
_EQUAL = Fraction(1, 100)


def _two(span: str) -> tuple[tuple[str, str], ...]:
    return ((_ROD, f"{_ROD}{_SHOE}  unsupported span {span}\n"),)


RULE = Rule(
    "N116",
    "span-unlike-supports",
    "warning",
    summary="An unsupported span other than the distance between the nearest supports on the two "
    "sides of the weld.",
    why="Whether the soft pipe bears its weight was judged for another length than it hangs free.",
    fix="Correct the span or the place of a support; name the support that is missing.",
    source="arithmetic",
    basis="derived",
    edges=(
        Edge(_two("{}"), keeps="1.9 m", breaks="1.8 m", says="is 1.8 m (5.91 ft) … 2 m (6.562 ft)"),
        Edge(_two("{}"), keeps="2.1 m", breaks="2.2 m", says="is 2.2 m (7.22 ft) … 2 m (6.562 ft)"),
    ),
    bad=(
        Bad(
            ((_ROD, f"{_ROD}{_SHOE.replace('downstream', 'upstream')}  unsupported span 2 m\n"),),
            at="0.8 m upstream",
            says="is 2 m (6.56 ft), rod hanger and pipe shoe … both are upstream of W12",
        ),
    ),
    good=(Good(((_ROD, f"{_ROD}  unsupported span 3 m\n"),)),),
    agrees=(
        Agreement(
            "joint.unsupported span",
            "joint.support.where",
            "the length the nearest supports leave free",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    span = joint.entry.unsupported_span
    if span is None or joint.entry.kind in ("long seam", "attachment"):
        return
    supports = nearest(joint)
    if len(supports) == 1:
        _one_side(case, joint, span)
    if len(supports) != 2:
        return
    free = apart(supports)
    if abs(span.value - free) <= free * _NEAR:
        return
    between = Quantity.of(free, "mm", LENGTH).in_unit(span.unit.symbol)
    case.add(
        RULE.found(
            f"the unsupported span is {span.both()}; the nearest supports are {between.both()} "
            f"apart",
            joint.entry.place("unsupported_span"),
            address=joint.address,
            others=[Label(each.place("where"), each.what) for each in supports],
        )
    )


def _one_side(case: Case, joint: Joint, span: Quantity) -> None:
    """All supports on one side of the weld, and the span is what two of them would leave free if
    they stood on both."""
    supports = joint.entry.supports
    for first, second in combinations(supports, 2):
        if abs(span.value - apart([first, second])) > span.value * _EQUAL:
            continue
        case.add(
            RULE.found(
                f"the unsupported span is {span.both()}, {first.what} and {second.what} taken on both "
                f"sides; both are {first.where.side} of {joint.name}",
                second.place("where"),
                address=joint.address,
                others=[
                    Label(first.place("where"), first.what),
                    Label(joint.entry.place("unsupported_span"), "the span"),
                ],
            )
        )
        return
