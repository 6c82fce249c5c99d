"""Where the owner wants the circumference controlled or monitored, it is."""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.findings import Label
from hts.base.quantities.clock import ClockPosition
from hts.base.text import Span
from hts.checking.govern import Authority
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked
from hts.checking.rules.helpers.places import along, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import CONTROLS, MONITORS, Joint, Thermocouple

#: Half an hour of the clock counts as the place itself: practice, no source.
_NEAR = 15
_LINE = "  requires spare for controlling thermocouples"

RULE = Rule(
    "R107",
    "required-place-unmeasured",
    "error",
    summary="A clock position that a procedure wants controlled or monitored, with no "
    "thermocouple there.",
    why="The owner knows which place lags, and readings elsewhere say little about it.",
    fix="Place a thermocouple within half an hour of the clock of the position.",
    source="the procedure that requires it; half an hour is common practice",
    basis="derived",
    bad=(
        Bad(
            ((_LINE, f"  requires control at 12:00, 3:00\n{_LINE}"),),
            base="procedure",
            at="thermocouples",
            says="3:00",
        ),
        Bad(
            (
                (
                    "requires monitor soak edge count 2",
                    "requires monitor soak edge at 12:00 at 9:00",
                ),
            ),
            base="procedure",
            at="thermocouples",
            says="9:00",
        ),
        Bad(
            (("monitor soak edge count 2", "monitor heated edge at 12:00 each side"),),
            base="procedure",
            at="thermocouples",
            says="12:00",
        ),
    ),
    good=(
        Good(
            (
                (_LINE, f"  requires control at 12:00, 6:00\n{_LINE}"),
                ("monitor soak edge count 2", "monitor soak edge at 12:00 at 6:00 count 2"),
            ),
            base="procedure",
        ),
        Good(
            ((_LINE, f"  requires control at 3:00 when outside_diameter > 600 mm\n{_LINE}"),),
            base="procedure",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or not joint.thermocouples or not treated(joint):
        return
    limits = limits_of(case, joint)
    for authority, line in asked(case, limits, "controls"):
        there = [tc for tc in joint.thermocouples if tc.duty == CONTROLS]
        bare = [str(place) for place in line.positions if not _near(there, place)]
        if bare:
            _tell(case, joint, authority, "nothing controls the temperature", bare, line.place())
    for authority, line in asked(case, limits, "monitors"):
        there = [
            tc
            for tc in joint.thermocouples
            if tc.duty == MONITORS and tc.entry.monitors == line.watched
        ]
        groups = _by_side(there) if line.each_side else [there]
        bare = [
            str(place)
            for place in line.positions
            if not all(_near(group, place) for group in groups)
        ]
        if bare:
            side = " on each side" if line.each_side else ""
            what = f"nothing monitors the {line.watched}{side}"
            _tell(case, joint, authority, what, bare, line.place())


def _near(there: Iterable[Thermocouple], place: ClockPosition) -> bool:
    return any(tc.position is not None and tc.position.distance_to(place) <= _NEAR for tc in there)


def _by_side(there: list[Thermocouple]) -> list[list[Thermocouple]]:
    """Those before and those behind the weld."""
    found = [(tc, along(tc)) for tc in there]
    return [[tc for tc, at in found if at is not None and sign * at[1] > 0] for sign in (-1, 1)]


def _tell(
    case: Case, joint: Joint, authority: Authority, what: str, bare: list[str], at: Span
) -> None:
    assert joint.entry.thermocouples is not None
    case.add(
        RULE.found(
            f"{what} of {joint.name} at {', '.join(bare)}, as {authority.name} requires",
            joint.entry.thermocouples.place(),
            address=f"{joint.address}/thermocouples",
            others=[Label(at, "required here")],
        )
    )
