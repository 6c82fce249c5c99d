"""Thermocouples at the edges of the bands."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked, monitors
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.language.model.joint import MONITORS, Joint, Thermocouple


def edge_monitors(joint: Joint, edge: str) -> list[Thermocouple]:
    """Those that monitor an edge, such as ``soak edge``."""
    return [tc for tc in joint.thermocouples if tc.duty == MONITORS and tc.entry.monitors == edge]


def watched(case: Case, joint: Joint, edge: str) -> bool:
    """Whether practice watches the edge here; where a procedure asks for it, its line is judged."""
    if not joint.thermocouples or joint.entry.heating is None:
        return False
    ring = joint.entry.kind == "repair" and joint.entry.heating.technique == "full band"
    if not (goes_round(joint) or ring) or not treated(joint):
        return False
    if edge_monitors(joint, edge):
        return True
    return not asked(case, limits_of(case, joint), lambda demanded: monitors(demanded, edge))
