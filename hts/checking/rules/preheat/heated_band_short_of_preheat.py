"""The heaters cover what is preheated and baked."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.cycle import Bake

_WIDTH = "  width             75 mm each side\n"

RULE = Rule(
    "P119",
    "heated-band-short-of-preheat",
    "warning",
    summary="A preheated or baked width that reaches beyond the heaters.",
    why="Metal without heaters is warmed by conduction only: its edge is cold when the arc is "
    "struck, and hydrogen stays in it.",
    fix="Widen the heated band, or take a narrower width.",
    source="arithmetic: width of the weld and both sides against the heated band",
    basis="derived",
    edges=(
        Edge(
            ((_WIDTH, "  width             {} each side\n"),),
            keeps="272 mm",
            breaks="273 mm",
            says="over 576 mm (22.68 in) … is 574.7 mm (22.63 in)",
        ),
    ),
    good=(Good(((_WIDTH, "  width             250 mm each side\n"),)),),
    agrees=(
        Agreement("preheat.width", "joint.heating.heated band", "within the heated band"),
        Agreement("bake.width", "joint.heating.heated band", "within the heated band"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating, preheat = joint.entry.heating, joint.preheat
    widths: list[tuple[Quantity, Span, str]] = []
    if heating is None or not goes_round(joint):
        return
    if preheat is not None and preheat.sound and preheat.method == heating.method:
        width = total_width(preheat.width, None)
        cap = joint.entry.cap_width
        if width is not None:
            total = width + cap if cap is not None else width
            widths.append((total, preheat.place("width"), "preheated"))
    for bake in joint.bakes:
        entry = bake.entry
        width = total_width(entry.width, None) if isinstance(entry, Bake) else None
        if width is not None:
            widths.append((width, bake.place("width"), "baked"))
    if not widths:
        return
    band = limits_of(case, joint).band("heated band")
    soak = limits_of(case, joint).band("soak band")
    # A heated band narrower than what it is to soak is told as that.
    if band is None or (soak is not None and band < soak):
        return
    for width, at, how in widths:
        if width > band:
            case.add(
                RULE.found(
                    f"{joint.name} is {how} over {width.both()}, the heated band is "
                    f"{band.both()} in total",
                    at,
                    address=f"{joint.address}/heating",
                    others=[Label(heating.place("heated_band"), "the heated band")],
                )
            )
