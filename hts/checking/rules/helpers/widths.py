"""Stated widths against the widths that are asked for."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.against import against, broken
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Rule
from hts.language.model.joint import Joint


def stated_width(case: Case, joint: Joint, band: str) -> Quantity | None:
    """Total width of the soak, heated or gradient band where the text states one."""
    heating = joint.entry.heating
    stated = getattr(heating, f"{band}_band") if heating is not None else None
    return total_width(stated, limits_of(case, joint).thickness)


def band_finding(rule: Rule, case: Case, joint: Joint, band: str) -> Finding | None:
    """A finding where the stated band of a joint that is heat treated is too narrow."""
    if not (treated(joint) or joint.bakes):
        return None
    heating = joint.entry.heating
    width = stated_width(case, joint, band)
    if heating is None or width is None or heating.method == "furnace":
        return None
    if band == "gradient" and too_narrow(case, joint, "heated"):
        # The insulated width follows from the heated one: told there.
        return None
    return against(
        rule,
        limits_of(case, joint).of(f"{band} band"),
        "minimum",
        width,
        heating.place(f"{band}_band"),
        address=f"{joint.address}/heating",
        what=f"the {band} band of {joint.name} in total",
    )


def too_narrow(case: Case, joint: Joint, band: str) -> bool:
    """Whether a stated band is narrower than what governs it."""
    width = stated_width(case, joint, band)
    governing = limits_of(case, joint).of(f"{band} band")
    return width is not None and governing is not None and bool(broken(governing, "minimum", width))
