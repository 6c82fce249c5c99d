"""Beside something heavy the band reaches farther than on the other side."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.heavy import heavy_sections
from hts.language.model.joint import Joint

_SUPPORT = '  support    "rod'
#: Heavy section to pipe wall, from where it is told.
_RATIO = Fraction(3, 2)
#: Another on the other side is as heavy up to this.
_LIKE = Fraction(11, 10)


def _near(said: str) -> tuple[tuple[str, str], ...]:
    return ((_SUPPORT, f"  heavy section {said}\n{_SUPPORT}"),)


RULE = Rule(
    "N114",
    "heavy-section-heated-alike",
    "advice",
    summary="A section half as thick again as the pipe, or more, within the insulated width, and "
    "bands that are alike on both sides.",
    why="It draws heat out of the soak band: its side stays cold, or the other overheats.",
    fix="Heat and insulate farther on its side and say `layout wider on the thicker side`, or give "
    "the side a zone of its own.",
    source="AWS D10.10:2021 (from memory), one and a half times the wall: common practice",
    basis="practice",
    edges=(
        Edge(
            _near("valve {} downstream wall 60 mm over 200 mm"),
            keeps="406 mm",
            breaks="405 mm",
            at="heavy section",
            says="valve … 60 mm (2.36 in) … 25.4 mm (1 in) … 405 mm (15.94 in) … 405.2 mm (15.95 in)",
        ),
        Edge(
            _near("valve 120 mm downstream wall {} over 200 mm"),
            keeps="38 mm",
            breaks="38.1 mm",
            at="heavy section",
            says="valve … 38.1 mm (1.5 in) … 25.4 mm (1 in) … 120 mm (4.72 in) … 405.2 mm (15.95 in)",
        ),
    ),
    good=(
        Good(
            (
                *_near("valve 120 mm downstream wall 48 mm over 200 mm"),
                (
                    "    soak band      by rule",
                    "    layout         wider on the thicker side\n    soak band      by rule",
                ),
            )
        ),
        Good(
            (
                *_near("flange 120 mm downstream wall 48 mm over 90 mm"),
                (
                    "  expansion  free",
                    "  heavy section flange 120 mm upstream wall 48 mm over 90 mm\n  expansion  free",
                ),
            )
        ),
    ),
    agrees=(
        Agreement("joint.heavy section.where", "joint.heating.layout", "heated wider beside it"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method == "furnace" or not treated(joint):
        return
    if heating.layout == "wider on the thicker side":
        return
    if any(zone.entry.side not in (None, "both") for zone in joint.zones):
        return
    width = limits_of(case, joint).band("gradient band")
    found = heavy_sections(joint)
    for heavy in found:
        side = heavy.entry.where.side
        if any(o.entry.where.side != side and o.thick * _LIKE >= heavy.thick for o in found):
            continue
        wall, own = heavy.thick, heavy.wall
        if width is None or own is None or wall < own * _RATIO:
            continue
        if heavy.full <= half(width):
            case.add(
                RULE.found(
                    f"the {heavy.entry.what} with {wall.both()} beside a pipe of {own.both()} begins "
                    f"{heavy.full.both()} from the weld, within the insulation of "
                    f"{half(width).in_unit(heavy.full.unit.symbol).both('up')} on either side",
                    heavy.entry.place(),
                    address=joint.address,
                    others=[Label(heating.place(), "alike on both sides")],
                    basis=RULE.basis,
                )
            )
