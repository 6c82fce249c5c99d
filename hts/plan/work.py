"""What is to be heated, and on what: taken from the compiled job."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

from hts.job.compiler import Job
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.cycle import Cycle
from hts.language.vocabulary.preheat import Preheat
from hts.plan.circuits import circuits, unfit

#: As many joints are named with one reason.
_NAMED = 12
UNTIL_TREATMENT, UNTIL_BAKE = "post-weld heat treatment", "bake"


class Machine(NamedTuple):
    """A controller, recorder or supply by name, and how much of it there is; None: not stated."""

    name: str
    channels: int | None = None
    watts: int | None = None
    circuits: int | None = None


class Unit(NamedTuple):
    """A treatment of one joint, or of joints the text heats together. `seconds` is the program,
    `program` what two units have in common that can run on one machine at once.

    `loops`, `inputs`, `circuits` and `watts` are what it takes of controller, recorder and supply;
    `watts` is None where a zone does not state its power. `within` is the longest time from the end
    of welding in seconds. `kept` tells that the preheat is kept until it begins, and `keeper` names
    the controller that keeps it, "" where the text does not tell. `unfit` tells why the supply can
    never drive it, whatever else it drives.
    """

    joints: tuple[str, ...]
    treatment: str
    program: tuple[object, ...]
    seconds: int
    controller: Machine
    recorder: Machine
    supply: Machine
    loops: int
    inputs: int
    circuits: int
    watts: int | None
    within: int | None
    kept: bool
    keeper: str = ""
    unfit: str = ""

    @property
    def name(self) -> str:
        return f"{', '.join(self.joints)}: {self.treatment}"

    @property
    def group(self) -> tuple[object, ...]:
        """What units that can share a heat have in common."""
        return (self.controller.name, self.recorder.name, self.supply.name, self.program)


def units(job: Job) -> list[Unit]:
    """What is to be heated, in the order of the text; the treatments of a joint in their order."""
    found: list[Unit] = []
    done: set[tuple[int, str]] = set()
    sheets = {sheet.joint.name: sheet for sheet in job.joints}
    for sheet in job.joints:
        for run in sheet.runs:
            program = run.program
            if program.kind == PREHEAT or program.by_hand:
                continue
            entry = program.entry
            together = isinstance(entry, Cycle) and entry.together
            names = [sheet.joint.name]
            if together and isinstance(entry, Cycle):
                if (id(entry), program.name) in done:
                    continue
                done.add((id(entry), program.name))
                names = [each.name for each in entry.joints if each.name in sheets]
            found.append(_unit(sheet, run, [sheets[name] for name in names]))
    return found


def _unit(sheet: JointSheet, run: Run, sheets: list[JointSheet]) -> Unit:
    program, joints = run.program, [each.joint for each in sheets]
    entry = program.entry
    treatment = next(t for t in (*sheet.joint.bakes, *sheet.joint.cycles) if t.entry is entry)
    finish = max((step.times.finish for step in program.steps), default=Fraction(0))
    delay = getattr(entry, "delay", None)
    powers = [zone.entry.power for joint in joints for zone in joint.zones]
    known = [power.to("kW") for power in powers if power is not None]
    stated = known and len(known) == len(powers)
    return Unit(
        tuple(joint.name for joint in joints),
        program.name,
        (id(entry), *((step.action, str(step.end), step.times.finish) for step in program.steps)),
        ceil(finish),
        _controller(treatment),
        _recorder(treatment),
        _supply(treatment),
        sum(max(1, len(joint.zones)) for joint in joints),
        _inputs(joints, treatment),
        circuits(joints, treatment.power_source),
        ceil(sum(known, Fraction(0)) * 1000) if stated else None,
        int(delay.to("s")) if delay is not None else None,
        bool(kept := [joint.preheat for joint in joints if _keeps_until(joint, treatment)]),
        next(filter(None, (_keeper(each, treatment) for each in kept)), ""),
        unfit(joints, treatment.power_source),
    )


def _keeps_until(joint: Joint, treatment: Treatment) -> bool:
    """Whether the preheat of a joint is kept until this treatment: a bake, or the first cycle."""
    until = joint.preheat.until if joint.preheat is not None else None
    if treatment.is_bake:
        return until == UNTIL_BAKE
    return until == UNTIL_TREATMENT and joint.cycles[0].entry is treatment.entry


def _keeper(preheat: Preheat | None, treatment: Treatment) -> str:
    """The controller that keeps a preheat: its own, else that of the treatment whose heaters lie
    there already; "" for flames, and where no method is stated."""
    if preheat is None:
        return ""
    if preheat.controlled_by is not None:
        own = preheat.controlled_by.target
        return own.name if own is not None else ""
    if preheat.method not in ("resistance", "induction") or treatment.controller is None:
        return ""
    return treatment.controller.name


def _inputs(joints: list[Joint], treatment: Treatment) -> int:
    """Recorder channels up to the last one used, so that another unit can begin behind it. An
    offset the text states for a single joint is left to the plan."""
    alone = len(joints) == 1
    used = [
        (tc.entry.channel if alone else tc.channel) or 0
        for joint in joints
        for tc in joint.thermocouples
        if tc.entry.recorder is None or tc.entry.recorder.target is treatment.recorder
    ]
    return max(used, default=0)


def _controller(treatment: Treatment) -> Machine:
    found = treatment.controller
    if found is None:
        return Machine("")
    return Machine(found.name, found.channels.count if found.channels is not None else None)


def _recorder(treatment: Treatment) -> Machine:
    found = treatment.recorder
    if found is None:
        return Machine("")
    return Machine(found.name, found.channels.count if found.channels is not None else None)


def _supply(treatment: Treatment) -> Machine:
    found = treatment.power_source
    if found is None:
        return Machine("")
    watts = int(found.output.to("kW") * 1000) if found.output is not None else None
    return Machine(found.name, None, watts, found.circuits)


def too_much(unit: Unit) -> str:
    """Why no heat can hold a unit, "" where one can."""
    if unit.unfit:
        return f"{unit.name} {unit.unfit}"
    for needs, have, what in (
        (unit.loops, unit.controller.channels, f"control channels of {unit.controller.name}"),
        (unit.inputs, unit.recorder.channels, f"channels of {unit.recorder.name}"),
        (unit.circuits, unit.supply.circuits, f"circuits of {unit.supply.name}"),
    ):
        if have is not None and needs > have:
            return f"{unit.name} needs {needs} {what}, which has {have}"
    if unit.watts is not None and unit.supply.watts is not None and unit.watts > unit.supply.watts:
        # Rounded apart, so that a figure beyond what there is never reads as that.
        power, most = ceil(unit.watts / 100) / 10, floor(unit.supply.watts / 100) / 10
        return f"{unit.name} needs {power:.1f} kW of {unit.supply.name}, which gives {most:.1f} kW"
    return ""


def gathered(reasons: Sequence[tuple[Unit, str]]) -> list[str]:
    """Reasons that begin with the name of their unit, one for all that have the same."""
    alike: dict[tuple[str, str], list[str]] = {}
    for unit, reason in reasons:
        key = (unit.treatment, reason.removeprefix(unit.name))
        alike.setdefault(key, []).append(", ".join(unit.joints))
    return [
        f"{', '.join(joints[:_NAMED])}"
        f"{f' and {len(joints) - _NAMED} more' if len(joints) > _NAMED else ''}: {treatment}{tail}"
        for (treatment, tail), joints in alike.items()
    ]
