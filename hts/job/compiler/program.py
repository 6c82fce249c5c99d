"""The program of one treatment of one joint."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.checking.govern import JointLimits
from hts.job.compiler.alarms import alarmed
from hts.job.compiler.assumed import AMBIENT, COLDER, MARGIN, WHOLE
from hts.job.compiler.derivations import Derivation, Undecided, derivations, undecided
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.keyed import keyed, keys
from hts.job.compiler.steps import HOLD, Step, Walk
from hts.job.compiler.units import Units, led_by
from hts.job.compiler.why import Why, practice, stated
from hts.job.compiler.wording import line_of, worded
from hts.language.model.joint import Joint, Thermocouple, Treatment
from hts.language.vocabulary import cycle
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.equipment import Controller, Recorder
from hts.language.vocabulary.segments import Heat, Hold

CYCLE, BAKE, PREHEAT = "cycle", "bake", "preheat"


class ZoneRow(NamedTuple):
    """A zone and what it is controlled by; a joint without zones has one that is all of it."""

    name: str
    arc: str
    control: Thermocouple | None
    spares: tuple[Thermocouple, ...]


class Start(NamedTuple):
    """Where a program begins, and why there."""

    at: Quantity
    why: Why


class Program(NamedTuple):
    """What is set on the instruments for one joint and one treatment.

    `target` is the setpoint of the hottest hold, at which loops are proved; None without a hold.
    `settings` are the further entries of the treatment, from the text. `unit` is the one the
    controller is set in. `by_hand`: nothing runs it but a person who reads and acts.
    """

    name: str
    kind: str
    joint: Joint
    entry: Entry
    zones: tuple[ZoneRow, ...]
    steps: tuple[Step, ...]
    start: Start
    margin: Fraction
    margin_why: Why
    controller: Controller | None
    recorder: Recorder | None
    settings: tuple[str, ...]
    derived: tuple[Derivation, ...]
    undecided: tuple[Undecided, ...]
    unit: str = "degC"
    by_hand: bool = False

    @property
    def target(self) -> Quantity | None:
        held = [step.end for step in self.steps if step.action == HOLD and step.end is not None]
        return max(held) if held else None


def of_treatment(treatment: Treatment, limits: JointLimits, units: Units) -> Program:
    """A bake or cycle. Raises CannotCompile."""
    entry, joint = treatment.entry, treatment.joint
    margin, margin_why = _margin(entry.rate_margin, entry)
    start = _start(treatment, limits)
    end = entry.end_control
    controller = treatment.controller
    known = keys(controller, units)
    walk = Walk(treatment.address, start.at, end, margin, limits, led_by(units, known.unit))
    steps = walk.run(list(entry.segments))
    steps = alarmed(steps, joint, controller, known, entry)
    kind = BAKE if treatment.is_bake else CYCLE
    return Program(
        treatment.name,
        kind,
        joint,
        entry,
        zone_rows(joint),
        tuple(keyed(steps, known)),
        start,
        margin,
        margin_why,
        controller,
        treatment.recorder,
        settings(entry),
        tuple(derivations(limits, (kind,))),
        tuple(undecided(limits, (kind,))),
        known.unit,
    )


def _margin(said: Quantity | None, entry: Entry) -> tuple[Fraction, Why]:
    if said is not None:
        if not 0 <= said.value < WHOLE:
            raise CannotCompile([f"{entry.address}: a rate margin of {said} leaves no rate to set"])
        return said.value / WHOLE, stated(entry, "rate_margin", str(said))
    return default_margin()


def default_margin() -> tuple[Fraction, Why]:
    """The margin of programs whose text states none."""
    why = practice(str(MARGIN), "default of this program: the text states none")
    return MARGIN.value / WHOLE, why


def _start(treatment: Treatment, limits: JointLimits) -> Start:
    entry, preheat = treatment.entry, treatment.joint.preheat
    first = entry.segments[0]
    # Heating no further than to where control begins comes before it: the part is still cold.
    before_control = (
        isinstance(first, Heat)
        and first.to is not None
        and (entry.start_control is not None and first.to <= entry.start_control)
    )
    if entry.start_control is not None and not before_control:
        return Start(entry.start_control, stated(entry, "start_control", "start of control"))
    kept = isinstance(entry, cycle.Bake | cycle.Cycle) and entry.begins in cycle.KEPT_HOT
    if preheat is not None and (kept or preheat.until == "post-weld heat treatment"):
        least = limits.preheat()
        if least is not None:
            return Start(least, stated(preheat, "at_least", "it begins from preheat"))
    return ambient_start(_first(entry))


def _first(entry: cycle.Treatment) -> Quantity | None:
    """The first temperature that a treatment brings the part to."""
    first = entry.segments[0]
    if isinstance(first, Hold):
        return first.range.low if isinstance(first.range, Interval) else None
    return first.to


def ambient_start(first: Quantity | None) -> Start:
    """The start of a program whose text states none, by the `first` temperature it brings the part
    to: that of the surroundings, and never so warm that the part would have to be cooled."""
    if first is None or first > AMBIENT:
        return Start(AMBIENT, practice(str(AMBIENT), "assumed: the text states no start"))
    at = first - COLDER
    note = f"assumed: the text states no start; {COLDER} below the first temperature"
    return Start(at, practice(str(at), note))


def zone_rows(joint: Joint) -> tuple[ZoneRow, ...]:
    """The zones of a joint, each with its controlling thermocouple and the spares of it."""
    if not joint.zones:
        return (ZoneRow("whole joint", "", None, ()),)
    rows = []
    for zone in joint.zones:
        control = zone.controls[0] if zone.controls else None
        spares = tuple(
            tc for tc in joint.thermocouples if control is not None and tc.spare_of is control
        )
        arc = f"{zone.arc.start} to {zone.arc.end}" if zone.arc is not None else "all round"
        part = zone.entry.along
        if part is not None and part.low is not None and part.high is not None:
            arc = f"{part.low} to {part.high} along the weld"
        rows.append(ZoneRow(zone.name, arc, control, spares))
    return tuple(rows)


#: Fields that are told in the program itself.
_TOLD = frozenset(
    (
        "joints",
        "name",
        "segments",
        "start_control",
        "end_control",
        "rate_margin",
        "alarm_high",
        "alarm_low",
        "recorded_by",
        "controlled_by",
        "together",
        "at_least",
        "interpass",
        "width",
        "rate",
        "soak",
    )
)


def settings(entry: Entry) -> tuple[str, ...]:
    """Every other entry of a treatment in the words of the text, one line each."""
    found = []
    for name, field in type(entry).fields.items():
        said = getattr(entry, name)
        if name in _TOLD or said is None or said is False or said == [] or said == ():
            continue
        each = said if field.many and isinstance(said, list) else [said]
        for one in each:
            words = (
                line_of(one)
                if isinstance(one, Entry)
                else (f"{' '.join(field.words)} {worded(one)}")
            )
            found.append(words)
    return tuple(found)
