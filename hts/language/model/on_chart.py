"""What a chart is asked to bear, and what the text says of it."""

from __future__ import annotations

from hts.language.model.joint import Joint
from hts.language.model.spec import Spec
from hts.language.vocabulary.equipment import Recorder

#: Written on the chart by hand, or drawn by the recorder: no text can say it before.
BY_HAND = (
    "date",
    "start and end of hold",
    "temperature scale",
    "operator",
    "inspector",
)


def on_chart(item: str, spec: Spec, joint: Joint) -> str | None:
    """What the text says of `item`; empty where it is written by hand, None where the text is
    silent."""
    if item in BY_HAND:
        return ""
    return _SAYS[item](spec, joint) or None


def _welder(spec: Spec, joint: Joint) -> str:
    welding = joint.entry.welding
    return ", ".join(welding.welders) if welding is not None else ""


def _materials(spec: Spec, joint: Joint) -> str:
    found = [side.material for side in joint.sides]
    return " and ".join(dict.fromkeys(str(m.grade or m.name) for m in found if m is not None))


def _heats(spec: Spec, joint: Joint) -> str:
    own = [side.heat_number for side in joint.entry.sides if side.heat_number]
    metals = [side.material for side in joint.sides if side.material is not None]
    return ", ".join(dict.fromkeys(own or [n for metal in metals for n in metal.heat_numbers]))


def _size(spec: Spec, joint: Joint) -> str:
    sizes = [
        f"{side.outside_diameter.value} × {side.wall.value}"
        for side in joint.sides
        if side.outside_diameter is not None and side.wall is not None
    ]
    return " and ".join(dict.fromkeys(sizes))


def _channels(spec: Spec, joint: Joint) -> str:
    told = [f"{tc.channel} {tc.tag}" for tc in joint.thermocouples if tc.channel is not None]
    return ", ".join(told)


def _places(spec: Spec, joint: Joint) -> str:
    return "as on the map of thermocouples" if joint.thermocouples else ""


def _recorder(joint: Joint) -> Recorder | None:
    treatments = [*joint.cycles, *joint.bakes]
    return next((one.recorder for one in treatments if one.recorder is not None), None)


def _recorded(joint: Joint, field: str) -> str:
    recorder = _recorder(joint)
    said = getattr(recorder, field) if recorder is not None else None
    return str(said) if said is not None else ""


def _job(spec: Spec, field: str) -> str:
    return str(getattr(spec.file.job, field) or "") if spec.file.job is not None else ""


def _calibration(spec: Spec, joint: Joint) -> str:
    recorder = _recorder(joint)
    done = recorder.calibrated if recorder is not None else None
    return f"{done.on} until {done.until}" if done is not None else ""


_SAYS = {
    "client": lambda spec, joint: _job(spec, "client"),
    "document number": lambda spec, joint: _job(spec, "number"),
    "drawing": lambda spec, joint: joint.entry.drawing,
    "line": lambda spec, joint: joint.entry.line,
    "joint": lambda spec, joint: joint.name,
    "cycle": lambda spec, joint: ", ".join(one.name for one in joint.cycles),
    "chart speed": lambda spec, joint: _recorded(joint, "chart_speed"),
    "recorder serial": lambda spec, joint: _recorded(joint, "serial"),
    "welder": _welder,
    "material": _materials,
    "heat number": _heats,
    "size and wall": _size,
    "channels": _channels,
    "thermocouple places": _places,
    "calibration": _calibration,
}
