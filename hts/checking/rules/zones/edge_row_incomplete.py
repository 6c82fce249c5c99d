"""What is watched round the pipe at one side of the weld is watched so at the other."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.edges import edge_monitors, watched
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.apart import along
from hts.language.model.joint import Joint, Thermocouple

_T4 = "    T4   monitors soak edge      at 6:00,  40 mm upstream      channel 4\n"
_MORE = "    T9   monitors soak edge      at 12:00, 40 mm upstream      channel 9\n"
_LAST = "    T10  monitors soak edge      at 6:00,  40 mm downstream    channel 10\n"
#: Degrees round the pipe within which two sit at the same clock; pipe that is large, mm.
_SAME, _LARGE = 20, 300

RULE = Rule(
    "Z154",
    "edge-row-incomplete",
    "advice",
    summary="On a pipe of 300 mm or more, an edge watched at several clocks on one side of the weld, "
    "and at fewer of them on the other.",
    why="Where the row has a hole nothing shows that the metal came into the range: a thermocouple "
    "was forgotten, or its line was left out.",
    fix="Monitor the edge at the same clocks on both sides, or at clocks that complete each other.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_T4, _T4 + _MORE),), at="T4", says="at 6:00 upstream, and not downstream"),),
    good=(
        Good(()),
        Good(((_T4, _T4 + _MORE + _LAST),)),
        # A third one at a clock of its own.
        Good(((_T4, _T4 + _MORE.replace("12:00", "3:00 ")),)),
    ),
    edges=(
        Edge(
            ((_T4, _T4 + _MORE.replace("12:00", "{}")),),
            keeps="12:41",
            breaks="12:40",
            at="T4",
            says="at 6:00 upstream, and not downstream",
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.at",
            "joint.thermocouples.thermocouple.offset",
            "the same clocks on both sides",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.kind != "girth butt":
        return
    diameter = joint.outside_diameter
    if diameter is None or diameter.value < _LARGE:
        return
    for edge in ("soak edge", "heated edge"):
        if not watched(case, joint, edge):
            continue
        near: list[Thermocouple] = []
        far: list[Thermocouple] = []
        for tc in edge_monitors(joint, edge):
            place = along(tc)
            if place is None or not place[1] or tc.position is None:
                break
            (near if place[1] > 0 else far).append(tc)
        else:
            few, more = sorted((near, far), key=len)
            lonely = [tc for tc in more if not _has_fellow(tc, few)]
            if few and lonely and all(_has_fellow(tc, more) for tc in few):
                _tell(case, joint, edge, few, more, lonely)


def _has_fellow(tc: Thermocouple, others: list[Thermocouple]) -> bool:
    """Whether one of the others sits at the same clock."""
    here = tc.position
    assert here is not None
    return any(o.position is not None and here.distance_to(o.position) <= _SAME for o in others)


def _tell(
    case: Case,
    joint: Joint,
    edge: str,
    few: list[Thermocouple],
    more: list[Thermocouple],
    lonely: list[Thermocouple],
) -> None:
    assert few[0].entry.offset is not None and more[0].entry.offset is not None
    case.add(
        RULE.found(
            f"the {edge} of {joint.name} is watched at {_clocks(lonely)} "
            f"{more[0].entry.offset.side}, and not {few[0].entry.offset.side}",
            lonely[0].place("name"),
            address=f"{joint.address}/thermocouples",
            others=[Label(tc.place("name"), "on the other side") for tc in few],
            basis=RULE.basis,
        )
    )


def _clocks(row: list[Thermocouple]) -> str:
    return " and ".join(str(tc.position) for tc in row)
