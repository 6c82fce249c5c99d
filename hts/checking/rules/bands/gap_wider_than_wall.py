"""Heaters lie so close that the wall carries the heat across."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import is_asked
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_GAP = "    gap at         12:00\n"

RULE = Rule(
    "B126",
    "gap-wider-than-wall",
    "warning",
    summary="Heaters allowed to lie further apart than the wall is thick, and than 30 mm.",
    why="Heat flows along the wall about as far as it is thick: under a wider strip without heaters the "
    "weld stays cold, and no thermocouple has to be there.",
    fix="Allow no wider gap than the wall is thick, or lay the heaters closer.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_GAP, f"    gap at most    {{}}\n{_GAP}"),),
            keeps="30 mm",
            breaks="31 mm",
            says="up to 31 mm (1.22 in) … of 25.4 mm (1 in)",
        ),
        Edge(
            (
                (_GAP, f"    gap at most    {{}}\n{_GAP}"),
                ("schedule 120", "schedule 160"),
                ("wall       25.4 mm", "wall       33.3 mm"),
                ("at 12:00, 40 mm downstream", "at 12:00, 48 mm downstream"),
                ("at 6:00,  40 mm upstream ", "at 6:00,  48 mm upstream "),
                ("287 mm downstream", "341.3 mm downstream"),
                ("287 mm upstream", "341.3 mm upstream"),
                ("for 2 h", "for 3 h"),
            ),
            keeps="33.3 mm",
            breaks="33.4 mm",
            says="up to 33.4 mm (1.315 in) … of 33.3 mm (1.311 in)",
        ),
    ),
    good=(Good(((_GAP, f"    gap at most    1 in\n{_GAP}"),)),),
    agrees=(Agreement("joint.heating.gap at most", "joint.wall.thickness", "no wider than it"),),
)

#: Of thinner walls heaters are seldom laid closer.
_LEAST = Quantity.of(30, "mm", LENGTH)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    gap = heating.gap if heating is not None else None
    walls = [side.wall.value for side in joint.sides if side.wall is not None]
    known = [wall for wall in walls if isinstance(wall, Quantity)]
    if heating is None or not isinstance(gap, Quantity) or not known:
        return
    thickest = max(known)
    if gap <= max(thickest, _LEAST):
        return
    # Where the dip is predicted, its depth in the wall at hand is told.
    if not case.predicts and not any(is_asked(case, each) for each in case.treatments(joint)):
        case.add(
            RULE.found(
                f"heaters of {joint.name} may lie up to {gap.both()} apart, on a wall of "
                f"{thickest.both()}",
                heating.place("gap"),
                address=f"{joint.address}/heating",
                others=[Label(joint.place("names"), "the weld")],
                basis=RULE.basis,
            )
        )
