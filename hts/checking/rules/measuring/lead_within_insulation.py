"""Leads reach out of the insulation before they are connected."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_LONG = Quantity.of(1, "m", LENGTH)
_LEAD = "lead at least       1 m"

RULE = Rule(
    "C145",
    "lead-within-insulation",
    "warning",
    summary="Leads of less than 1 m that are shorter than the way from the weld to the end of the insulation.",
    why="Their connectors lie under the blankets, where they melt or read falsely.",
    fix="Lead the wires out beyond the insulation.",
    source="geometry: half of the insulated width",
    basis="derived",
    about=("joint.thermocouples.lead at least",),
    bad=(
        Bad(
            ((_LEAD, "lead at least       300 mm"),),
            at="lead at least",
            says="of 300 mm (11.81 in) … reaches 405.2 mm (15.95 in)",
        ),
    ),
    good=(
        # So long a lead comes out between two blankets, wherever they end.
        Good(((_LEAD, _LEAD), ("gradient band  by rule", "gradient band  2100 mm total"))),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.lead at least", "joint.heating.gradient band", "reach out of it"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block, heating, reach = (
        joint.entry.thermocouples,
        joint.entry.heating,
        insulated_beyond(case, joint),
    )
    if block is None or heating is None or block.lead is None or reach is None:
        return
    case.add(
        RULE.found(
            f"a lead of {block.lead.both()} at {joint.name}, where the insulation reaches "
            f"{reach.in_unit(block.lead.unit.symbol).both('up')}",
            block.place("lead"),
            address=f"{joint.address}/thermocouples",
            others=[Label(heating.place("gradient_band"), "the insulated width")],
            basis=RULE.basis,
        )
    )


def insulated_beyond(case: Case, joint: Joint) -> Quantity | None:
    """How far the insulation reaches from the weld, where that is farther than the leads do."""
    block = joint.entry.thermocouples
    if block is None or block.lead is None or not goes_round(joint) or not treated(joint):
        return None
    # So long a lead comes out between two blankets.
    if block.lead >= _LONG or not any(tc.entry.on_weld for tc in joint.thermocouples):
        return None
    limits = limits_of(case, joint)
    heated, width = limits.band("heated band"), limits.band("gradient band")
    # A band that is far too wide is told by itself.
    if heated is None or width is None or width.value > 4 * heated.value:
        return None
    return half(width) if block.lead < half(width) else None
