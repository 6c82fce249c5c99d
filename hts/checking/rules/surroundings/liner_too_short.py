"""A liner reaches past the heated band."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_ENDS = "    ends           closed and vented"
_LINER = '    liner "ceramic fibre blanket" thickness 25 mm width'

RULE = Rule(
    "N112",
    "liner-too-short",
    "warning",
    summary="A liner in the bore that is narrower than the heated band.",
    why="The bore radiates and loses heat beside it, and the ends of the soak band stay cold inside.",
    fix="Let the liner reach past the heated band on both sides.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "    ends           closed and vented",
                    '    liner "ceramic fibre blanket" thickness 25 mm width {} total\n    ends           closed and vented',
                ),
            ),
            keeps="575 mm",
            breaks="574 mm",
            says="is 574 mm (22.6 in) … 574.7 mm (22.63 in)",
        ),
    ),
    good=(
        Good(((_ENDS, f"{_LINER} 700 mm total\n    draught  none\n{_ENDS}"),)),
        Good(((_ENDS, f'    liner "ceramic fibre blanket" thickness 25 mm\n{_ENDS}'),)),
    ),
    agrees=(
        Agreement("joint.heating.liner.width", "joint.heating.heated band", "as wide at least"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    liner = heating.liner if heating is not None else None
    if liner is None or liner.width is None:
        return
    limits = limits_of(case, joint)
    lined, heated = total_width(liner.width, limits.thickness), limits.band("heated band")
    if lined is None or heated is None or lined >= heated:
        return
    case.add(
        RULE.found(
            f"the liner is {lined.both()} wide, the heated band {heated.both()}",
            liner.place("width"),
            address=f"{joint.address}/heating",
        )
    )
