"""The width of the weld is one a groove in such a wall has."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.number import short_text
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.model.side import Side
from hts.science.tables.pipe import pipe
from hts.science.tables.welding_processes import letters, processes

#: A narrow groove is about 0.3 of the wall wide, a wide V about 1.8 of it and 25 mm besides.
_NARROW, _WIDE, _BESIDES = Fraction(3, 10), Fraction(18, 10), 25
#: What a covered electrode is moved in by hand is at least half as wide as the wall is thick.
_BY_HAND, _HALF = "SMAW", Fraction(1, 2)

RULE = Rule(
    "J206",
    "cap-unlike-wall",
    "warning",
    summary="A weld far wider or narrower than a groove in its wall would be.",
    why="The soak band, and with it every band, is worked out from the width of the weld.",
    fix="Measure the cap at its widest place, and check digits and unit.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("cap width  3/4 in", "cap width  1/8 in"),),
            at="1/8 in",
            base="preheat",
            says="of 1/8 in (3.18 mm) … of 0.432 in (10.97 mm); 3.292 mm (0.1296 in) to 44.75 mm (1.762 in)",
        ),
    ),
    edges=(
        Edge(
            (
                ("cap width  3/4 in", "cap width  {}"),
                ('"WPS-03" layers multiple', '"WPS-03" layers multiple process "SMAW"'),
            ),
            keeps="0.216 in",
            breaks="0.215 in",
            base="preheat",
            says="of 0.215 in (5.46 mm) … of 0.432 in (10.97 mm); 5.4864 mm (0.216 in) to 44.75 mm (1.762 in)",
        ),
        Edge(
            (("cap width  3/4 in", "cap width  {}"),),
            keeps="1.76 in",
            breaks="1.77 in",
            base="preheat",
            says="of 1.77 in (45 mm) … of 0.432 in (10.97 mm); 3.292 mm (0.1296 in) to 44.75 mm (1.762 in)",
        ),
    ),
    good=(Good((("cap width  3/4 in", "cap width  1/2 in"),), base="preheat"),),
    agrees=(Agreement("joint.cap width", "joint.wall.thickness", "as wide as a groove would be"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry, cap = joint.entry, joint.entry.cap_width
    walls = [side.wall for side in joint.sides if side.wall is not None]
    if cap is None or not walls or entry.kind not in ("girth butt", "long seam"):
        return
    thick = max(walls, key=lambda figure: figure.value)
    wall = thick.value
    assert isinstance(wall, Quantity)
    narrow = _HALF if _is_by_hand(joint) else _NARROW
    # A wall that its schedule does not have is told as that.
    if any(_is_a_slip(side) for side in joint.sides):
        return
    if wall.value * narrow <= cap.value <= wall.value * _WIDE + _BESIDES:
        return
    low = Quantity.of(wall.value * narrow, "mm", LENGTH)
    high = Quantity.of(wall.value * _WIDE + _BESIDES, "mm", LENGTH)
    case.add(
        RULE.found(
            f"a cap of {cap.both()} on a wall of {wall.both()}; {low.both()} to {high.both()} is "
            "usual",
            joint.place("cap_width"),
            address=joint.address,
            others=[] if thick.at is None else [Label(thick.at, "the wall")],
            basis=RULE.basis,
        )
    )


def _is_a_slip(side: Side) -> bool:
    """Whether the wall is less than half or more than twice that of its schedule."""
    if side.nominal_size is None or side.schedule is None or side.wall is None:
        return False
    try:
        printed = pipe(f"NPS {short_text(side.nominal_size, 3)}", side.schedule).wall
    except (ValueError, LookupError):
        return False
    wall = side.wall.value
    return isinstance(wall, Quantity) and not printed / 2 <= wall <= printed * 2


def _is_by_hand(joint: Joint) -> bool:
    """Whether covered electrodes are used, which need room in the groove."""
    welding = joint.entry.welding
    named = processes(welding.process) if welding is not None and welding.process else ()
    return any(letters(name) == _BY_HAND for name in named)
