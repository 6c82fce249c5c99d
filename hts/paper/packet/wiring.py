"""How thermocouples are wired and proved, and what is looked at before they are covered."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet
from hts.job.compiler.wording import worded
from hts.job.outputs import tag_sheet
from hts.language.vocabulary.thermocouples import Attached, Thermocouples
from hts.paper.packet import letters
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import BOX, Pages

_POLARITY = (
    "Positive to positive, negative to negative, at every connector and at the instrument; the "
    "colours above decide, not the colours of the last job.",
    "A pair swapped once: the reading falls while the part gets hotter, and the controller runs "
    "to full power.",
    "A pair swapped twice: the reading moves the right way and is false by twice what the "
    "temperature differs between connector and instrument. Only tracing the colours finds it.",
    "Red is the negative conductor by ASTM E230 and was the positive one in withdrawn schemes: "
    f"old cable is not judged by red alone.{letters.PRACTICE}",
)
#: What is looked at, and whether it is so only for wires welded to the metal themselves.
_INSTALLED = (
    ("Spot dry and bright: scale, paint and grease are off.", False),
    (
        "Each of the two wires is attached by itself; the metal of the pipe closes the circuit.",
        True,
    ),
    ("The two wires touch nowhere but at the metal: no twist, no bare crossing behind it.", True),
    ("Distance of the two wires on the metal: at most 6 mm (1/4 in){apart}.", True),
    ("Stored energy of the attachment unit: at most 125 J{energy}.", True),
    ("Bare wire no longer than 13 mm (1/2 in), and covered.", True),
    ("Each wire holds against a light pull.", False),
    ("The junction is shielded from the radiation of the heater above it{cover}.", False),
    ("The lead is tied to the pipe beside the junction, so that no pull reaches it.", False),
    ("The lead leaves the heaters by the shortest way; its insulation is whole.", False),
    ("The spare sits beside the thermocouple it stands in for and is led out to its end.", False),
    ("The tag is on the lead at both ends and agrees with the tag sheet.", False),
)


def write(page: Pages, subject: Subject) -> None:
    """One card for each joint with thermocouples."""
    sheets = [sheet for sheet in subject.sheets if sheet.tags]
    if not sheets:
        return
    page.section("Wiring and polarity")
    for sheet in sheets:
        subject.head(page, sheet)
        _card(page, subject, sheet)
    page.heading(3, "Polarity")
    page.bullets(_POLARITY)
    page.section("Installation checks")
    page.line(
        f"Common practice{letters.PRACTICE}, except what is said to be specified. Where the "
        "specification, a procedure or the code says otherwise, that holds."
    )
    for sheet in sheets:
        block = sheet.joint.entry.thermocouples
        if block is not None:
            subject.head(page, sheet)
            _checks(page, block)


def _card(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    block, marks = sheet.joint.entry.thermocouples, letters.marks()
    if sheet.wire is not None:
        tag_sheet.wiring(page, marks, sheet.wire)
    if block is not None:
        page.facts(_facts(subject, block))
    tag_sheet.proving(page, subject.shown, marks, sheet)


def _facts(subject: Subject, block: Thermocouples) -> list[tuple[str, str]]:
    shown = subject.shown
    return [
        ("Wire size", f"AWG {block.gauge}" if block.gauge else ""),
        ("Wire", block.wire or ""),
        ("Wire insulation", block.wire_insulation or ""),
        ("Wire lot", block.lot or ""),
        ("Error of the lot", f"± {shown.text(block.error, 'up')}" if block.error else ""),
        ("Extension cable", subject.words(block.extension)),
        ("Attached by", subject.words(block.attached)),
        ("Cover of the junction", block.junction_cover or ""),
        ("Leads", block.leads or ""),
        ("Lead at least", shown.text(block.lead, "up") if block.lead is not None else ""),
    ]


def _checks(page: Pages, block: Thermocouples) -> None:
    attached = block.attached
    direct = attached is None or attached.how == "capacitor discharge"
    remarks = {"apart": "", "energy": "", "cover": _said(block.junction_cover or "")}
    if isinstance(attached, Attached):
        remarks["apart"] = _said(worded(attached.separation) if attached.separation else "")
        remarks["energy"] = _said(worded(attached.energy) if attached.energy else "")
    texts = [text for text, only_direct in _INSTALLED if direct or not only_direct]
    page.form(
        ("No.", "Check, for every thermocouple", "Done", "Initials"),
        [
            (str(number), _filled(text, remarks) + letters.PRACTICE, BOX, "")
            for number, text in enumerate(texts, 1)
        ],
        (10, 124, 14, 24),
        height=6.6,
    )


def _said(text: str) -> str:
    return f"; specified: {text}" if text else ""


def _filled(text: str, remarks: dict[str, str]) -> str:
    # Not str.format: braces in a text of the specification stay braces.
    for name, value in remarks.items():
        text = text.replace(f"{{{name}}}", value)
    return text
