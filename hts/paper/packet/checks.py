"""Checks before, during and after heat, and how thermocouples are looked at before they are
covered; in two columns, so that one sheet holds them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil

from hts.base.quantities import Quantity
from hts.job.compiler.wording import line_of, worded
from hts.job.outputs.show import DOWN
from hts.language.model.joint import Joint
from hts.language.model.on_chart import on_chart
from hts.language.vocabulary.thermocouples import Attached, Thermocouples
from hts.language.vocabulary.work import HandOver
from hts.paper.packet import letters
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import BOX, Pages

_YEAR = 365.25  # days
#: Text and who sees to it -> the joints it is asked of.
_Checks = dict[tuple[str, str], list[str]]
#: Joints with boxes in one table, and how many leave room for two columns of checks.
_MOST, _BESIDE = 8, 3
#: Widths in mm: half of a page, a number, a box.
_HALF, _NUMBER, _BOX = 85.0, 6.0, 9.0
#: Ways of fixing by which each wire is welded to the metal itself.
_DIRECT = ("capacitor discharge",)
#: What is looked at, with what it is only true for.
_INSTALLED = (
    ("Spot dry and bright: scale, paint and grease are off.", ""),
    (
        "Each of the two wires is attached by itself; the metal of the pipe closes the circuit.",
        "direct",
    ),
    ("The two wires touch nowhere but at the metal: no twist, no bare crossing.", "direct"),
    ("Distance of the two wires on the metal: at most 6 mm (1/4 in){apart}.", "direct"),
    ("Stored energy of the attachment unit: at most 125 J{energy}.", "direct"),
    ("Bare wire no longer than 13 mm (1/2 in){stripped}, and covered.", "direct"),
    ("Each wire holds against a light pull{pull}.", ""),
    ("The junction is shielded from the heater above it{cover}.", "heaters"),
    ("The lead leaves square to the turns of the coil{leads}; its insulation is whole.", "coil"),
    ("The lead leaves the heaters by the shortest way; its insulation is whole.", "heaters"),
    ("The lead is tied to the pipe beside the junction, so that no pull reaches it.", ""),
    ("The spare sits beside its partner and is led out to its end.", "spares"),
    ("The tag is on the lead at both ends and agrees with the table.", ""),
    ("Positive to positive, negative to negative at every connector, by the colours named.", ""),
)


def write(page: Pages, subject: Subject) -> None:
    """What is looked at before and during heat; what is asked alike of several joints is one row
    with a box for each."""
    page.section("Checks")
    before, attached, during = _Checks(), _Checks(), _Checks()
    for sheet in subject.sheets:
        joint = sheet.joint
        if not joint.before:
            page.warning(
                f"The specification lists no checks before heat{_of(subject, joint)}. The usual "
                "ones are not left out for that: permit, isolation, bore, ends, supports, "
                "heaters, thermocouples, instruments."
            )
        _gather(before, joint, _before(subject, joint))
        block = joint.entry.thermocouples
        if block is not None and joint.thermocouples:
            _gather(attached, joint, ((text, "") for text in installed(joint, block)))
        stages = joint.during
        _gather(during, joint, ((one.text, one.by or "") for st in stages for one in st.checks))
        _gather(during, joint, ((text, "") for text in _on_chart(subject, joint)))
    _listed(page, subject, "Before heat", before)
    _listed(
        page,
        subject,
        "Every thermocouple before it is covered, as on the attachment card",
        attached,
    )
    _listed(page, subject, "During heat", during)


def after(page: Pages, subject: Subject) -> None:
    """What is done once it is cold: the end of the work at the pipe. What is handed over is signed
    in the part for the file."""
    found = _Checks()
    for sheet in subject.sheets:
        _gather(found, sheet.joint, ((text, "") for text in finished(subject, sheet.joint)))
    _listed(page, subject, "After heat", found)


def _of(subject: Subject, joint: Joint) -> str:
    return f" of joint {joint.name}" if len(subject.sheets) > 1 else ""


def _gather(found: _Checks, joint: Joint, said: Iterable[tuple[str, str]]) -> None:
    for check in said:
        joints = found.setdefault(check, [])
        if joint.name not in joints:
            joints.append(joint.name)


def _before(subject: Subject, joint: Joint) -> Iterator[tuple[str, str]]:
    for stage in joint.before:
        for text in stage.welded_first:
            yield f"Welded on first: {text}", ""
        for check in stage.checks:
            yield check.text, check.by or ""
        for one in stage.examinations:
            accepted = ", accepted" if one.accepted else ""
            yield (
                " ".join(filter(None, (one.method, one.extent or "", one.report or ""))) + accepted,
                "",
            )
        if stage.insulation_resistance is not None:
            least = subject.shown.text(stage.insulation_resistance, "up")
            yield f"Insulation resistance of the heaters to earth at least {least}; measured:", ""
    for authority in subject.job.authorities:
        if authority.procedure is not None:
            for text in authority.procedure.checks:
                yield f"{authority.name}: {text}", ""


def finished(subject: Subject, joint: Joint) -> Iterator[str]:
    """What the text asks for at the pipe after heat, each in a few words."""
    for stage in joint.after:
        for check in stage.checks:
            yield f"{check.text}{f' ({check.by})' if check.by else ''}"
        if stage.removed_at is not None:
            below = subject.shown.text(stage.removed_at, DOWN)
            yield f"Thermocouples taken off, below {below}"
        if stage.spots:
            yield f"Spots of the thermocouples: {stage.spots}"
        if stage.straightness is not None:
            yield f"Measured: {line_of(stage.straightness)}"
        for text in stage.welded_later:
            yield f"Welded or peened afterwards: {text}"
        for text in stage.marking:
            yield f"Marked: {text}"


def handed_over(subject: Subject, joint: Joint) -> Iterator[str]:
    """What the text and its procedures want handed over and kept, each in a few words."""
    for stage in joint.after:
        yield from map(handed, stage.hand_over)
        if stage.keep is not None:
            yield f"Records kept for {_long(stage.keep)}"
    for authority in subject.job.authorities:
        if authority.procedure is not None:
            for text in authority.procedure.hand_over:
                yield f"{authority.name}: {text}"


def handed(document: HandOver) -> str:
    """A document with who gets it, and by when."""
    to = f" to {document.to}" if document.to else ""
    by = f", within {worded(document.within)} of the heat" if document.within is not None else ""
    return f"{document.text}{to}{by}"


def _on_chart(subject: Subject, joint: Joint) -> Iterator[str]:
    """What is written on the chart, each with what the text says of it."""
    for stage in joint.during:
        for item in stage.chart_shows:
            said = on_chart(item, subject.job.spec, joint)
            yield f"Chart shows {item}{f': {said}' if said else ''}"


def _long(time: Quantity) -> str:
    """`1826 days (5 years)`: what is kept for years is told in them, too."""
    days = time.to("d")
    years = round(days / _YEAR)
    if days.denominator > 1 or not years:
        return worded(time)
    in_years = f" ({years} year{'s' if years > 1 else ''})"
    return f"{days} days{in_years if abs(days - years * _YEAR) < 1 else ''}"


def installed(joint: Joint, block: Thermocouples) -> Iterator[str]:
    """What is looked at on every thermocouple before it is covered."""
    attached = block.attached
    has = {
        "direct": attached is None or attached.how in _DIRECT,
        "spares": any(tc.spare_of is not None for tc in joint.thermocouples),
        **_heated(joint),
    }
    said = {"apart": "", "energy": "", "stripped": "", "leads": _said(block.leads or "")}
    said["pull"] = ""
    said["cover"] = _said(block.junction_cover or "")
    if isinstance(attached, Attached):
        for name, value in (
            ("apart", attached.separation),
            ("energy", attached.energy),
            ("stripped", attached.stripped),
            ("pull", attached.pull),
        ):
            said[name] = _said(worded(value) if value is not None else "")
    for text, only in _INSTALLED:
        if not only or has[only]:
            yield _filled(text, said) + letters.PRACTICE


def _heated(joint: Joint) -> dict[str, bool]:
    """Whether heaters lie over the thermocouples, or a coil is wound over them."""
    methods = {
        one
        for one in (
            joint.entry.heating.method if joint.entry.heating is not None else None,
            joint.preheat.method if joint.preheat is not None else None,
        )
        if one
    }
    return {"heaters": "resistance" in methods or not methods, "coil": "induction" in methods}


def _listed(page: Pages, subject: Subject, title: str, found: _Checks) -> None:
    """Checks in two columns, counted down the left one first; where many joints have a box each,
    in one."""
    joints = [
        sheet.joint.name
        for sheet in subject.sheets
        if any(sheet.joint.name in asked for asked in found.values())
    ]
    for start in range(0, len(joints), _MOST):
        some = joints[start : start + _MOST]
        checks = [one for one in found.items() if set(some) & set(one[1])]
        alone = len(subject.sheets) == 1
        of = "" if alone or len(joints) == len(subject.sheets) else f", joint {', '.join(some)}"
        page.heading(3, f"{title}{of}. Seen by (name, signature, time):")
        count = 2 if len(some) <= _BESIDE else 1
        length = ceil(len(checks) / count)
        rows = []
        for index in range(length):
            row: list[str] = []
            for number in range(index, length * count, length):
                row += _check(number, checks, some)
            rows.append(row)
        heads = ("No.", "Check", *(["Done"] if alone else some))
        taken = _NUMBER + _BOX * len(some)
        page.form(
            heads * count,
            rows,
            (_NUMBER, 2 * _HALF / count - taken, *[_BOX] * len(some)) * count,
            height=4.4,
            dense=True,
        )


def _check(
    number: int, checks: list[tuple[tuple[str, str], list[str]]], joints: list[str]
) -> list[str]:
    if number >= len(checks):
        return [""] * (2 + len(joints))
    (text, by), asked = checks[number]
    boxes = [BOX if joint in asked else "\N{EN DASH}" for joint in joints]
    return [str(number + 1), f"{text} ({by})" if by else text, *boxes]


def _said(text: str) -> str:
    return f"; specified: {text}" if text else ""


def _filled(text: str, said: dict[str, str]) -> str:
    # Not str.format: braces in a text of the specification stay braces.
    for name, value in said.items():
        text = text.replace(f"{{{name}}}", value)
    return text
