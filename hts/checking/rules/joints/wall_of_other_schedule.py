"""A nominal wall is the one of the schedule named beside it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.sides import Pipe, Side
from hts.science.tables.pipe import UnknownSchedule, UnknownSize, pipe, schedules

#: Walls are printed rounded, in one system or the other.
_ROUNDED = Quantity.of("0.2", "mm", LENGTH)
#: What names size and schedule; the wall, how it was taken, and its place.
_Stated = tuple[Pipe | Side, Quantity | None, str | None, Span]

RULE = Rule(
    "J205",
    "wall-of-other-schedule",
    "warning",
    summary="A nominal wall that the schedule named for the pipe does not have.",
    why="Schedule 40 and STD are one wall up to NPS 10 and two above; tables in use mix them up.",
    fix="Correct the schedule or the wall, or measure the wall on the part.",
    source="ASME B36.10M (from memory; partly seen in public tables)",
    basis="memory",
    bad=(
        Bad(
            (
                ("NPS 12 schedule 120", "NPS 12 schedule 40"),
                ("25.4 mm measured", "9.53 mm nominal"),
                ("soak band      by rule", "soak band      80 mm total"),
                ("heated band    by rule", "heated band    574 mm total"),
            ),
            at="9.53 mm",
        ),
    ),
    good=(
        Good((("25.4 mm measured", "25.4 mm nominal"),)),
        Good((("25.4 mm measured", "1 in nominal"),)),
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
        if size is None or sized.schedule is None or thickness is None or taken != "nominal":
            continue
        try:
            printed = pipe(size, sized.schedule)
            others = {name: pipe(size, name).wall for name in schedules(size)}
        except (UnknownSize, UnknownSchedule):
            continue
        if abs(thickness - printed.wall) <= _ROUNDED:
            continue
        fitting = [name for name, other in others.items() if abs(thickness - other) <= _ROUNDED]
        case.add(
            RULE.found(
                f"schedule {sized.schedule} of NPS {printed.nps} is {printed.wall.both()}, the "
                f"nominal wall is given as {thickness.both()}",
                at,
                address=joint.address,
                others=[Label(sized.place("schedule"), "the schedule")],
                notes=[f"that is the wall of schedule {' or '.join(fitting)}"] if fitting else [],
                basis=RULE.basis,
            )
        )
