"""What to do when something fails: by the specification, and where it is silent by practice."""

from __future__ import annotations

from collections.abc import Iterator

from hts.job.compiler.program import Program
from hts.job.compiler.why import line_of as place_of
from hts.job.compiler.wording import worded
from hts.language.vocabulary.cycle import Treatment
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.interruptions import PowerLoss
from hts.language.vocabulary.preheat import Preheat
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

_ASK = "Stop, keep the part from cooling fast, and ask the responsible engineer."
_RULED = {
    "resume at the present temperature": "Remove the cause. Go on at the rate allowed at the "
    "temperature the part has then; in the hold, the clock stands until all readings are back in "
    "range.",
    "restart the cycle": "Let the part cool at no more than the allowed rate, then run the cycle "
    "from the beginning.",
    "ask the engineer": _ASK,
    "stop and ask": _ASK,
    "change to the spare": "The table of thermocouples names it; its own lead goes to the "
    "terminals. Write down both tags and the time.",
    "stop and repair": "Stop heating, isolate, repair, and go on at the rate allowed at the "
    "temperature the part has then.",
    "replace": "Isolate, replace the heater by a like one, and go on at the rate allowed at the "
    "temperature the part has then.",
    "adjust neighbouring heaters": "They take over for the lost one; watch the spread and the "
    "readings beside it.",
    "repeat the hold": "Remove the cause, heat the part back at the allowed rate, hold it for the "
    "whole time again and cool it at the allowed rate. Tell the engineer.",
    "repeat half of the hold": "Remove the cause, heat the part back at the allowed rate, hold it "
    "for half of the time again and cool it at the allowed rate. Tell the engineer.",
    "cool on at the allowed rate": "Remove the cause and go on cooling at no more than the "
    "allowed rate. Tell the engineer.",
    "resume at the allowed rate": "Remove the cause first; the part need not cool down for it. "
    "Tell the engineer and look for distortion at the end.",
    "keep hot": "Keep the joint at the preheat until welding goes on.",
    "cool slowly and preheat again": "Let the joint cool slowly under insulation, and preheat it "
    "anew before the arc is struck.",
    "bake before cooling": "Run the bake before the joint is allowed to cool.",
}
_PRACTICE = {
    "power": "While heating or cooling: remove the cause and go on at the rate allowed at the "
    "temperature the part has then. In the hold: the clock stops when a reading leaves the range; "
    "heat back at the allowed rate and hold what is missing. Ask the engineer, who says whether it "
    "counts: nothing is specified.",
    "thermocouple": "Change to its spare, on the spare's own lead, write down both tags and the "
    "time, and ask the engineer, who says whether it counts: nothing is specified. Where the spare "
    "is lost, too, the neighbours tell most, first the one across the weld at the same clock "
    "position.",
    "thermocouple without spare": "No spare is specified. The neighbours tell most, first the one "
    "across the weld at the same clock position: ask the engineer before going on.",
    "coil": "Isolate. Keep the part from cooling fast, mend or replace the coil, and go on at the "
    "rate allowed at the temperature the part has then.",
    "heater": "Isolate. Replace it if that can be done safely; else let the neighbours take over "
    "and watch the spread.",
    "heating too fast": "Remove the cause and go on at the rate allowed at the present "
    "temperature. Tell the engineer and look for distortion at the end.",
    "welding": "Keep the joint from cooling fast, and preheat it anew before the arc is struck.",
}
COOLED = "Cooling was too fast"
_ALWAYS = (
    (
        COOLED,
        "Remove the cause and tell the engineer, who decides whether the part is brought back to "
        "the hold and how much of the hold is repeated.",
        "AWS D10.10:2021",
        "",
    ),
    (
        "A reading is above the hold range",
        "Lower the setpoint of that zone by hand. Write down the tag, the highest reading and both "
        "times. Tell the engineer before going on.",
        "common practice, no source",
        letters.PRACTICE,
    ),
    (
        "Anything else, or any doubt",
        _ASK,
        "common practice, no source",
        letters.PRACTICE,
    ),
)
_SILENT = "the specification is silent: common practice, no source"
_HEADS = ("During", "What happens", "What to do", "By")


def at_the_pipe(page: Pages, subject: Subject) -> None:
    """What to do, in one table."""
    page.section("When something fails")
    page.line(
        "Every interruption is written into the record with its start, its end and what was done."
    )
    page.table(_HEADS[:-1], [row[:-1] for row in _all_rows(subject)], tables.SMALL)


def on_file(page: Pages, subject: Subject) -> None:
    """The same with who says so."""
    page.section("When something fails: who says so")
    page.table(_HEADS, _all_rows(subject), tables.SMALL)


def _all_rows(subject: Subject) -> list[tuple[str, str, str, str]]:
    """What is done alike in several treatments is one row, and alike rows stand together."""
    during: dict[tuple[str, str, str], list[str]] = {}
    for name, program in _programs(subject):
        for row in _rows(program):
            during.setdefault(row, []).append(name)
    happens = list(dict.fromkeys(what for what, _, _ in during))
    found = [
        (", ".join(names), what, do, by)
        for event in happens
        for (what, do, by), names in during.items()
        if what == event
    ]
    always = (row for row in _ALWAYS if row[0] not in happens)
    return [*found, *(("any", what, do + mark, by) for what, do, by, mark in always)]


def _programs(subject: Subject) -> Iterator[tuple[str, Program]]:
    """Each treatment once, however many joints it is for."""
    by_step: dict[int, list[str]] = {}
    first: dict[int, Program] = {}
    for sheet in subject.sheets:
        for run in sheet.runs:
            key = id(run.program.entry)
            by_step.setdefault(key, []).append(sheet.joint.name)
            first.setdefault(key, run.program)
    for key, program in first.items():
        joints = f", {', '.join(by_step[key])}" if len(subject.sheets) > 1 else ""
        yield f"{program.name}{joints}", program


def _rows(program: Program) -> list[tuple[str, str, str]]:
    entry = program.entry
    if isinstance(entry, Preheat):
        return [_welding(entry)]
    assert isinstance(entry, Treatment)
    joint = program.joint
    heating = joint.entry.heating
    coil = heating is not None and heating.method == "induction"
    spared = any(tc.spare_of is not None for tc in joint.thermocouples)
    rows = [
        _row(what, practice, rule)
        for what, practice, rule in (
            ("Power is lost", "power", entry.power_loss),
            (
                "A thermocouple is lost",
                "thermocouple" if spared else "thermocouple without spare",
                entry.thermocouple_loss,
            ),
            (
                "The coil is lost" if coil else "A heater is lost",
                "coil" if coil else "heater",
                entry.heater_loss,
            ),
            ("Heating was too fast", "heating too fast", entry.over_rate),
        )
    ]
    if entry.cooling_fault is not None:
        rows.append(_row(COOLED, "", entry.cooling_fault))
    if entry.interrupted_hold:
        how = {
            "adds up": "The times in range before and after are added up.",
            "starts again": "The hold starts again from zero.",
        }[entry.interrupted_hold]
        rows.append(("The hold is interrupted", how, place_of(entry.place("interrupted_hold"))))
    return rows


def _row(what: str, practice: str, rule: Entry | None) -> tuple[str, str, str]:
    if rule is None:
        return what, _PRACTICE[practice] + letters.PRACTICE, _SILENT
    action = str(getattr(rule, "action", ""))
    text = f"By the specification: {action}. {_RULED[action]}"
    if isinstance(rule, PowerLoss) and rule.within is not None:
        text += (
            f" This holds if power is back within {worded(rule.within)}; "
            f"after that, ask the responsible engineer.{letters.PRACTICE}"
        )
    return what, text, place_of(rule.place())


def _welding(entry: Preheat) -> tuple[str, str, str]:
    what = "Welding is interrupted, or preheat is lost"
    if entry.interrupted is None:
        return what, _PRACTICE["welding"] + letters.PRACTICE, _SILENT
    text = f"By the specification: {entry.interrupted}. {_RULED[entry.interrupted]}"
    return what, text, place_of(entry.place("interrupted"))
