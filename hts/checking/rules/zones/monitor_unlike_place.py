"""What a thermocouple monitors is to be found where it sits."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BUTT
from hts.checking.rules.helpers.places import from_weld, limits_of
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.heavy import heavy_sections
from hts.language.model.joint import MONITORS, Joint, Thermocouple

_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"


#: Of bands, which a part in the furnace does not have.
_EDGES = ("soak edge", "heated edge", "gradient edge")
#: The base as a joint that goes into a furnace, with one thermocouple more.
_IN_FURNACE = (
    ("heating by resistance", "heating by furnace"),
    ("    ends           closed", "    technique      whole part\n    ends           closed"),
    (BUTT[BUTT.index("    soak band ") : BUTT.index("    insulation ")], ""),
    (
        BUTT[BUTT.index("    T1   controls") : BUTT.index("  }\n}\n\npreheat")],
        "    T2   monitors weld         at 12:00 on weld          channel 2\n"
        "    T3   monitors {}   at 6:00, 287 mm upstream  channel 3\n",
    ),
    ("change to the spare", "stop and repair"),
)


def _furnace(edge: str) -> tuple[tuple[str, str], ...]:
    return tuple((old, new.format(edge)) for old, new in _IN_FURNACE)


def _more(duty: str) -> tuple[tuple[str, str], ...]:
    return ((_T6, f"{_T6}    T9   monitors {duty} channel 9\n"),)


def _on_branch(where: str) -> tuple[tuple[str, str], ...]:
    edge = _T6.replace("mm upstream", "mm on run")
    return ((edge, f"{edge}    T9   monitors heavy section at 3:00, {where} channel 9\n"),)


RULE = Rule(
    "Z138",
    "monitor-unlike-place",
    "warning",
    summary="A thermocouple that monitors the weld beside it, the base metal on the weld, the "
    "surrounding air on the pipe, the inside from outside or beyond the heaters, a heavy section where both sides "
    "are alike or on the thinner one, preheat where there is none, an edge of a band in a furnace, or a test plate the joint does not name.",
    why="Its reading is judged as that of a place it does not sit at.",
    fix="Correct what it monitors, or where it sits.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_more("base metal at 3:00 on weld"), at="base metal"),
        Bad(_more("ambient at 3:00, 60 mm upstream"), at="ambient"),
        Bad(_more("heavy section at 3:00, 60 mm upstream"), at="heavy section"),
        Bad(_more("test plate"), at="test plate"),
        Bad(_more("inside at 3:00 on weld"), at="inside", says="sits outside"),
        Bad(_furnace("heated edge"), at="heated edge", says="in the furnace as a whole"),
        Bad(_on_branch("on weld"), at="heavy section", base="branch"),
    ),
    edges=(
        Edge(
            (
                (
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n",
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n    T9   monitors weld at 3:00, {} upstream channel 9\n",
                ),
            ),
            keeps="15 mm",
            breaks="16 mm",
            at="weld",
            says="16 mm (0.63 in)",
        ),
        Edge(
            (
                (
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n",
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n    T9   monitors inside at 3:00, {} upstream surface inside channel 9\n",
                ),
            ),
            keeps="0.28 m",
            breaks="0.29 m",
            at="inside",
            says="0.29 m (0.951 ft)",
        ),
        Edge(
            (
                *_on_branch("60 mm on branch"),
                ("NPS 10 wall 21 mm measured", "NPS 10 wall {} measured"),
            ),
            keeps="25.4 mm",
            breaks="25.3 mm",
            at="heavy section",
            says="25.3 mm (0.996 in) … 25.4 mm (1 in)",
            base="branch",
        ),
    ),
    good=(
        Good(_more("weld at 3:00 on weld")),
        Good(_more("base metal at 3:00, 60 mm upstream")),
        Good(_on_branch("60 mm on run"), base="branch"),
        Good(_furnace("base metal")),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "joint.thermocouples.thermocouple.offset",
            "it sits at what it monitors",
        ),
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "joint.side.wall",
            "a heavy section where walls differ",
        ),
        Agreement(
            "joint.thermocouples.thermocouple.monitors", "preheat.joints", "preheat where it is"
        ),
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "joint.test plate.name",
            "a test plate where there is one",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        message = _misfit(case, joint, tc) if tc.duty == MONITORS else ""
        if message:
            case.add(
                RULE.found(
                    f"{tc.tag} monitors {message}",
                    tc.place("monitors"),
                    address=tc.address,
                    basis=RULE.basis,
                )
            )


def _misfit(case: Case, joint: Joint, tc: Thermocouple) -> str:
    watched, distance = tc.entry.monitors, from_weld(tc)
    cap = joint.entry.cap_width
    half = cap.value / 2 if cap is not None else 0
    if watched == "weld" and distance is not None and distance.value > half:
        return f"the weld and sits {distance.both()} from its centreline"
    if watched == "base metal" and tc.entry.on_weld:
        return "the base metal and sits on the weld"
    heating = joint.entry.heating
    in_furnace = heating is not None and heating.method == "furnace"
    if watched in _EDGES and in_furnace and getattr(heating, "technique", None) == "whole part":
        return f"the {watched}, and {joint.name} is in the furnace as a whole"
    if watched == "ambient" and (tc.entry.on_weld or tc.entry.offset is not None):
        return "the surrounding air and sits on the pipe"
    if watched == "inside" and tc.entry.surface != "inside":
        return "the inside and sits outside"
    band = limits_of(case, joint).band("heated band") if watched == "inside" else None
    if band is not None and distance is not None and distance.value > band.value / 2:
        return f"the inside and sits {distance.both()} from the weld, beyond the heaters"
    if watched == "preheat" and joint.preheat is None:
        return f"preheat, and {joint.name} has none"
    if watched == "test plate" and not joint.entry.test_plates:
        return f"a test plate, and {joint.name} names none"
    if watched == "heavy section" and joint.entry.heavy_sections:
        return _beside(joint, tc)
    if watched == "heavy section" and joint.entry.kind == "girth butt":
        walls = [side.wall.value for side in joint.sides if side.wall is not None]
        parts = {side.part for side in joint.entry.sides}
        if len(walls) == len(joint.sides) and len(set(walls)) == 1 and len(parts) < 2:
            return f"a heavy section, and both sides of {joint.name} are alike"
    if watched == "heavy section":
        return _on_thin_side(joint, tc) or (
            "a heavy section and sits on the weld" if tc.entry.on_weld else ""
        )
    return ""


def _on_thin_side(joint: Joint, tc: Thermocouple) -> str:
    """What is wrong with one that monitors the heavier of two sides and sits on the other."""
    offset = tc.entry.offset
    walls: dict[str, Quantity] = {}
    for side in joint.sides:
        wall = side.wall.value if side.wall is not None else None
        if isinstance(wall, Quantity):
            for place in (side.name, f"on {side.name}", f"side {side.name}"):
                walls[place] = wall
    here = walls.get(offset.side) if offset is not None else None
    if offset is None or here is None or here >= max(walls.values()):
        return ""
    heavier = max(walls.values()).both()
    return f"a heavy section and sits {offset.side}, whose wall is {here.both()}, not {heavier}"


def _beside(joint: Joint, tc: Thermocouple) -> str:
    """What is wrong with the place of one that monitors a heavy section the joint states."""
    offset = tc.entry.offset
    found = heavy_sections(joint)
    if offset is None or not found:
        return "a heavy section and sits on the weld" if tc.entry.on_weld else ""
    for heavy in found:
        on_it = heavy.begins <= offset.distance <= heavy.ends
        if on_it and offset.side == heavy.entry.where.side:
            return ""
    nearest = found[0]
    at = f"{nearest.full.both()} to {nearest.ends.both()} {nearest.entry.where.side}"
    return f"a heavy section and sits {offset.distance.both()} {offset.side}; it lies {at}"
