"""Where a band round a vessel narrows it stays narrower than the band and wider than the soak band."""

from __future__ import annotations

from math import inf, pi

from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.heating import Narrowing

_GAP = "    gap at         12:00"
_REPAIR = ("  kind       girth butt", "  kind       repair\n  groove depth  20 mm")
_LINE = (_REPAIR, (_GAP, f"    band narrows to {{}} from 4:00 to 8:00\n{_GAP}"))
#: Welds that go all round, and the soak band with them.
_ROUND = ("girth butt", "socket")
_REPAIR_AT_300 = (_REPAIR, (_GAP, f"    band narrows to 300 mm total from 4:00 to 8:00\n{_GAP}"))

RULE = Rule(
    "B121",
    "band-narrows-wrongly",
    "warning",
    summary="A heated band that narrows to a width it has anyway, to less than the soak band, or of a "
    "weld that goes all round.",
    why="Where heaters do not cover the soak band it stays cold; where nothing narrows, a figure is "
    "wrong.",
    fix="Correct the width the band narrows to.",
    source="geometry: between the soak band and the heated band",
    basis="derived",
    edges=(
        Edge(
            _LINE,
            keeps="80.8 mm total",
            breaks="80.7 mm total",
            says="80.7 mm (3.177 in) … 80.8 mm (3.182 in)",
        ),
        Edge(
            _LINE,
            keeps="574 mm total",
            breaks="575 mm total",
            says="575 mm (22.64 in) … 574.6 mm (22.62 in)",
        ),
        Edge(
            (
                _REPAIR,
                (_GAP, f"    band narrows to 300 mm total from 4:00 to 8:00 taper {{}}\n{_GAP}"),
            ),
            keeps="339 mm",
            breaks="340 mm",
            at="300 mm total",
            says="300 mm (11.81 in) … 340 mm (13.39 in) … 339 mm",
        ),
    ),
    bad=(
        Bad(
            ((_GAP, f"    band narrows to 300 mm total from 4:00 to 8:00\n{_GAP}"),),
            at="300 mm total",
            says="300 mm (11.81 in) … girth butt",
        ),
    ),
    good=(Good(_REPAIR_AT_300),),
    agrees=(
        Agreement("joint.heating.band narrows to.width", "joint.heating.heated band", "narrower"),
        Agreement("joint.heating.band narrows to.width", "joint.heating.soak band", "no narrower"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    narrowing = heating.narrowing if heating is not None else None
    if narrowing is None or not narrowing.sound:
        return
    limits = limits_of(case, joint)
    width = total_width(narrowing.width, limits.thickness)
    soak, heated = limits.band("soak band"), limits.band("heated band")
    what = ""
    if width is not None and soak is not None and width < soak:
        what = f"less than the soak band of {soak.both('up')}"
    elif width is not None and heated is not None and width >= heated:
        what = f"no narrower than the heated band of {heated.both('down')}"
    elif joint.entry.kind in _ROUND:
        what = f"and a {joint.entry.kind} needs all of it all round"
    elif narrowing.taper is not None and (room := _room(joint, narrowing)) < narrowing.taper.value:
        what = f"over {narrowing.taper.both()}, and {room:.0f} mm are left on either side"
    if width is not None and what:
        case.add(
            RULE.found(
                f"the heated band narrows to {width.both()}, {what}",
                narrowing.place("width"),
                address=f"{joint.address}/heating",
            )
        )


def _room(joint: Joint, narrowing: Narrowing) -> float:
    """mm round the outside for one taper, of what the narrow part leaves."""
    outside = joint.outside_diameter
    if outside is None or narrowing.first is None or narrowing.last is None:
        return inf
    turned = float(narrowing.last.degrees - narrowing.first.degrees) % 360
    return pi * float(outside.value) * (360 - turned) / 360 / 2
