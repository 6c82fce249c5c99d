"""The heated ring of a joint, for estimates of heat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hts.base.quantities import Quantity
from hts.checking.govern.joint import JointLimits
from hts.language.model.joint import Joint

if TYPE_CHECKING:
    from hts.science.heat.power import Band


def ring_of(joint: Joint, limits: JointLimits) -> Band | None:
    """The band under the heaters with its blanket, the thinner wall where they differ; None where
    a size of it is not known, or cannot be."""
    heating, outside = joint.entry.heating, joint.outside_diameter
    insulation = heating.insulation if heating is not None else None
    width = limits.band("heated band")
    walls = [
        float(side.wall.value.value)
        for side in joint.sides
        if side.wall is not None and isinstance(side.wall.value, Quantity)
    ]
    if insulation is None or insulation.thickness is None or outside is None:
        return None
    if width is None or not walls or 2 * min(walls) >= float(outside.value):
        return None  # a pipe without a bore is told by itself
    from hts.science.heat.power import Band

    return Band(
        float(outside.value) / 1000,
        min(walls) / 1000,
        float(width.value) / 1000,
        float(insulation.thickness.value) / 1000,
    )
