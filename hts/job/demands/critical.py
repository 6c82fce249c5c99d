"""How far a run stays below the temperatures at which the steel changes."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.job.compiler.why import Why
from hts.job.demands.asked import Asked
from hts.language.model.side import Figure, Side

_NAMES = {"lower_critical": "lower critical", "tempering_temperature": "tempering"}


class Margin(NamedTuple):
    """`limit` is the highest temperature allowed: `figure`, the lowest of the sides, less what is
    `kept` from it (None: nothing is stated). `name`: `lower critical temperature`."""

    name: str
    limit: Quantity
    figure: Quantity
    kept: Quantity | None
    why: Why


def margins(asked: Asked) -> list[Margin]:
    """Below the lower critical temperature, and below that of tempering where the treatment is not
    tempering itself; none where the figures are not known."""
    purpose = asked.stated("purpose")
    if purpose == "normalize and temper" or not asked.hold_steps:
        return []
    found = [_margin(asked, "lower_critical", "margin_critical")]
    if purpose != "tempering":
        found.append(_margin(asked, "tempering_temperature", "margin_tempering"))
    return [one for one in found if one is not None]


def _margin(asked: Asked, figure: str, field: str) -> Margin | None:
    known = [
        (found.value, found, side)
        for side in asked.sheet.joint.sides
        if (found := side.figure(figure)) is not None and isinstance(found.value, Quantity)
    ]
    if not known:
        return None
    lowest, origin, side = min(known, key=lambda item: item[0].value)
    name = _NAMES[figure]
    kept = asked.stated(field)
    ruled = asked.ruled(f"margin below {name}", "minimum")
    if not isinstance(kept, Quantity):
        kept = ruled.value if ruled is not None else None
    why = _figure_why(origin, side, name)
    if not isinstance(kept, Quantity):
        return Margin(f"{name} temperature", lowest, lowest, None, why)
    return Margin(f"{name} temperature", lowest - kept, lowest, kept, why)


def _figure_why(figure: Figure, side: Side, name: str) -> Why:
    return Why(
        numbers=f"{name} temperature {figure.value} of the {side.name} side",
        source=figure.origin,
        basis=figure.basis,
        confidence="high" if figure.basis in ("stated", "published") else "medium",
    )
