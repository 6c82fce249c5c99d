"""What monitors an inner edge sits nearer to the weld than what monitors an outer one."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.edges import edge_monitors
from hts.checking.rules.helpers.places import from_weld, limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint, Thermocouple

_T3, _T5 = "40 mm downstream    channel 3", "287 mm downstream   channel 5"
_T4, _T6 = "40 mm upstream      channel 4", "287 mm upstream     channel 6"

RULE = Rule(
    "Z141",
    "edges-out-of-order",
    "warning",
    summary="Where the widths are left to others: a monitor of an inner edge beyond one of an outer "
    "edge, or two of one edge at distances of which one is more than twice the other.",
    why="One of them is a slip of digits or unit, and what it reads is judged as the edge.",
    fix="Correct the distance.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_T3, "{} downstream    channel 3"),),
            keeps="80 mm",
            breaks="81 mm",
            base="joint",
            says="at 81 mm (3.19 in) from the weld, T4 at 40 mm (1.57 in)",
        ),
        Edge(
            (
                (_T5, "60 mm downstream   channel 5"),
                (f"at 6:00,  {_T6}", "at 7:00,  {} upstream     channel 6"),
            ),
            keeps="40 mm",
            breaks="39 mm",
            at="40 mm",
            base="joint",
            says="at 40 mm (1.57 in) from the weld, T6 at 39 mm (1.54 in)",
        ),
    ),
    good=(
        Good((), base="joint"),
        Good(
            ((_T4, "45 mm upstream      channel 4"), (_T6, "295 mm upstream     channel 6")),
            base="joint",
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.offset",
            "joint.thermocouples.thermocouple.monitors",
            "an inner edge nearer than an outer one, both sides alike",
        ),
    ),
)

_EDGES = (
    ("soak edge", "soak band"),
    ("heated edge", "heated band"),
    ("gradient edge", "gradient band"),
)
_TIMES = 2


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    beyond: tuple[Quantity, Thermocouple] | None = None
    all_known = True
    for edge, band in _EDGES:
        placed = [(from_weld(tc), tc) for tc in edge_monitors(joint, edge)]
        found = sorted(
            ((distance, tc) for distance, tc in placed if distance is not None),
            key=lambda item: item[0].value,
        )
        if not found:
            continue
        nearest, furthest = found[0], found[-1]
        # Where the band is known each is judged by that.
        known = limits_of(case, joint).band(band) is not None
        all_known = all_known and known
        if not known and furthest[0] > nearest[0] * _TIMES:
            _tell(case, furthest, nearest, f"{furthest[1].tag} monitors the {edge} at")
            return
        if not all_known and beyond is not None and nearest[0] < beyond[0]:
            _tell(case, beyond, nearest, f"{beyond[1].tag} sits beyond the {edge}, at")
            return
        beyond = furthest


def _tell(
    case: Case,
    wrong: tuple[Quantity, Thermocouple],
    other: tuple[Quantity, Thermocouple],
    what: str,
) -> None:
    distance, tc = wrong
    case.add(
        RULE.found(
            f"{what} {distance.both()} from the weld, {other[1].tag} at {other[0].both()}",
            tc.place("offset" if tc.entry.offset is not None else "on_weld"),
            address=tc.address,
            others=[Label(other[1].place("offset" if other[1].entry.offset else "on_weld"), "")],
            basis=RULE.basis,
        )
    )
