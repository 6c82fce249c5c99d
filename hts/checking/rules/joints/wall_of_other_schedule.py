"""The wall is the one of the schedule named beside it, within what the mill and the tape allow."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.sides import Pipe, Side
from hts.science.tables.pipe import UnknownSchedule, UnknownSize, pipe, schedules

#: Walls are printed rounded, in one system or the other.
_ROUNDED = Quantity.of("0.2", "mm", LENGTH)
#: The mill may deliver 12.5 % less than the nominal wall (ASTM A530, from memory); it sets no
#: greatest wall, but seamless pipe is seldom 15 % thicker (common practice, no source).
_THINNEST, _THICKEST = Fraction(875, 1000), Fraction(115, 100)
#: What names size and schedule; the wall, how it was taken, and its place.
_Stated = tuple[Pipe | Side, Quantity | None, str | None, Span]

RULE = Rule(
    "J205",
    "wall-of-other-schedule",
    "warning",
    summary="A wall that the schedule named for the pipe does not have: a nominal one that differs, "
    "a measured one beyond what the mill delivers, or one that does not say which it is.",
    why="Schedule 40 and STD are the same wall up to NPS 10 and differ above it; some tables mix "
    "them up. A "
    "wall read wrongly gives wrong bands, rates and hold time.",
    fix="Correct the schedule or the wall, or measure the wall again.",
    source="ASME B36.10M and ASTM A530, mill tolerance 12.5 % (from memory; partly seen in public "
    "tables); the greatest wall is common practice",
    basis="memory",
    edges=(
        Edge(
            (("25.4 mm measured", "{}"),),
            keeps="25.2 mm",
            breaks="25.1 mm",
            says="is 25.40 mm (1 in) … 25.1 mm (0.988 in)",
        ),
        Edge(
            (
                ("NPS 12 schedule 120", "NPS 12 schedule 40"),
                ("25.4 mm measured", "{} nominal"),
                ("soak band      by rule", "soak band      80 mm total"),
                ("heated band    by rule", "heated band    574 mm total"),
            ),
            keeps="10.11 mm",
            breaks="10.10 mm",
            says="is 10.31 mm (0.4059 in) … 10.10 mm (0.3976 in)",
        ),
        Edge(
            (
                ("NPS 12 schedule 120", "NPS 12 schedule 160"),
                ("25.4 mm measured", "{} measured"),
                ("heated band    by rule", "heated band    700 mm total"),
                ("gradient band  by rule", "gradient band  1000 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 350 mm"),
                ("at 6:00,  287 mm", "at 6:00,  350 mm"),
                ("at 12:00, 40 mm", "at 12:00, 45 mm"),
                ("at 6:00,  40 mm", "at 6:00,  45 mm"),
            ),
            keeps="29.2 mm",
            breaks="29.1 mm",
            says="is 33.32 mm (1.3118 in) … 29.1 mm (1.146 in)",
        ),
    ),
    good=(
        Good((("25.4 mm measured", "25.4 mm nominal"),)),
        Good((("25.4 mm measured", "1 in nominal"),)),
        Good((("25.4 mm measured", "26.2 mm measured"),)),
    ),
    agrees=(
        Agreement(
            "joint.wall.thickness", "joint.pipe.schedule", "within the tolerance of the mill"
        ),
        Agreement("joint.side.wall", "joint.side.schedule", "within the tolerance of the mill"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    stated: list[_Stated] = [
        (side, side.wall, side.taken, side.place("wall")) for side in entry.sides
    ]
    if entry.pipe is not None and entry.wall is not None:
        wall = entry.wall
        stated.append((entry.pipe, wall.thickness, wall.taken, wall.place("thickness")))
    for sized, thickness, taken, at in stated:
        size = sized.nps if sized.nps is not None else sized.dn and f"DN {sized.dn}"
        if size is None or sized.schedule is None or thickness is None:
            continue
        try:
            printed = pipe(size, sized.schedule)
        except (UnknownSize, UnknownSchedule):
            continue
        if _fits(thickness, printed.wall, taken):
            if taken is None and not _fits(thickness, printed.wall, "nominal"):
                case.add(
                    RULE.found(
                        f"schedule {sized.schedule} of NPS {printed.nps} is {printed.wall.both()}, "
                        f"the wall is given as {thickness.both()}, and nothing says whether that was "
                        "measured",
                        at,
                        address=joint.address,
                        others=[Label(sized.place("schedule"), "the schedule")],
                        help="write `measured` behind it, or correct it",
                        basis=RULE.basis,
                    )
                )
            continue
        fitting = [
            name for name in schedules(size) if _fits(thickness, pipe(size, name).wall, taken)
        ]
        how = "nominal" if taken == "nominal" else "measured"
        case.add(
            RULE.found(
                f"schedule {sized.schedule} of NPS {printed.nps} is {printed.wall.both()}, the "
                f"{how} wall is given as {thickness.both()}",
                at,
                address=joint.address,
                others=[Label(sized.place("schedule"), "the schedule")],
                notes=[f"that is a wall of schedule {' or '.join(fitting)}"] if fitting else [],
                basis=RULE.basis,
            )
        )


def _fits(wall: Quantity, nominal: Quantity, taken: str | None) -> bool:
    if taken == "nominal":
        return abs(wall - nominal) <= _ROUNDED
    return nominal.value * _THINNEST <= wall.value <= nominal.value * _THICKEST
