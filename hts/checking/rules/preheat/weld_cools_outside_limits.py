"""Each run of a weld cools neither faster nor slower than books and procedures ask."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Joint
from hts.limits.quantities import Direction

QUANTITY = "weld cooling time"
_ENDS: tuple[tuple[Direction, str, str], ...] = (
    ("minimum", "cooling_time", "the shortest"),
    ("maximum", "longest_cooling_time", "the longest"),
)
_WELDED = ('"WPS-12" layers multiple', '"WPS-12" layers multiple heat input 1 kJ/mm')
_LINE = "  interpass        at most 350 degC"

RULE = Rule(
    "P128",
    "weld-cools-outside-limits",
    "error",
    summary="A run of the weld that cools from 800 to 500 degC faster or slower than asked.",
    why="Cooled too fast the weld is hard and cracks from hydrogen; too slowly, it is not tough.",
    fix="Change preheat, interpass temperature or heat input, by the welding procedure.",
    source="the governing books and procedures; the time by EN 1011-2:2001 Annex D",
    basis="derived",
    bad=(
        # Nothing to work it out from: what is asked would go unchecked.
        Bad(
            ((_LINE, f"{_LINE}\n  weld cooling time at least 5 s"),),
            at="preheat",
            base="procedure",
            says="asks for a weld cooling time … heat input",
        ),
    ),
    edges=(
        # By hand: (6700 - 750) * 1 * (1/350 - 1/650) = 7.846 s, times 0.9 = 7.06 s.
        Edge(
            (_WELDED, (_LINE, f"{_LINE}\n  weld cooling time at least {{}}")),
            keeps="7 s",
            breaks="7.1 s",
            at="preheat",
            base="procedure",
            says="the shortest weld cooling time of W12 is 7 s … 7.1 s",
        ),
        # Interpass 315 degC: (6700 - 1575) * 1 * (1/185 - 1/485) = 17.136 s.
        Edge(
            (_WELDED, (_LINE, f"{_LINE}\n  weld cooling time at most {{}}")),
            keeps="17.2 s",
            breaks="17.1 s",
            at="preheat",
            base="procedure",
            says="the longest weld cooling time of W12 is 17.2 s … 17.1 s",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    limits = limits_of(case, joint)
    governing = limits.of(QUANTITY)
    if governing is None or preheat is None:
        return
    facts = next(iter(limits.facts.values()), {})
    for direction, name, which in _ENDS:
        setter = governing.setter(direction)
        if setter is None:
            continue
        time = facts.get(name)
        if not isinstance(time, Quantity):
            _untold(case, joint, cited(setter.limit.source), preheat.place("names"))
            return
        found = against(
            RULE,
            governing,
            direction,
            time,
            preheat.place("names"),
            address=f"{joint.address}/preheat",
            what=f"{which} {QUANTITY} of {joint.name}",
        )
        if found is not None:
            case.add(found)


def _untold(case: Case, joint: Joint, source: str, at: Span) -> None:
    case.add(
        RULE.found(
            f"{source} asks for a {QUANTITY} of {joint.name}, which cannot be worked out: it needs "
            "the walls, preheat, interpass temperature and heat input of welding",
            at,
            address=f"{joint.address}/preheat",
            help="write `welding … heat input … kJ/mm`, and preheat and interpass as temperatures",
        )
    )
