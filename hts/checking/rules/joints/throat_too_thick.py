"""A fillet is no thicker than the edge it is laid on."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.limits.facts import FACTS

_SIDES = (
    "  between    pipe and pipe\n  pipe       NPS 6 schedule 80\n  wall       0.432 in measured\n"
)

RULE = Rule(
    "J225",
    "throat-too-thick",
    "warning",
    summary="A fillet weld whose throat is thicker than the metal it joins.",
    why="The throat governs hold and rates of fillets: one too many digits or digits exchanged ask for "
    "the treatment of another weld.",
    fix="Measure the throat: it is about 0.7 of the shorter leg.",
    source="geometry: a throat is shorter than either leg, and a leg stands on the edge of the "
    "thicker part at the most",
    basis="derived",
    edges=(
        Edge(
            (
                ("kind       girth butt", "kind       socket\n  throat     {}"),
                (
                    _SIDES,
                    "  side A of pipe NPS 6 wall 0.4 in measured\n"
                    "  side B of pipe outside diameter 8 in wall 1/2 in measured part socket fitting\n",
                ),
                ("axis       vertical", "axis       horizontal"),
                ("datum      north", "datum      top"),
                ("viewed     from above", "viewed     from side A"),
            ),
            keeps="0.50 in",
            breaks="0.51 in",
            base="preheat",
            says="is 0.51 in (13 mm) … is 1/2 in (12.7 mm) thick",
        ),
    ),
    agrees=(Agreement("joint.throat", "joint.wall.thickness", "thinner than the thicker part"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    throat = entry.throat
    if throat is None or entry.kind not in FACTS["throat"].kinds:
        return
    pad = next((each for each in joint.sides if each.name == "pad"), None)
    parts = [pad] if pad is not None else joint.sides
    walls = [each.wall for each in parts if each.wall is not None]
    if not walls or len(walls) < len(parts):
        return
    thick = max(walls, key=lambda figure: figure.value)
    if not isinstance(thick.value, Quantity) or throat <= thick.value:
        return
    part = "the pad" if pad is not None else "the thicker part"
    case.add(
        RULE.found(
            f"the throat of {joint.name} is {throat.both()}, and {part} is {thick.value.both()} thick",
            entry.place("throat"),
            address=joint.address,
            others=[Label(thick.at, "its thickness")] if thick.at is not None else [],
            basis=RULE.basis,
        )
    )
