"""Power of each zone as it is predicted, beside the quick estimate heaters are sized by."""

from __future__ import annotations

from typing import NamedTuple

from hts.predict.outlook import Outlook
from hts.predict.setting import Setting


class Powers(NamedTuple):
    """One zone, kW: predicted at the most and at the end of the hold; the estimate to heat and to
    hold; what it has. None: not known. `short` is minutes at its cap while it stays behind."""

    zone: str
    most: float
    holding: float
    sized_heating: float | None
    sized_holding: float | None
    installed: float | None
    short: float


HEADS = (
    "Zone", "Predicted, most", "Predicted, hold", "Estimate, heat", "Estimate, hold", "It has"
)  # fmt: skip


def powers_of(outlook: Outlook) -> list[Powers]:
    """The zones in the order of the text."""
    sized = outlook.setting.sized
    known = {zone.zone: zone for zone in sized.zones} if sized is not None else {}
    found = []
    for need in outlook.zones:
        zone = known.get(need.name)
        found.append(
            Powers(
                need.name,
                need.most / 1000.0,
                need.holding / 1000.0,
                float(zone.heating.value) / 1000.0 if zone is not None else None,
                float(zone.holding.value) / 1000.0 if zone is not None else None,
                need.installed / 1000.0 if need.installed is not None else None,
                need.short / 60.0,
            )
        )
    return found


def cells(powers: Powers) -> tuple[str, ...]:
    """The same as words, under `HEADS`."""
    has = f"{powers.installed:.1f}" if powers.installed is not None else "not said"
    if powers.short:
        has += f", at its cap and behind for {powers.short:.0f} min"
    sized = [
        f"{value:.1f}" if value is not None else "none"
        for value in (powers.sized_heating, powers.sized_holding)
    ]
    return (powers.zone, f"{powers.most:.1f}", f"{powers.holding:.1f}", *sized, has)


def difference(setting: Setting) -> list[str]:
    """Why the two differ, in sentences, and which of them heaters are sized by."""
    sized = setting.sized
    if sized is None:
        return ["No estimate: a size of the ring, its blanket or the program is not stated, or the "
                "zones heat one side each."]  # fmt: skip
    across = " and what radiates across it" if setting.bore.emissivity else ""
    return [
        f"The estimate is a heat balance at one moment: the whole heated band at {sized.at}, "
        f"rising at {sized.rate}, nothing lost in the bore.",
        "The prediction follows the program: the ends of the band and the inside stay colder, so "
        "that less heat is stored; the steel has the heat content of its own family; the blanket "
        f"loses 1.5 times as much, and the bore {setting.bore.mean:.1f} W/m²K{across}.",
        "Size heaters and supply by the larger of the two: neither has a reserve.",
    ]
