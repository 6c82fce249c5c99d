"""Thermocouples: where each sits, and which channel it is."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.tags import Tag
from hts.job.outputs import tag_sheet, waivers
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import BOX, Pages


def write(page: Pages, subject: Subject) -> None:
    """Tag sheet, then channel map."""
    with_tags = [sheet for sheet in subject.sheets if sheet.tags]
    page.section("Tag sheet", fresh=True)
    if not with_tags:
        page.line("No thermocouples are specified.")
        return
    for sheet in with_tags:
        subject.head(page, sheet)
        waivers.told(page, subject.job, sheet)
        tag_sheet.placing(page, subject.shown, sheet)
        _attached(page, subject, sheet)
    page.section("Channel map")
    page.line(
        "Before power goes on each junction is warmed by hand, one after another, and the channel "
        "that moves is compared with this map. Tick when tag, channel and direction agree."
    )
    for sheet in with_tags:
        for names, run in _maps(sheet):
            page.heading(3, f"Joint {sheet.joint.name}, {names}")
            _map(page, run)


def _maps(sheet: JointSheet) -> list[tuple[str, Run]]:
    """The runs whose thermocouples are connected differently, with all that share a map.

    A run that names no instrument is left out where another one does: the channels are the same.
    """
    connected = [run for run in sheet.runs if _named(run)] or list(sheet.runs)
    names: dict[tuple[object, ...], list[str]] = {}
    runs: dict[tuple[object, ...], Run] = {}
    for run in connected:
        key = tuple((tag.controller, tag.recorder) for tag in run.tags)
        names.setdefault(key, []).append(run.program.name)
        runs.setdefault(key, run)
    return [(" and ".join(names[key]), run) for key, run in runs.items()]


def _named(run: Run) -> bool:
    return any(
        channel.instrument is not None
        for tag in run.tags
        for channel in (tag.controller, tag.recorder)
    )


def _attached(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    """Who placed and checked each, on paper."""
    page.heading(3, "Placed and checked")
    page.form(
        ("Tag", "Duty", "Lead at least", "Placed by", "Checked by", "As found, if not as drawn"),
        [
            (
                tag.tag,
                tag_sheet.duty(tag),
                subject.shown.text(tag.lead, "up") if tag.lead is not None else "",
                "",
                "",
                "",
            )
            for tag in sheet.tags
        ],
        (20, 36, 34, 22, 22, 40),
        height=6.2,
    )


def _map(page: Pages, run: Run) -> None:
    page.form(
        ("Recorder", "Channel", "Tag", "Duty", "Controller", "Channel", "Moves", "Initials"),
        [
            (
                tag.recorder.instrument or "",
                "" if tag.recorder.number is None else str(tag.recorder.number),
                tag.tag if tag.connected else f"{tag.tag} (led out only)",
                tag_sheet.duty(tag),
                tag.controller.instrument or "",
                "" if tag.controller.number is None else str(tag.controller.number),
                BOX,
                "",
            )
            for tag in sorted(run.tags, key=_by_channel)
        ],
        (20, 16, 30, 46, 22, 16, 13, 18),
        height=6.2,
    )


def _by_channel(tag: Tag) -> tuple[str, float]:
    number = tag.recorder.number
    return (tag.recorder.instrument or "~", float("inf") if number is None else number)
