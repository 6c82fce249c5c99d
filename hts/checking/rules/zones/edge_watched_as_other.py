"""What sits in the row of an edge monitors that edge."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.apart import along
from hts.language.model.joint import MONITORS, Joint, Thermocouple

_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_MORE = f"{_T6}    T9   monitors {{}} at 3:00, 287 mm upstream channel 9\n"

_EDGES = ("soak edge", "heated edge", "gradient edge")
#: Duties that have no distance of their own from the weld.
_OTHER = ("base metal", "inside", "preheat")

RULE = Rule(
    "Z149",
    "edge-watched-as-other",
    "advice",
    summary="A thermocouple at the very distance at which others watch the edge of a band, said to "
    "monitor the base metal, the inside or the preheat.",
    why="The edge goes unwatched there: its reading is judged as that of something that may be as "
    "cold as it likes.",
    fix="Say that it monitors the edge, or correct where it sits.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_T6, _MORE.format("base metal")),), at="base metal", says="287 mm (11.3 in)"),),
    good=(
        Good(((_T6, _MORE.format("heated edge")),)),
        Good(((_T6, _MORE.format("base metal").replace("3:00, 287", "3:00, 240")),)),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "joint.thermocouples.thermocouple.offset",
            "a row of one distance watches one edge",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    watching = [tc for tc in joint.thermocouples if tc.duty == MONITORS]
    if not any(tc.entry.monitors in _OTHER for tc in watching):
        return
    if not goes_round(joint) or not treated(joint):
        return
    rows: dict[Fraction, list[Thermocouple]] = {}
    for tc in watching:
        place = along(tc)
        if tc.entry.monitors in _EDGES and place is not None:
            rows.setdefault(abs(place[1]), []).append(tc)
    for tc in watching:
        place = along(tc)
        row = rows.get(abs(place[1]), []) if place is not None and place[1] else []
        if tc.entry.monitors not in _OTHER or len(row) < 2 or _has_fellow(tc, row):
            continue
        assert tc.entry.offset is not None
        case.add(
            RULE.found(
                f"{tc.tag} sits {tc.entry.offset.distance.both()} from the weld, where others watch "
                f"the {row[0].entry.monitors}, and monitors {_called(tc)}",
                tc.place("monitors"),
                address=tc.address,
                others=[Label(row[0].place("monitors"), "one of the others")],
                basis=RULE.basis,
            )
        )


def _called(tc: Thermocouple) -> str:
    watched = tc.entry.monitors
    return "the preheat" if watched == "preheat" else f"the {watched}"


def _has_fellow(tc: Thermocouple, row: list[Thermocouple]) -> bool:
    """Whether one inside the bore has its pair outside, at the same place."""
    return tc.entry.monitors == "inside" and any(
        other.position is not None
        and tc.position is not None
        and along(other) == along(tc)
        and other.position.distance_to(tc.position) <= 15
        for other in row
    )
