"""Changes that are easily told wrongly: overlooked, told as something else, or made of nothing.

What each asks for is common practice, no source. A row: the specification, what is done to it, the
text before and after, and what is told: verdict, change and address. `written differently` stands
for what is no change. That the revision stayed is left out: it is told for every content.
"""

# The rows of a table are read one by one, whatever their width.
# ruff: noqa: E501

from __future__ import annotations

import re

import pytest

from hts.job.comparison.change_kinds import ROWS
from hts.job.comparison.report.told import kind
from hts.job.comparison.unsaid import UNSAID
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File
from tests.job.comparison.texts import changed, named

P22, CARBON, ORDERS, MATERIALS = "p22-header", "carbon-steel-butt", "standing-orders", "materials"
FIRST = "  heat to 705 degC        at most 120 degC/h\n"
HOLD = "  hold 690 .. 720 degC    for 2 h at most 6 h target 705 degC counts from all in range\n"
COOL = "  cool to 300 degC        at most 120 degC/h\n"
T2 = "T2   controls right          at 3:00    on weld"
T9 = "    T9   monitors heated edge    at 12:00,  465 mm upstream    channel 13\n"
T10 = "    T10  monitors heated edge    at 6:00,   465 mm downstream  channel 14\n"
SAME = "written differently"

TRAPS: tuple[tuple[str, str, str, str, tuple[str, ...]], ...] = (
    # What holds unless said, said
    (P22, "the surface it is on anyway", T2, f"{T2} surface outside", (SAME,)),
    (P22, "the other surface", T2, f"{T2} surface inside", ("re-approve thermocouple (surface) changed: W12/thermocouples/T2/surface",)),
    (P22, "top is where 12:00 is anyway", "  datum                top\n", "", (SAME,)),
    (P22, "the weld stamp instead of the top", "datum                top", "datum                weld stamp", ("re-approve position changed: W12/datum",)),
    (P22, "the setpoint the step before goes to", " target 705 degC", "", (SAME,)),
    (P22, "another setpoint, once none is stated", HOLD, HOLD.replace("target 705", "target 700"), ("re-approve step (target) moved: W12/stress-relief/hold-1/target",)),
    (P22, "no guard band, not said", "  guard band              none\n", "", (SAME,)),
    (P22, "a guard band", "guard band              none", "guard band              expanded uncertainty", ("re-approve cycle (guard band) changed: W12/stress-relief/guard-band/rule",)),
    (P22, "all times added, not said", "at most 10 min in total", "at most 10 min", (SAME,)),
    (P22, "interrupted hold, not said", "  interrupted hold        adds up\n", "", ("re-approve cycle (interrupted hold) changed: W12/stress-relief/interrupted-hold",)),
    # The same in other words
    (P22, "an arc of the same place", "at 3:00    on weld            channel 2", "arc 479.1 mm on weld          channel 2", (SAME,)),
    (P22, "an arc of another place", "at 3:00    on weld            channel 2", "arc 500 mm on weld            channel 2", ("re-approve thermocouple (at) changed: W12/thermocouples/T2/arc",)),
    (MATERIALS, "a grade as the other standard has it", '"A335 P22"', '"SA-335 Gr. P22"', (SAME,)),
    (MATERIALS, "another grade", '"A335 P22"', '"A335 P11"', ("re-approve base metal (grade) changed: pipe-p22/grade",)),
    (P22, "minutes for hours", "for 2 h at most", "for 120 min at most", (SAME,)),
    (P22, "half of it on each side", "930 mm total", "465 mm each side", (SAME,)),
    (P22, "the same number on each side", "930 mm total", "930 mm each side", ("re-approve band tightened: W12/heating/heated-band",)),
    (P22, "the other name of the size", "NPS 24", "DN 600", (SAME,)),
    (ORDERS, "a condition with brackets", "when t <= 50 mm", "when (t <= 5 cm)", (SAME,)),
    (ORDERS, "a condition that leaves the bound out", "when t <= 50 mm", "when t < 50 mm", ("re-approve limit changed: P-07/cooling-rate[t < 50 mm]/when", "re-approve limit or rule now not met: P-07")),
    # One clause of a thing is not the thing
    (P22, "a place left out", "at 12:00,  465 mm upstream", "465 mm upstream", ("re-approve thermocouple (at) removed: W12/thermocouples/T9/at", "re-approve limit or rule now not met: W12/thermocouples/T9")),
    (P22, "the whole thermocouple", T9, "", ("re-approve thermocouple removed: W12/thermocouples/T9", "re-approve limit or rule now not met: W12/monitor-heated-edge-count-2")),
    (P22, "nobody releases the start", 'released" by "Owner\'s engineer"', 'released"', ("re-approve check or point (by) removed: W12/before-heat/hold-point[Start is released]/by",)),
    (P22, "a heater of a zone", "    heater             left-2 in left kind flexible pad power 2.7 kW count 4 circuit 8\n", "", ("re-approve arrangement (heater) removed: W12/heating/left-2", "re-approve limit or rule now not met: W12/heating/left")),
    (P22, "power of a zone", "zone top           from 10:30 to 1:30  power 21.6", "zone top           from 10:30 to 1:30  power 22.6", ("re-approve zone (power) moved: W12/heating/top/power",)),
    (P22, "where the wall is from", "39.6 mm measured", "39.6 mm nominal", ("review measured or nominal changed: W12/upstream/taken", "review measured or nominal changed: W12/downstream/taken")),
    # Which way it goes
    (P22, "least more than greatest", "for 2 h at most 6 h", "for 7 h at most 6 h", ("re-approve hold time changed: W12/stress-relief/hold-1/for", "re-approve limit or rule now not met: W12/stress-relief")),
    (ORDERS, "least of a limit more than its greatest", "at least 605 degC at most 645", "at least 655 degC at most 645", ("re-approve lower limit changed: P-07/hold-temperature[p_number = 1]/at-least", "re-approve limit or rule now not met: P-07")),
    (P22, "alarms the wrong way round", "alarm below             692", "alarm below             719", ("re-approve low alarm changed: W12/stress-relief/alarm-below", "re-approve limit or rule now not met: W12/stress-relief")),
    (P22, "no longest hold any more", " at most 6 h", "", ("re-approve longest hold removed: W12/stress-relief/hold-1/at-most",)),
    (P22, "each time instead of in total", "at most 10 min in total", "at most 10 min each", (SAME, "re-approve tolerated time (each) added: W12/stress-relief/excursion[each]/each", "re-approve limit or rule now not met: W12/stress-relief")),
    (P22, "an excursion where none was tolerated", "  interrupted hold", "  rate excursion at most 10 min each\n  interrupted hold", ("re-approve tolerated time added: W12/stress-relief/rate-excursion[each]",)),
    (P22, "an excursion no longer tolerated", "  excursion               at most 10 min in total\n", "", ("note tolerated time removed: W12/stress-relief/excursion",)),
    (P22, "a spread over a shorter length", "within 1 m\n", "within 500 mm\n", ("re-approve length a spread counts over loosened: W12/stress-relief/heating-spread/within",)),
    (P22, "a spread over a longer length", "within 1 m\n", "within 2 m\n", ("note length a spread counts over tightened: W12/stress-relief/heating-spread/within",)),
    (P22, "a stricter alarm", "alarm above             718", "alarm above             717", ("note tolerated deviation tightened: W12/stress-relief/alarm-above",)),
    (P22, "a looser alarm", "alarm above             718", "alarm above             719", ("re-approve tolerated deviation loosened: W12/stress-relief/alarm-above",)),
    (P22, "a softer weld asked for", "weld at most 241 HBW", "weld at most 235 HBW", ("note highest value allowed tightened: W12/after-heat/hardness[weld]/at-most",)),
    (P22, "a harder weld allowed", "weld at most 241 HBW", "weld at most 242 HBW", ("re-approve highest value allowed loosened: W12/after-heat/hardness[weld]/at-most",)),
    # Texts for people
    (P22, "a caution with another number", "Surfaces up to 730 degC", "Surfaces up to 330 degC", ("review text for the paper changed: W12/before-heat/caution[Surfaces up to 330 degC]",)),
    (P22, "a caution reworded", '"Surfaces up to 730 degC"', '"Hot surfaces: barrier and signs"', ("review text for the paper changed: W12/before-heat/caution[Hot surfaces: barrier and signs]",)),
    (P22, "a caution for something else", '"Surfaces up to 730 degC"', '"Gloves"', ("re-approve text for the paper removed: W12/before-heat/caution[Surfaces up to 730 degC]", "note text for the paper added: W12/before-heat/caution[Gloves]")),
    (P22, "a caution left out", '  caution     "Surfaces up to 730 degC"\n', "", ("re-approve text for the paper removed: W12/before-heat/caution[Surfaces up to 730 degC]",)),
    (P22, "a check reworded", '"Bore drained and vented"', '"Bore is drained, vented and dry"', ("re-approve check or point changed: W12/before-heat/check[Bore is drained, vented and dry]/text",)),
    # Order
    (P22, "hold before heating", FIRST + HOLD, HOLD + FIRST, ("re-approve order of steps changed: W12/stress-relief", "re-approve limit or rule now not met: W12/stress-relief")),
    (P22, "cooling before the hold", HOLD + COOL, COOL + HOLD, ("re-approve order of steps changed: W12/stress-relief", *2 * ("re-approve limit or rule now not met: W12/stress-relief",))),
    (P22, "the order of documents", "precedence   P-07, asme-b31.3", "precedence   asme-b31.3, P-07", ("re-approve precedence changed: job/precedence",)),
    (P22, "another order of thermocouples", T9 + T10, T10 + T9, (SAME,)),
    # What others refer to
    (P22, "another zone's thermocouple", "T1   controls top  ", "T1   controls right", ("re-approve thermocouple (controls) changed: W12/thermocouples/T1/controls",)),
    (P22, "a new name", "T12", "M12", ("note thermocouple renamed: W12/thermocouples/M12",)),
    (P22, "no control channel", "channel 1   control channel 1\n", "channel 1\n", ("re-approve channel removed: W12/thermocouples/T1/control-channel", "re-approve limit or rule now not met: W12/thermocouples/T1")),
    (P22, "two leads exchanged", "upstream    channel 13", "upstream    channel 23", ("note channel moved: W12/thermocouples/T9/channel",)),
    # What the document says of itself
    (P22, "a point opened again", " closed 2026-11-18", "", ("re-approve settled point removed: job/open-point[1]/closed",)),
    (P22, "the client did not approve", "answer approved", "answer not approved", ("re-approve client's answer changed: job/revision/answer",)),
    (P22, "no permit", '  permit          "HW-224"\n', "", ("re-approve permit removed: job/permit[HW-224]",)),
    (P22, "a remark", "spec 1\n", "spec 1\n# as agreed\n", (SAME,)),
    (P22, "an edition of the book", "edition 2016", "edition 2018", ("re-approve book changed: job/governed-by[asme-b31.3]",)),
    # What a changed text does to the rest
    (CARBON, "a thicker wall reaches the hold", "29.1 mm measured", "31.8 mm measured", ("re-approve hold time: lower limit in force tightened: W07/stress-relief/limits/hold-time",)),
    (CARBON, "the value by rule, stated", "for by rule", "for 72.75 min", ("note hold time changed: W07/stress-relief/hold-1/for",)),
    (CARBON, "less than by rule, stated", "for by rule", "for 1 h", ("re-approve hold time loosened: W07/stress-relief/hold-1/for",)),
    (P22, "a supply without power to spare", "qualified            \"PQR-31\" hold 8 h", "qualified            \"PQR-31\" hold 2 h", ("review qualification record (hold) moved: W12/qualified[PQR-31]/hold",)),
)  # fmt: skip


def test_what_holds_unless_said_is_what_the_vocabulary_says() -> None:
    """Every field whose words tell what holds unless said, and what they tell."""
    told = {
        path: field.doc
        for path, _, field in walk(File)
        if re.search(r"\bunless (said|it|the)", field.doc)
    }
    blocks = {path: field.doc for path, _, field in walk(File) if "none unless" in field.doc}
    assert {path for path in told if path not in UNSAID and path not in blocks} == {
        # Worked out (hts.job.comparison.unsaid.target).
        "bake.hold.target",
        "cycle.hold.target",
        # All times added, unless it says each: the entry tells it of its two flags.
        *(f"{t}.{e}" for t in ("bake", "cycle") for e in ("excursion", "rate excursion")),
        "preheat.hold.target",
    } & set(told)
    for path, value in UNSAID.items():
        doc = told.get(path) or told.get(path.rpartition(".")[0], "")
        # Counts, and flags that stand for each other, have no words for it.
        assert value in doc or value in ("yes", "1", "0"), path


def test_a_note_has_a_reason_of_its_own() -> None:
    """What asks for nothing is not told with the reason of what asks for something."""
    for row in ROWS:
        verdicts = {row.verdict(action) for action in row.actions if action != "renamed"}
        if "note" in verdicts and len(verdicts) > 1:
            assert row.calm or row.area in ("requalification", "limit"), row.kind


@pytest.mark.parametrize(
    ("spec", "what", "old", "new", "told"), TRAPS, ids=[trap[1] for trap in TRAPS]
)
def test_trap(spec: str, what: str, old: str, new: str, told: tuple[str, ...]) -> None:
    found = changed(named(spec), (old, new))
    lines = [
        f"{change.verdict} {kind(change)}: {change.address}"
        for change in found.changes
        if change.kind != "revision kept"
    ]
    differently = [SAME] if found.representations else []
    # What it asks of the rest, limits in force and what advises, is not the trap.
    assert [line for line in (*differently, *lines) if line in told] == list(told), lines
    assert bool(lines) == any(line != SAME for line in told)
