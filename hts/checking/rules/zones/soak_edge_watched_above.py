"""The edge of the soak band of a level pipe is watched below as well."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.edges import edge_monitors
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: Smaller pipe is as hot below as above, near enough: NPS 8. Common practice, no source.
_WIDE = Quantity.of(219, "mm", LENGTH)
_T4 = "T4   monitors soak edge      at 6:00, "

RULE = Rule(
    "Z160",
    "soak-edge-watched-above",
    "warning",
    summary="The edge of the soak band of a level pipe, NPS 8 or larger, watched by several thermocouples "
    "of which none sits in its lower half.",
    why="The heat rises: below, the edge is coldest, and nothing shows whether it came into the range.",
    fix="Place one of them at 6:00.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_T4, _T4.replace("6:00, ", "12:00,")),),
            at="12:00",
            says="T3, T4 watch the soak edge of W12, all in its upper half",
        ),
    ),
    good=(Good(((_T4, _T4.replace("6:00, ", "5:00, ")),)),),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "joint.thermocouples.thermocouple.at",
            "the soak edge below, too",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    outside = joint.outside_diameter
    level = joint.is_horizontal and joint.entry.datum in (None, "top")
    if not level or outside is None or outside < _WIDE or joint.entry.kind != "girth butt":
        return
    found = edge_monitors(joint, "soak edge")
    places = [tc.position for tc in found]
    if len(found) == 1 or not found or not goes_round(joint) or not treated(joint):
        return
    if any(place is None or 90 < place.degrees < 270 for place in places):
        return
    case.add(
        RULE.found(
            f"{', '.join(tc.tag for tc in found)} watch the soak edge of {joint.name}, all in its upper half",
            found[-1].place("at" if found[-1].entry.at is not None else "arc"),
            address=f"{joint.address}/thermocouples",
            basis=RULE.basis,
        )
    )
