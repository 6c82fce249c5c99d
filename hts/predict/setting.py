"""What a specification gives a prediction to work with, or why there is none. SI units, degC."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.critical import criticals
from hts.job.compiler import CannotCompile
from hts.job.compiler.power import Estimate, estimate_of
from hts.job.compiler.program import Program, of_treatment
from hts.job.compiler.units import units_of
from hts.language.model.apart import along
from hts.language.model.joint import Joint, Treatment, Zone
from hts.language.model.orientation import Orientation
from hts.language.model.side import Side
from hts.language.vocabulary.heating import Heating
from hts.predict.bodies import Body, bodies_of, taper_between
from hts.predict.bore import bore_state
from hts.predict.demands import Demands, demands_of
from hts.science.field.states import BoreState
from hts.science.field.steels import family

#: Insulation taken where the text gives none, m.
_BLANKET = 0.05


class Half(NamedTuple):
    """The pipe on one side of the weld: radii m, and the family of its steel."""

    inner: float
    outer: float
    steel: str


class HeatedZone(NamedTuple):
    """A zone: arc in degrees clockwise from 12:00, length m, its thermocouple, power W or None."""

    name: str
    first: float
    width: float
    start: float
    end: float
    follows: str
    degrees: float
    z: float
    power: float | None


class Couple(NamedTuple):
    """A thermocouple: tag, duty, degrees from 12:00, m along, whether it sits in the bore."""

    tag: str
    duty: str
    degrees: float
    z: float
    inside: bool


class Stage(NamedTuple):
    """One step of the program: from and to degC in `seconds`; `held`: a hold; `off`: no heat."""

    start: float
    end: float
    seconds: float
    held: bool = False
    off: bool = False


class Setting(NamedTuple):
    """Everything a prediction of one treatment of one joint rests on; z grows to the `far` end.

    `bore_from` tells what the state of the bore was taken from. `up` names the end z grows to,
    empty where nothing tells it; with it up on the page the clock, on the outside laid flat, runs
    from right to left where it is `leftward`.
    `soak`, `heated`, `insulated` are half widths, m. `window` is the range of the hold; `sized` is
    the quick estimate that heaters are sized by, None where there is none. `bodies` are heavier
    than the pipe; `taper` is the length between unequal walls, m, None where the text is silent.
    """

    joint: str
    treatment: str
    near: Half
    far: Half
    soak: float
    heated: float
    insulated: float
    blanket: float
    horizontal: bool
    bore: BoreState
    bore_known: bool
    beyond: BoreState | None
    lined: float | None
    zones: tuple[HeatedZone, ...]
    couples: tuple[Couple, ...]
    gap: float
    begin: float
    stages: tuple[Stage, ...]
    target: float
    window: tuple[float, float]
    critical: float | None
    critical_of: str
    demands: Demands
    bore_from: str
    assumed: tuple[str, ...]
    sized: Estimate | None
    up: str = ""
    leftward: bool = False
    bodies: tuple[Body, ...] = ()
    taper: float | None = None


class NotPredicted(Exception):
    """There is no prediction, and this is why."""


def setting_of(case: Case, treatment: Treatment) -> Setting:
    """The setting of one treatment. Raises NotPredicted with the reason in words."""
    joint = treatment.joint
    heating = joint.entry.heating
    if joint.entry.kind != "girth butt":
        raise NotPredicted(
            f"the model knows girth butts of pipes, not a {joint.entry.kind or 'weld of no kind'}"
        )
    if heating is None:
        raise NotPredicted("the text does not say how the joint is heated")
    if heating.method not in ("resistance", "induction"):
        raise NotPredicted(
            f"the model knows heaters and coils on the outside, not {heating.method}"
        )
    told = bore_state(heating)
    if told is None:
        raise NotPredicted("liquid in the bore: it boils, and no heater can hold the temperature")
    assumed: list[str] = []
    limits = case.limits(joint, treatment)
    widths = {name: _half(limits.band(f"{name} band")) for name in ("soak", "heated", "gradient")}
    missing = [name for name in ("soak", "heated") if widths[name] is None]
    if missing:
        raise NotPredicted(f"the {missing[0]} band is not known")
    soak, heated = widths["soak"] or 0.0, widths["heated"] or 0.0
    insulated = widths["gradient"]
    if insulated is None:
        insulated = heated + 0.15
        assumed.append("insulation taken 150 mm beyond the heated band: its width is not known")
    near, far = _halves(joint)
    assumed += [
        f"the {side.name} side, a {side.part}, taken as a pipe of its wall"
        for side in joint.entry.sides
        if side.part not in (None, "pipe") and not joint.entry.heavy_sections
    ]
    bodies, taper = bodies_of(joint, assumed), taper_between(joint)
    program = _program(case, treatment)
    begin, stages, target, window = _stages(program, assumed)
    if heating.narrowing is not None:
        assumed.append("the heated band taken as wide all round as where it is widest")
    blanket = heating.insulation.thickness if heating.insulation is not None else None
    if blanket is None:
        assumed.append("insulation taken 50 mm thick: the text does not say")
    if treatment.entry.hold_back is not None:
        assumed.append(
            "the program does not wait for the slowest: the hold begins with the setpoint"
        )
    couples = tuple(_couples(joint, assumed))
    cap = treatment.entry.power_limit
    share = float(cap.value) / 100.0 if cap is not None else 1.0
    zones = tuple(_zone(zone, couples, heated, share, assumed) for zone in joint.zones)
    figures = criticals(joint)
    horizontal = _horizontal(joint, assumed)
    lined = _lined(heating, limits.thickness)
    thickness = float(blanket.value) / 1000.0 if blanket is not None else _BLANKET
    if taper is None and near[:2] != far[:2]:
        assumed.append("walls unlike each other: a taper of 1:4 from the weld to the thicker side")
    if heating.method == "induction":
        assumed.append("induction taken as flux into the outside: heat released in depth lowers "
                       "the difference outside to bore by a few K")  # fmt: skip
    return Setting(
        joint.name, treatment.name, near, far, soak, heated, insulated, thickness, horizontal,
        told.state, told.known, told.beyond, lined, zones, couples,
        float(heating.gap.value) / 1000.0 if heating.gap is not None else 0.0,
        begin, stages, target, window,
        float(figures[0].value.value) if figures else None,
        f"{figures[0].part}, {figures[0].origin}" if figures else "",
        demands_of(case, treatment), told.reason, tuple(assumed),
        estimate_of(joint, limits, program), *_upward(joint), bodies, taper,
    )  # fmt: skip


def _upward(joint: Joint) -> tuple[str, bool]:
    """The end places along the pipe count to, and whether the clock is seen against it: to the
    right × up points at the reader, so that up is the direction of gaze where the clock runs to
    the right."""
    orientation = Orientation(joint.entry)
    for tc in joint.thermocouples:
        place = along(tc)
        if place is not None and place[0]:
            return place[0], orientation.sign(place[0]) == -1
    return "", False


def _half(width: Quantity | None) -> float | None:
    return float(width.value) / 2000.0 if width is not None else None


def _halves(joint: Joint) -> tuple[Half, Half]:
    """The pipe before and behind the weld, in the direction places along it count."""
    sides = [side for side in joint.sides if side.name not in ("pad", "attachment")]
    if not sides:
        raise NotPredicted("the sizes of the pipe are not known")
    halves = [_side(side) for side in sides[:2]]
    if len(halves) == 1 or halves[0] == halves[1]:
        return halves[0], halves[0]
    names = {"A": "side A", "B": "side B", "run": "on run", "branch": "on branch"}
    word = names.get(sides[0].name, sides[0].name)
    try:
        sign = Orientation(joint.entry).along(word)[1]
    except (KeyError, ValueError):
        sign = -1
    return (halves[0], halves[1]) if sign < 0 else (halves[1], halves[0])


def _side(side: Side) -> Half:
    outside = side.outside_diameter.value if side.outside_diameter is not None else None
    wall = side.wall.value if side.wall is not None else None
    if not isinstance(outside, Quantity) or not isinstance(wall, Quantity):
        raise NotPredicted("outside diameter and wall are not both known")
    outer = float(outside.value) / 2000.0
    inner = outer - float(wall.value) / 1000.0
    if inner <= 0.0:
        raise NotPredicted("the wall leaves no bore")
    steel = _steel(side)
    if steel is None:
        raise NotPredicted(
            f"the thermal properties of the {side.name or 'base'} metal are not known"
        )
    return Half(inner, outer, steel)


def _steel(side: Side) -> str | None:
    chromium = side.figure("chromium")
    number = side.figure("p_number")
    p_number = str(number.value) if number is not None else ""
    austenitic = p_number == "8"
    if chromium is not None and isinstance(chromium.value, Quantity):
        # A mass fraction counts in %.
        percent = float(chromium.value.value)
        return family(percent, austenitic or percent > 15.0)
    groups = {"1": "carbon", "3": "carbon", "4": "1.25Cr", "5A": "2.25Cr", "15E": "9Cr"}
    return "austenitic" if austenitic else groups.get(p_number)


def _program(case: Case, treatment: Treatment) -> Program:
    if not treatment.entry.segments:
        raise NotPredicted("the treatment has no steps")
    limits = case.limits(treatment.joint, treatment)
    try:
        return of_treatment(treatment, limits, units_of(case.spec))
    except CannotCompile as error:
        raise NotPredicted("; ".join(error.reasons)) from None


#: K/h of a step without a rate: what heaters usually manage.
_FREE = 200.0
#: degC. Warmer than this a pipe is not by itself.
_ROOM = 40.0
_HOUR = 3600.0


def _stages(
    program: Program, assumed: list[str]
) -> tuple[float, tuple[Stage, ...], float, tuple[float, float]]:
    """Where it begins, its stages, and setpoint and range of the hottest hold."""
    stages: list[Stage] = []
    hottest: tuple[float, float, float] | None = None
    for step in program.steps:
        start = float(step.start.value)
        end = float(step.end.value) if step.end is not None else None
        if step.action == "hold" and end is not None:
            least = float(step.times.duration) if step.times.duration else _HOUR
            stages.append(Stage(end, end, least, held=True))
            window = step.window
            if window is not None and window.low is not None and window.high is not None:
                found = end, float(window.low.value), float(window.high.value)
                if hottest is None or found[0] > hottest[0]:
                    hottest = found
        elif step.action == "cool" and step.rate is None:
            continue  # it cools on its own, after what is predicted
        elif end is not None and end != start:
            seconds = float(step.times.duration) if step.times.duration else 0.0
            if seconds <= 0.0:
                seconds = abs(end - start) / _FREE * _HOUR
                assumed.append(f"to {end:.0f} °C without a rate: taken as {_FREE:.0f} K/h")
            stages.append(Stage(start, end, seconds))
    if hottest is None:
        raise NotPredicted("no hold has a range that is known")
    if sum(stage.seconds for stage in stages) > 200 * _HOUR:
        raise NotPredicted("the treatment takes longer than 200 h")
    begin = stages[0].start
    if begin > _ROOM:
        assumed.append(f"the whole pipe taken at {begin:.0f} °C when it begins")
    return begin, tuple(stages), hottest[0], (hottest[1], hottest[2])


#: m from the weld; what is farther off is not worked out.
_FARTHEST = 3.0


def _couples(joint: Joint, assumed: list[str]) -> list[Couple]:
    found = []
    for tc in joint.thermocouples:
        place, at = along(tc), tc.position
        if place is None or at is None or tc.duty == "spare":
            continue
        if abs(place[1]) > 1000 * _FARTHEST:
            assumed.append(f"{tc.tag} left out: it is more than {_FARTHEST:g} m from the weld")
            continue
        inside = "inside" in (tc.surface, tc.entry.monitors)
        found.append(Couple(tc.tag, tc.duty, float(at.degrees), float(place[1]) / 1000.0, inside))
    return found


def _zone(
    zone: Zone, couples: tuple[Couple, ...], heated: float, share: float, assumed: list[str]
) -> HeatedZone:
    arc = zone.arc
    first, width = (float(arc.start.degrees), float(arc.span)) if arc is not None else (0.0, 360.0)
    start, end = -heated, heated
    side = zone.entry.side
    if side not in (None, "both"):
        names = {"run": "on run", "branch": "on branch"}
        sign = Orientation(zone.joint.entry).along(names.get(side, side))[1]
        start, end = (0.0, heated) if sign > 0 else (-heated, 0.0)
    tags = [tc.tag for tc in zone.controls]
    control = next((c for c in couples if c.tag in tags), None)
    if control is None:
        degrees, z, tag = first + width / 2.0, (start + end) / 2.0, ""
        assumed.append(f"zone {zone.name} follows a thermocouple in its middle: none is placed")
    else:
        degrees, z, tag = control.degrees, control.z, control.tag
    power = zone.entry.power
    watts = float(power.value) * share if power is not None else None
    return HeatedZone(zone.name, first, width, start, end, tag, degrees % 360.0, z, watts)


def _horizontal(joint: Joint, assumed: list[str]) -> bool:
    axis = joint.entry.axis
    if axis is None:
        assumed.append("the pipe taken as horizontal: its axis is not stated")
        return True
    if axis.lies == "vertical":
        return False
    if joint.entry.datum not in (None, "top"):
        assumed.append(f"12:00 taken as the top, though the datum is the {joint.entry.datum}")
    return True


def _lined(heating: Heating, thickness: Quantity | None) -> float | None:
    """How far from the weld the state of the bore reaches, m: a lining, or plugs. None where it
    reaches as far as the insulation outside."""
    if heating.draught is not None and heating.draught.at is not None:
        return float(heating.draught.at.value) / 1000.0
    for entry in (heating.liner, heating.inside_insulation):
        if entry is not None and entry.width is not None:
            total = total_width(entry.width, thickness)
            return float(total.value) / 2000.0 if total is not None else None
    return None
