"""A joint as the rules see it: one weld with its sides, zones and thermocouples resolved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hts.base.quantities import Quantity
from hts.base.quantities.clock import Arc, ClockPosition, position_at
from hts.base.text import Span
from hts.language.model.side import Side
from hts.language.vocabulary import cycle as treatment
from hts.language.vocabulary import heating, joint, thermocouples, work
from hts.language.vocabulary.preheat import Preheat

if TYPE_CHECKING:
    from hts.language.vocabulary.equipment import Controller, PowerSource, Recorder

CONTROLS, MONITORS, SPARE = "controls", "monitors", "spare"
#: By what is stated of it: whether it controls, monitors, is a spare. Rules ask for it very often.
_DUTIES = {
    (True, False, False): CONTROLS,
    (False, True, False): MONITORS,
    (False, False, True): SPARE,
}


class Thermocouple:
    """One thermocouple of a joint."""

    __slots__ = ("address", "entry", "joint", "spare_of", "zone")

    def __init__(self, joint: Joint, entry: thermocouples.Thermocouple) -> None:
        self.joint = joint
        self.entry = entry
        self.address = f"{joint.name}/thermocouples/{entry.name}"
        #: Zone it controls, or whose controlling thermocouple it is the spare of.
        self.zone: Zone | None = None
        self.spare_of: Thermocouple | None = None

    @property
    def tag(self) -> str:
        return self.entry.name

    @property
    def duty(self) -> str:
        """CONTROLS, MONITORS or SPARE; empty where the text says none or more than one."""
        entry = self.entry
        controls, monitors = entry.controls is not None, entry.monitors is not None
        return _DUTIES.get((controls, monitors, entry.spare_for is not None), "")

    @property
    def position(self) -> ClockPosition | None:
        """Clock position, worked out from the arc length where that is what the text gives."""
        if self.entry.at is not None:
            return self.entry.at
        outside = self.joint.outside_diameter
        if self.entry.arc is None or outside is None:
            return None
        try:
            return position_at(outside, self.entry.arc)
        except ValueError:
            return None

    @property
    def channel(self) -> int | None:
        return self._shifted(self.entry.channel)

    @property
    def control_channel(self) -> int | None:
        return self._shifted(self.entry.control_channel)

    def _shifted(self, channel: int | None) -> int | None:
        block = self.joint.entry.thermocouples
        offset = (block.channel_offset if block else None) or 0
        return None if channel is None else channel + offset

    @property
    def surface(self) -> str:
        return self.entry.surface or "outside"

    def place(self, field: str = "") -> Span:
        return self.entry.place(field)


class Zone:
    """One control zone of a joint, with the thermocouples that control it."""

    __slots__ = ("address", "controls", "entry", "joint")

    def __init__(self, joint: Joint, entry: heating.Zone) -> None:
        self.joint = joint
        self.entry = entry
        self.address = f"{joint.name}/heating/{entry.name}"
        self.controls: list[Thermocouple] = []

    @property
    def name(self) -> str:
        return self.entry.name

    @property
    def arc(self) -> Arc | None:
        """None for a zone that goes all round."""
        return self.entry.arc

    def place(self, field: str = "") -> Span:
        return self.entry.place(field)


class Joint:
    """One weld. ``sound`` is False where part of its text could not be read."""

    __slots__ = (
        "after",
        "bakes",
        "before",
        "cycles",
        "during",
        "entry",
        "name",
        "preheat",
        "row",
        "sides",
        "sound",
        "thermocouples",
        "zones",
    )

    def __init__(self, name: str, entry: joint.Joint) -> None:
        self.name = name
        self.entry = entry
        self.sound = entry.sound
        self.sides: list[Side] = []
        self.zones: list[Zone] = []
        self.thermocouples: list[Thermocouple] = []
        self.preheat: Preheat | None = None
        self.bakes: list[Treatment] = []
        self.cycles: list[Treatment] = []
        self.before: list[work.Before] = []
        self.during: list[work.During] = []
        self.after: list[work.After] = []
        #: What the row of a weld list says about it, where it is from one.
        self.row: joint.Joint | None = None

    @property
    def address(self) -> str:
        return self.name

    @property
    def outside_diameter(self) -> Quantity | None:
        """The greatest outside diameter of the sides: that of the run at a branch's weld line
        would not be the surface the thermocouples stand on, so a branch takes the branch's."""
        sides = [s for s in self.sides if s.name == "branch"] or self.sides
        known = [s.outside_diameter.value for s in sides if s.outside_diameter is not None]
        return max(known) if known else None  # type: ignore[return-value]

    @property
    def is_horizontal(self) -> bool:
        axis = self.entry.axis
        return axis is not None and axis.lies == "horizontal"

    def place(self, field: str = "") -> Span:
        return self.entry.place(field)


class Treatment:
    """A bake or cycle as it applies to one joint, with its equipment resolved."""

    __slots__ = ("address", "controller", "entry", "joint", "power_source", "recorder")

    def __init__(self, joint: Joint, entry: treatment.Treatment) -> None:
        self.joint = joint
        self.entry = entry
        self.address = f"{joint.name}/{self.name}"
        self.recorder: Recorder | None = None
        self.controller: Controller | None = None
        self.power_source: PowerSource | None = None

    @property
    def name(self) -> str:
        return self.entry.name if isinstance(self.entry, treatment.Cycle) else "bake"

    @property
    def is_bake(self) -> bool:
        return isinstance(self.entry, treatment.Bake)

    @property
    def cycle(self) -> treatment.Cycle | None:
        return self.entry if isinstance(self.entry, treatment.Cycle) else None

    def place(self, field: str = "") -> Span:
        return self.entry.place(field)
