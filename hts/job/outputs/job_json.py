"""The whole compiled job as one JSON document, every value with its reason.

Exact numbers are texts, `254/10` or `705`, for no binary number holds them; `shown` is the value
as it stands on paper. Times are in seconds.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hts import __version__
from hts.base.quantities import Interval, Quantity
from hts.base.text.json_text import json_text
from hts.job.compiler.bands import Band
from hts.job.compiler.derivations import Derivation, Undecided
from hts.job.compiler.fingerprint import used_name
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.proof import Proof
from hts.job.compiler.steps import Step
from hts.job.compiler.tags import Channel, Tag
from hts.job.compiler.why import Why
from hts.job.outputs.show import DOWN, NEAREST, UP, Shown
from hts.language.model.side import Figure, Side
from hts.language.vocabulary.export import export

Json = dict[str, Any]
_TOWARD = {"minimum": UP, "maximum": DOWN}


def write(job: Job) -> str:
    """The document, its keys in a fixed order."""
    shown = Shown(job.units)
    named = job.document
    document = {
        "hts": __version__,
        "document": {
            "title": named.title,
            "number": named.number,
            "revision": named.revision,
            "date": named.dated,
            "status": named.status,
        },
        "fingerprint": named.fingerprint,
        "digest": {"algorithm": "SHA-256", "value": named.digest},
        "units": list(job.units.systems),
        "authorities": [
            {
                "name": a.name,
                "title": a.title,
                "edition": a.edition,
                "kind": "book" if a.is_book else "procedure",
                "file": used_name(job.spec, a.file.path) if a.file is not None else None,
            }
            for a in job.authorities
        ],
        "quieted": [f"{quieted}" for quieted in job.spec.defaults.quieted],
        **_changes(job),
        "joints": [_joint(shown, sheet) for sheet in job.joints],
        "spec": export(job.spec.file),
        "used": [
            {"name": used_name(job.spec, library.path), "spec": export(library.file)}
            for library in job.spec.libraries
        ],
    }
    return json_text(document)


def _changes(job: Job) -> Json:
    """What changed since an earlier revision; nothing where nobody asked."""
    changes = job.changes
    if changes is None:
        return {}
    rows = sorted(changes.rows)
    return {
        "changes": {
            "since": changes.since,
            "mark": changes.mark,
            "lines": [line._asdict() for line in changes.lines],
            "rows": [
                {"joint": joint, "treatment": treatment, "kind": kind, "name": name}
                for joint, treatment, kind, name in rows
            ],
        }
    }


def _joint(shown: Shown, sheet: JointSheet) -> Json:
    return {
        "name": sheet.joint.name,
        "facts": {
            side: {name: fact(shown, value) for name, value in facts.items()}
            for side, facts in sheet.limits.facts.items()
        },
        "sides": [_side(shown, side) for side in sheet.joint.sides],
        "widths": [_band(shown, band) for band in sheet.bands],
        "derived": [_derivation(shown, derivation) for derivation in sheet.derived],
        "undecided": [_undecided(open_limit) for open_limit in sheet.undecided],
        "treatments": [_run(shown, run) for run in sheet.runs],
    }


def fact(shown: Shown, value: object, toward: str = NEAREST) -> Any:
    """A quantity, number or word."""
    if isinstance(value, Quantity):
        return {
            "value": exact(value.value),
            "unit": value.dimension.canonical,
            "shown": shown.text(value, toward),
        }
    return exact(value) if isinstance(value, Fraction) else value


def exact(value: Fraction | None) -> str | None:
    """A number without loss."""
    if value is None:
        return None
    whole = value.denominator == 1
    return str(value.numerator) if whole else f"{value.numerator}/{value.denominator}"


def _why(why: Why | None) -> Json | None:
    if why is None:
        return None
    found = {
        "formula": why.formula,
        "numbers": why.numbers,
        "source": why.source,
        "edition": why.edition,
        "citation": why.citation,
        "basis": why.basis,
        "confidence": why.confidence,
        "note": why.note,
    }
    return {key: value for key, value in found.items() if value}


def _side(shown: Shown, side: Side) -> Json:
    return {
        "name": side.name,
        "outside_diameter": _figure(shown, side.outside_diameter),
        "wall": _figure(shown, side.wall),
        "wall_taken": side.wall_taken,
    }


def _figure(shown: Shown, figure: Figure | None) -> Json | None:
    if figure is None:
        return None
    return {**fact(shown, figure.value), "source": figure.origin, "basis": figure.basis}


def _band(shown: Shown, band: Band) -> Json:
    return {
        "name": band.name,
        "total": fact(shown, band.total, UP),
        "each_side": fact(shown, band.each, UP),
        "from": band.datum,
        "why": _why(band.why),
    }


def _derivation(shown: Shown, derivation: Derivation) -> Json:
    toward = _TOWARD.get(derivation.direction, NEAREST)
    found: Json = {
        "quantity": derivation.quantity,
        "direction": derivation.direction,
        "value": fact(shown, derivation.value, toward),
        "why": _why(derivation.why),
    }
    for key, value in (
        ("above", derivation.above),
        ("within", derivation.within),
        ("side", derivation.side),
    ):
        if value is not None:
            found[key] = fact(shown, value)
    if derivation.places:
        found["at"] = list(derivation.places)
    if derivation.rival is not None:
        found["stricter_than"] = {
            "value": fact(shown, derivation.rival.value, toward),
            "by": fact(shown, derivation.rival.margin),
            "why": _why(derivation.rival.why),
        }
    return found


def _undecided(open_limit: Undecided) -> Json:
    return {
        "quantity": open_limit.quantity,
        "source": open_limit.source,
        "citation": open_limit.citation,
        "lacks": list(open_limit.lacks),
        "reason": open_limit.reason,
    }


def _run(shown: Shown, run: Run) -> Json:
    program = run.program
    return {
        "name": program.name,
        "kind": program.kind,
        "controller": program.controller.name if program.controller is not None else None,
        "recorder": program.recorder.name if program.recorder is not None else None,
        "start": {**fact(shown, program.start.at), "why": _why(program.start.why)},
        "rate_margin": {"value": exact(program.margin), "why": _why(program.margin_why)},
        "zones": [
            {
                "name": zone.name,
                "arc": zone.arc,
                "control": zone.control.tag if zone.control is not None else None,
                "spares": [spare.tag for spare in zone.spares],
            }
            for zone in program.zones
        ],
        "unit": program.unit,
        "by_hand": program.by_hand,
        "program": [_step(shown.led_by(program.unit), step) for step in program.steps],
        "settings": list(program.settings),
        "derived": [_derivation(shown, derivation) for derivation in program.derived],
        "undecided": [_undecided(open_limit) for open_limit in program.undecided],
        "tags": [_tag(shown, tag) for tag in run.tags],
        "proof": _proof(shown, run.proof),
    }


def _step(shown: Shown, step: Step) -> Json:
    times = step.times
    return {
        "step": step.number,
        "segment": step.segment,
        "action": step.action,
        "free": step.is_free,
        "from": fact(shown, step.start),
        "to": fact(shown, step.end),
        "set_from": fact(shown, step.set_from),
        "set_to": fact(shown, step.set_to),
        "setpoint_why": _why(step.target_why),
        "rate": fact(shown, step.rate, DOWN),
        "rate_why": _why(step.rate_why),
        "rate_limit": fact(shown, step.limit, DOWN),
        "rate_limit_why": _why(step.limit_why),
        "rate_limit_counts_from": fact(shown, step.counts_from),
        "window": _window(shown, step.window),
        "window_why": [_why(w) for w in step.window_why],
        "time": fact(shown, step.least, UP),
        "time_why": _why(step.least_why),
        "longest": fact(shown, step.longest, DOWN),
        "duration": exact(times.duration),
        "elapsed": {"start": exact(times.begin), "end": exact(times.finish)},
        "earliest": {"start": exact(times.earliest_begin), "end": exact(times.earliest_finish)},
        "latest": {"start": exact(times.latest_begin), "end": exact(times.latest_finish)},
        "alarm_above": fact(shown, step.alarm_high, DOWN),
        "alarm_above_why": _why(step.alarm_high_why),
        "alarm_below": fact(shown, step.alarm_low, UP),
        "alarm_below_why": _why(step.alarm_low_why),
        "medium": step.medium,
        "note": step.note,
    }


def _window(shown: Shown, window: Interval | None) -> Json | None:
    if window is None:
        return None
    return {"from": fact(shown, window.low, UP), "to": fact(shown, window.high, DOWN)}


def _tag(shown: Shown, tag: Tag) -> Json:
    offset = tag.offset
    return {
        "tag": tag.tag,
        "duty": tag.duty,
        "zone": tag.zone,
        "place": tag.place,
        "spare_of": tag.spare_of,
        "clock": str(tag.clock) if tag.clock is not None else None,
        "angle": exact(tag.degrees),
        "outside_diameter": fact(shown, tag.outside),
        "arc": fact(shown, tag.arc),
        "arc_why": _why(tag.arc_why),
        "along": fact(shown, tag.along),
        "on_weld": tag.on_weld,
        "offset": fact(shown, offset.distance) if offset is not None else None,
        "side": offset.side if offset is not None else None,
        "surface": tag.surface,
        "controller": _channel(tag.controller),
        "recorder": _channel(tag.recorder),
        "connected": tag.connected,
        "lead": fact(shown, tag.lead, UP),
        "taped": _taped(shown, tag),
    }


def _taped(shown: Shown, tag: Tag) -> Json | None:
    if tag.taped is None:
        return None
    measures = [
        {"measure": measure.words, "length": fact(shown, measure.length)}
        for measure in tag.taped.measures
    ]
    return {"measures": measures, "not_placed": tag.taped.why or None}


def _channel(channel: Channel) -> Json:
    return {"instrument": channel.instrument, "channel": channel.number}


def _proof(shown: Shown, proof: Proof | None) -> Json | None:
    if proof is None:
        return None
    return {
        "at": fact(shown, proof.at),
        "reference_junction": fact(shown, proof.reference),
        "reference_junction_why": _why(proof.reference_why),
        "millivolts": proof.millivolts,
        "millivolts_why": _why(proof.millivolts_why),
        "limit_of_error": fact(shown, proof.wire.error, UP) if proof.wire is not None else None,
        "limit_of_error_why": _why(proof.wire.why) if proof.wire is not None else None,
    }
