"""A heavy section is thicker than its pipe, leaves a bore, and stands clear of the weld."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hts.base.quantities import Quantity
from hts.base.quantities.number import read_number
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.heavy import Heavy, heavy_sections, taper_of
from hts.language.model.joint import Joint

_SUPPORT = '  support    "rod'


def _near(*said: str) -> tuple[tuple[str, str], ...]:
    lines = "".join(f"  heavy section {one}\n" for one in said)
    return ((_SUPPORT, lines + _SUPPORT),)


RULE = Rule(
    "N113",
    "heavy-section-out-of-place",
    "warning",
    summary="A heavy section that is no thicker than its pipe, whose taper begins within the weld, "
    "that leaves no bore, lies where another does, or contradicts the flanges.",
    why="It is drawn and predicted as stated: heat would be lost where none is, or not where it is.",
    fix="Correct its wall, its taper or where its full wall begins.",
    source="geometry of the joint",
    basis="derived",
    bad=(
        Bad(
            _near("valve 500 mm downstream same outside wall 170 mm over 200 mm"),
            at="170 mm",
            says="170 mm (6.69 in) … 323.8 mm (12.748 in)",
        ),
        Bad(
            _near(
                "forging 500 mm downstream wall 36 mm over 90 mm",
                "valve 580 mm downstream wall 37 mm over 200 mm",
            ),
            at="580 mm downstream",
            says="580 mm (22.83 in) … 590 mm (23.23 in)",
        ),
        Bad(
            _near("valve 90 mm downstream wall 35.4 mm over 90 mm taper 25 mm slope 4"),
            at="4",
            says="40 mm (1.575 in) … 25 mm (0.984 in)",
        ),
        Bad(
            (
                *_near("flange 500 mm downstream wall 50 mm over 90 mm"),
                ("  expansion  free", "  flanges    none\n  expansion  free"),
            ),
            at="flange",
        ),
    ),
    edges=(
        Edge(
            _near("valve 90 mm downstream wall 35.4 mm over 90 mm taper 40 mm slope {}"),
            keeps="4.2",
            breaks="4.3",
            says="43 mm (1.693 in) … 40 mm (1.57 in)",
        ),
        Edge(
            _near(
                "forging 500 mm downstream wall 36 mm over 90 mm",
                "valve {} downstream same outside wall 37 mm over 200 mm",
            ),
            keeps="590 mm",
            breaks="589 mm",
            says="valve … 589 mm (23.19 in) … 590 mm (23.23 in)",
        ),
        Edge(
            _near("valve 500 mm downstream same outside wall {} over 200 mm"),
            keeps="161.8 mm",
            breaks="161.9 mm",
            says="161.9 mm (6.374 in) … 323.8 mm (12.748 in)",
        ),
        Edge(
            _near("valve 90 mm downstream wall {} over 200 mm"),
            keeps="25.5 mm",
            breaks="25.4 mm",
            says="valve … 25.4 mm (1 in) … 25.4 mm (1 in)",
        ),
        Edge(
            _near("valve 90 mm downstream wall 36 mm over 90 mm taper {}"),
            keeps="75 mm",
            breaks="76 mm",
            says="76 mm (2.99 in) … 90 mm (3.54 in) … 30 mm (1.18 in)",
        ),
    ),
    good=(Good(_near("valve 90 mm downstream wall 36 mm over 90 mm slope 2")),),
    agrees=(
        Agreement("joint.heavy section.wall", "joint.wall.thickness", "thicker than its pipe"),
        Agreement("joint.heavy section.taper", "joint.cap width", "it begins beside the weld"),
        Agreement("joint.heavy section.slope", "joint.heavy section.taper", "the same taper"),
        Agreement("joint.heavy section.what", "joint.flanges", "no flange where there is none"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = heavy_sections(joint)
    for heavy in found:
        for field, what in _faults(joint, heavy):
            _tell(case, joint, heavy, field, what)
    sides = {heavy.entry.where.side for heavy in found}
    for side in sides:
        for one, other in pairwise([each for each in found if each.entry.where.side == side]):
            if other.full < one.ends:
                what = (
                    f"begins {other.full.both()} from the weld, and the {one.entry.what} before "
                    f"it ends only at {one.ends.both()}"
                )
                _tell(case, joint, other, "where", what)


def _faults(joint: Joint, heavy: Heavy) -> list[tuple[str, str]]:
    entry, rise = heavy.entry, heavy.rise
    found = []
    if rise is not None and rise.value <= 0 and heavy.wall is not None:
        what = (
            f"has a wall of {heavy.thick.both()}, no thicker than the pipe with {heavy.wall.both()}"
        )
        found.append(("wall", what))
    outside = heavy.side.outside_diameter if heavy.side is not None else None
    size = outside.value if outside is not None else None
    whole = entry.bore == "same outside"
    if whole and isinstance(size, Quantity) and heavy.thick * 2 >= size:
        what = f"has a wall of {heavy.thick.both()}: no bore is left of {size.both()} outside"
        found.append(("wall", what))
    taper, cap = taper_of(entry, rise), joint.entry.cap_width
    if cap is not None and taper.value > 0 and heavy.begins < cap / 2:
        what = (
            f"grows over {taper.both()} up to {heavy.full.both()} from the centreline: that begins "
            f"within the weld, which is {cap.both()} wide"
        )
        found.append(("taper" if entry.says("taper") else "slope", what))
    if entry.taper is not None and entry.slope is not None and rise is not None:
        sloped = rise * Fraction(read_number(entry.slope))
        if abs(sloped.value - entry.taper.value) > entry.taper.value / 20:
            what = f"would grow over {sloped.both()} by its slope, and its taper is {taper.both()}"
            found.append(("slope", what))
    if entry.what == "flange" and joint.entry.flanges == "none":
        found.append(("what", f"is one, and {joint.name} says `flanges none`"))
    return found


def _tell(case: Case, joint: Joint, heavy: Heavy, field: str, what: str) -> None:
    case.add(
        RULE.found(
            f"the {heavy.entry.what} {what}",
            heavy.entry.place(field),
            address=joint.address,
        )
    )
