"""Instruments and supplies of the work, with their ratings and calibrations."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.job.outputs.show import UP, sign
from hts.language.vocabulary.cycle import Treatment
from hts.language.vocabulary.equipment import Controller, Instrument, PowerSource, Recorder
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages


def write(page: Pages, subject: Subject) -> None:
    """A table of instruments and one of supplies; nothing where none is named."""
    instruments = used(subject)
    supplies = powered(subject)
    if not instruments and not supplies:
        return
    page.section("Instruments and supplies")
    if instruments:
        page.table(
            (
                "Instrument",
                "Serial",
                "Inputs",
                "Error, ±",
                "Step shown",
                "Swing, ±",
                "Set in",
                "Program",
                "Reads every, chart",
                "Clock",
                "Calibrated",
                "Certificate",
            ),
            [_instrument(subject, one) for one in instruments],
        )
    if supplies:
        page.table(
            (
                "Supply",
                "Serial",
                "Kind",
                "Output",
                "Voltage",
                "Current",
                "Circuits",
                "Power of a circuit",
                "Cable rating",
                "Standby",
            ),
            [_supply(subject, one) for one in supplies],
        )


def used(subject: Subject) -> list[Instrument]:
    """Controllers and recorders of the treatments and of single thermocouples, each once."""
    found: dict[str, Instrument] = {}
    for sheet in subject.sheets:
        for run in sheet.runs:
            for one in (run.program.controller, run.program.recorder):
                if one is not None:
                    found.setdefault(one.name, one)
        for tc in sheet.joint.thermocouples:
            for reference in (tc.entry.controller, tc.entry.recorder):
                target = reference.target if reference is not None else None
                if isinstance(target, Instrument):
                    found.setdefault(target.name, target)
    return list(found.values())


def powered(subject: Subject) -> list[PowerSource]:
    """Supplies of the treatments, each once."""
    found: dict[str, PowerSource] = {}
    for sheet in subject.sheets:
        for run in sheet.runs:
            entry = run.program.entry
            reference = entry.powered_by if isinstance(entry, Treatment) else None
            target = reference.target if reference is not None else None
            if isinstance(target, PowerSource):
                found.setdefault(target.name, target)
    return list(found.values())


def _text(subject: Subject, value: Quantity | None, toward: str = "nearest") -> str:
    return subject.shown.text(value, toward) if value is not None else ""


def _error(subject: Subject, one: Instrument) -> str:
    """`1.0 K + 0.25 % of reading`: as stated, its parts added."""
    parts = [_text(subject, one.error, UP)] if one.error is not None else []
    parts += [f"{one.error_of_reading} of reading"] if one.error_of_reading is not None else []
    parts += [f"{one.error_of_span} of span"] if one.error_of_span is not None else []
    return " + ".join(parts)


def _instrument(subject: Subject, one: Instrument) -> tuple[str, ...]:
    controller = one if isinstance(one, Controller) else None
    recorder = one if isinstance(one, Recorder) else None
    dates, certificate = "NOT STATED", ""
    if one.calibrated is not None:
        dates = f"{one.calibrated.on} until {one.calibrated.until or 'not stated'}"
        certificate = one.calibrated.certificate or ""
    program = ""
    if controller is not None:
        segments = f"{controller.segments} segments" if controller.segments else ""
        base = f"time in {controller.time_base}" if controller.time_base else ""
        program = ", ".join(filter(None, (segments, base)))
    reads = ""
    if recorder is not None:
        chart = str(recorder.chart_speed) if recorder.chart_speed is not None else ""
        traces = f"traces by {recorder.traces}" if recorder.traces else ""
        every = str(recorder.interval) if recorder.interval is not None else ""
        reads = ", ".join(filter(None, (every, chart, traces)))
    return (
        one.name,
        one.serial or "",
        subject.words(one.channels),
        _error(subject, one),
        _text(subject, one.resolution),
        _text(subject, controller.tolerance, UP) if controller is not None else "",
        sign(controller.unit or "") if controller is not None else "",
        program,
        reads,
        (recorder.clock or "") if recorder is not None else "",
        dates,
        certificate,
    )


def _supply(subject: Subject, one: PowerSource) -> tuple[str, ...]:
    return (
        one.name,
        one.serial or "",
        one.kind or "",
        _text(subject, one.output),
        _text(subject, one.voltage),
        _text(subject, one.current),
        str(one.circuits or ""),
        _text(subject, one.circuit_power),
        _text(subject, one.cable),
        one.reserve or "",
    )
