"""Every thermocouple of a joint: what it does, where it sits, where it is plugged in."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import ClockError, ClockPosition, arc_length, position_at
from hts.job.compiler.taped import ON_BRANCH, ON_RUN, Taped, taped
from hts.job.compiler.why import Why, derived, stated
from hts.language.model.branching import Branching, NotPlaced, branching
from hts.language.model.joint import Joint, Thermocouple
from hts.language.vocabulary.equipment import Controller, Recorder
from hts.language.vocabulary.types import OffsetValue
from hts.science.thermocouples.colours import Colours, cable_colours
from hts.science.thermocouples.errors import ThermocoupleError

BRANCH = "branch"
_SIDE_OF = {"on run": "run", "on branch": "branch", "side A": "A", "side B": "B"}


class Channel(NamedTuple):
    """A channel of an instrument; either is None where the text does not say."""

    instrument: str | None
    number: int | None


class Tag(NamedTuple):
    """One thermocouple, with everything its row of the sheet says.

    `arc` is measured along the outside from 12:00, clockwise in the stated view, on the diameter
    `outside`; both None where no diameter is known. `taped` leads to a place about a branch: beside
    it on the run there is no arc. `along` is the distance along a weld that does not go round a
    pipe, `from_toe` that from its toe.
    """

    tag: str
    duty: str
    place: str
    zone: str
    clock: ClockPosition | None
    degrees: Fraction | None
    outside: Quantity | None
    arc: Quantity | None
    arc_why: Why | None
    on_weld: bool
    offset: OffsetValue | None
    surface: str
    controller: Channel
    recorder: Channel
    spare_of: str
    connected: bool
    lead: Quantity | None
    taped: Taped | None = None
    along: Quantity | None = None
    from_toe: Quantity | None = None


class Wire(NamedTuple):
    """The wire all thermocouples of a joint have in common; colours None where none are held."""

    type: str
    grade: str
    standard: str
    couple: Colours | None
    cable: Colours | None
    cable_code: str
    cable_grade: str


def tags(
    joint: Joint, controller: Controller | None = None, recorder: Recorder | None = None
) -> list[Tag]:
    """The thermocouples of a joint; the instruments are those of the treatment, which hold where
    a thermocouple names none of its own."""
    stands = branching(joint) if joint.entry.kind == BRANCH else None
    return [_tag(tc, controller, recorder, stands) for tc in joint.thermocouples]


def wire(joint: Joint) -> Wire | None:
    """Type, class and colours; None for a joint without thermocouples."""
    block = joint.entry.thermocouples
    if block is None or block.type is None:
        return None
    standard = block.colours or ""
    extension = block.extension
    return Wire(
        block.type,
        block.grade or "",
        standard,
        _colours(standard, block.type, "thermocouple"),
        _colours(standard, block.type, "extension") if extension is not None else None,
        extension.code if extension is not None else "",
        (extension.grade or "") if extension is not None else "",
    )


def _colours(standard: str, type: str, grade: str) -> Colours | None:
    try:
        return cable_colours(standard, type, grade)
    except ThermocoupleError:
        return None


def _tag(
    tc: Thermocouple,
    controller: Controller | None,
    recorder: Recorder | None,
    stands: Branching | NotPlaced | None,
) -> Tag:
    entry = tc.entry
    own_controller = entry.controller.target if entry.controller is not None else controller
    own_recorder = entry.recorder.target if entry.recorder is not None else recorder
    outside = _outside(tc)
    clock, arc, why = _round(tc, outside)
    return Tag(
        tc.tag,
        tc.duty,
        entry.monitors or "",
        tc.zone.name if tc.zone is not None else "",
        clock,
        clock.degrees if clock is not None else None,
        outside,
        arc,
        why,
        entry.on_weld,
        entry.offset,
        tc.surface,
        _channel(own_controller, tc.control_channel),
        _channel(own_recorder, tc.channel),
        tc.spare_of.tag if tc.spare_of is not None else "",
        not entry.not_connected,
        entry.lead or (tc.joint.entry.thermocouples.lead if tc.joint.entry.thermocouples else None),
        _taped(tc, clock, stands),
        entry.along,
        _from_toe(tc),
    )


def _from_toe(tc: Thermocouple) -> Quantity | None:
    """Distance from the toe of a weld whose places are told along it."""
    offset, cap = tc.entry.offset, tc.joint.entry.cap_width
    if tc.entry.along is None or offset is None or cap is None or offset.distance < cap / 2:
        return None
    return offset.distance - cap / 2


def _taped(
    tc: Thermocouple, clock: ClockPosition | None, stands: Branching | NotPlaced | None
) -> Taped | None:
    offset = tc.entry.offset
    if stands is None or offset is None or clock is None:
        return None
    if isinstance(stands, NotPlaced):
        return Taped((), stands.why)
    if offset.side not in (ON_BRANCH, ON_RUN):
        return Taped((), f"{offset.side} is neither on branch nor on run")
    return taped(stands, clock.degrees, offset.side, offset.distance, tc.joint.entry.cap_width)


def _channel(instrument: Controller | Recorder | None, number: int | None) -> Channel:
    return Channel(
        instrument.name if instrument is not None and number is not None else None, number
    )


def _outside(tc: Thermocouple) -> Quantity | None:
    """Outside diameter of the part the thermocouple sits on."""
    offset = tc.entry.offset
    if offset is not None:
        name = _SIDE_OF.get(offset.side, offset.side)
        for side in tc.joint.sides:
            if side.name == name and side.outside_diameter is not None:
                value = side.outside_diameter.value
                assert isinstance(value, Quantity)
                return value
    return tc.joint.outside_diameter


def _round(
    tc: Thermocouple, outside: Quantity | None
) -> tuple[ClockPosition | None, Quantity | None, Why | None]:
    """Clock position and arc length, whichever the text gives and the other from it."""
    entry = tc.entry
    if is_beside_branch(tc):
        # Round the run the clock of the branch has no arc.
        return tc.position, None, None
    if entry.at is not None:
        if outside is None:
            return entry.at, None, None
        arc = Quantity.of(arc_length(outside, entry.at), "mm", LENGTH)
        degrees = _number(entry.at.degrees)
        return (
            entry.at,
            arc,
            derived("π × outside diameter × angle / 360", f"π × {outside} × {degrees} / 360"),
        )
    if entry.arc is None:
        return None, None, None
    why = stated(entry, "arc", str(entry.arc))
    try:
        return (position_at(outside, entry.arc) if outside is not None else None), entry.arc, why
    except (ClockError, ValueError):
        return None, entry.arc, why


def is_beside_branch(tc: Thermocouple) -> bool:
    """Whether it sits on the run, off the branch whose clock tells its direction."""
    offset = tc.entry.offset
    return tc.joint.entry.kind == BRANCH and offset is not None and offset.side == ON_RUN


def _number(degrees: Fraction) -> str:
    return f"{float(degrees):g}"
