"""The insulation covers the gradient band."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint


def _with(width: str) -> tuple[tuple[str, str], ...]:
    return (
        ("gradient band  by rule", "gradient band  820 mm total"),
        ("thickness 50 mm layers 2", f"thickness 50 mm layers 2 width {width}"),
    )


RULE = Rule(
    "B107",
    "insulation-too-narrow",
    "error",
    summary="Insulation narrower than the gradient band it is to cover.",
    why="The gradient band is the insulated width: bare metal beside the heaters cools too steeply.",
    fix="Widen the insulation, or state the gradient band it covers.",
    source="arithmetic: the gradient band is the insulated width",
    basis="derived",
    edges=(
        Edge(
            _with("{} total"),
            keeps="820 mm",
            breaks="819 mm",
            says="is 819 mm (32.24 in) … 820 mm (32.28 in)",
        ),
    ),
    good=(Good(_with("410 mm each side")),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    insulation = heating.insulation if heating is not None else None
    if heating is None or insulation is None or not (treated(joint) or joint.bakes):
        return
    limits = limits_of(case, joint)
    width = total_width(insulation.width, limits.thickness)
    band = limits.band("gradient band")
    if heating.method == "furnace" or width is None or band is None or width >= band:
        return
    case.add(
        RULE.found(
            f"the insulation is {width.both()} wide in total, the gradient band {band.both()}",
            insulation.place("width"),
            address=f"{joint.address}/heating",
            others=[Label(heating.place("gradient_band"), "the gradient band")],
        )
    )
