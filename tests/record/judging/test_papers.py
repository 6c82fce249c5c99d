"""What stands around the temperatures: coverage, calibration, ledger, guard band, other papers."""

from __future__ import annotations

import json
from datetime import datetime
from zoneinfo import ZoneInfo

import jsonschema
import numpy as np
import pytest

from hts.generate import ROOT
from hts.record import faults
from hts.record.judging import CONDITIONAL, MET, NOT_MET, NOT_SHOWN, document, judge, text
from hts.record.record import NOTE, Event, Jump
from tests.record.judging.made import (
    GOOD,
    HOUR,
    Points,
    course,
    every,
    record,
    run,
    spec_plan,
    verdict,
)
from tests.rows import each_row


def test_a_record_that_begins_too_hot() -> None:
    hot = ((0.0, 305.0), *GOOD[2:])
    found = verdict(run(spec_plan(), points=hot), "start of the record")
    assert found.verdict == NOT_MET
    assert "305.0 degC" in found.failures[0].sentence
    at = ((0.0, 300.0), *GOOD[2:])
    assert verdict(run(spec_plan(), points=at), "start of the record").verdict == MET


def test_a_record_that_ends_too_hot() -> None:
    cut = (*GOOD[:4], (600.0, 359.0))
    found = verdict(run(spec_plan(), points=cut), "end of the record")
    assert found.verdict == NOT_MET and found.failures[0].start == 600 * 60


def test_readings_too_seldom() -> None:
    # The recorder of the specification reads every 60 s.
    found = verdict(run(spec_plan(), seconds=300.0), "readings")
    assert found.verdict == NOT_MET
    assert "5 min" in found.failures[0].sentence


def test_a_clock_that_was_set_leaves_it_open() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times)
    judgement = judge(made._replace(jumps=(Jump(300 * 60.0, -600.0),)), plan)
    assert verdict(judgement, "clock of the record").verdict == NOT_SHOWN


@each_row(
    ("start", "outcome"),
    [("2026-08-31 06:00", NOT_MET), ("2026-09-01 06:00", MET), ("2027-03-01 06:00", MET),
     ("2027-03-01 23:00", NOT_MET)],
)  # fmt: skip
def test_calibration_on_the_days_of_the_record(start: str, outcome: str) -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    courses = {one.tag: course(GOOD, times) for one in plan.watched}
    judgement = judge(record(courses, times, start=datetime.fromisoformat(start)), plan)
    assert verdict(judgement, "calibration of recorder R1").verdict == outcome


def test_calibration_of_a_record_without_a_date() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times, start=None)
    assert verdict(judge(made, plan), "calibration of recorder R1").verdict == NOT_SHOWN
    assert judge(made, plan).overall == NOT_SHOWN
    assert judge(made, plan, today="2026-11-21").overall == MET
    assert judge(made, plan, today="2027-11-21").overall == NOT_MET


def test_summer_time_neither_adds_nor_takes_an_hour() -> None:
    # Oslo went back from 03:00 to 02:00 on 2026-10-25 (tz database): the hold is as long as ever,
    # and its end is told by the record's own clock.
    start = datetime(2026, 10, 25, 0, 0, tzinfo=ZoneInfo("Europe/Oslo"))
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times, start=start)
    judgement, usual = judge(made, plan), run(plan)
    assert judgement.hold is not None and usual.hold is not None
    assert judgement.hold.total == usual.hold.total
    # 10 h 40 min after midnight, of which one hour came twice.
    assert "ends 2026-10-25 09:40:00" in verdict(judgement, "end of the record").actual


QUALIFIED = """  axis horizontal
  qualified "PQR-9" hold %s with toughness
  already heated 1 h at 700 degC "shop"
"""


@pytest.mark.parametrize(("hold", "outcome"), [("3 h", MET), ("2 h 50 min", NOT_MET)])
def test_all_treatments_within_the_qualification(hold: str, outcome: str) -> None:
    # ASME IX QW-407.2 (from memory): the test piece had at least 80 % of the time at temperature
    # of all treatments. Here 157 min and 1 h before it: 217 min, 0.8 of which are 174 min.
    change = ("  axis horizontal\n", QUALIFIED % hold)
    found = verdict(run(spec_plan("", change)), "time at temperature, all treatments")
    assert found.verdict == outcome
    assert "3 h 37 min" in found.actual


OWNER = """procedure P-T "Invented" {
  revision  1 on 2026-01-01 status for construction
  tempering parameter at most %s
}

joint """


@pytest.mark.parametrize(("most", "outcome"), [("20.3", MET), ("19.9", NOT_MET)])
def test_all_treatments_within_the_tempering_parameter(most: str, outcome: str) -> None:
    # By hand: 157 min at 705 degC, 978.15 K, and before it 1 h at 700 degC, 973.15 * 20 = 19463,
    # worth 10^(19463/978.15 - 20) = 0.79 h at 705: 3.41 h in all, 978.15 (20 + lg 3.41) = 20084,
    # and the ramps a little more: 20.1.
    changes = (
        ("  axis horizontal\n", '  axis horizontal\n  already heated 1 h at 700 degC "shop"\n'),
        ("joint ", OWNER % most),
        ("  governed by", "  follows P-T\n  governed by"),
    )
    found = verdict(run(spec_plan("", *changes)), "tempering parameter, all treatments")
    assert found.verdict == outcome
    assert found.actual.startswith("20.1")


def test_the_longest_hold() -> None:
    change = ("for 2 h\n", "for 2 h at most 150 min\n")
    found = verdict(run(spec_plan("", change)), "longest hold")
    assert found.verdict == NOT_MET  # 157 min
    change = ("for 2 h\n", "for 2 h at most 160 min\n")
    assert verdict(run(spec_plan("", change)), "longest hold").verdict == MET


def level(degrees: float) -> Points:
    return (*GOOD[:2], (260.0, degrees), (400.0, degrees), GOOD[-1])


@pytest.mark.parametrize(
    ("degrees", "plain", "strict"),
    [(705.0, MET, MET), (717.5, MET, CONDITIONAL), (720.5, NOT_MET, NOT_MET)],
)
def test_a_guard_band_makes_three_outcomes(degrees: float, plain: str, strict: str) -> None:
    # Type K class 1 at 705 degC: 0.4 % = 2.82 K (IEC 60584-1); recorder 1.5 K. Each as a
    # rectangle, U = 2 sqrt(2.82^2 + 1.5^2) / sqrt 3 = 3.69 K: accepted up to 716.31 degC.
    plan = spec_plan("guard band expanded uncertainty")
    judgement = run(plan, points=level(degrees))
    found = verdict(judgement, "highest temperature")
    assert (found.verdict, found.guarded) == (plain, strict)
    assert any("3.69 K" in one for one in judgement.assumed)
    assert judgement.overall == strict


def test_the_probability_of_conformance_is_told() -> None:
    # JCGM 106 (from memory): the normal distribution about the reading. 717.5 degC is 2.5 K below
    # the limit at u = 1.84 K: 1.356 standard deviations, 91.2 % by tables of the normal law.
    judgement = run(spec_plan("guard band expanded uncertainty"), points=level(717.5))
    (found,) = [one for one in judgement.noted if one.name.startswith("probability")]
    assert found.sentence.startswith("91.2%")


def test_no_error_no_guard_band_and_nothing_is_called_met() -> None:
    # IEC 60584-1 gives no tolerance for type T at 705 degC.
    plan = spec_plan("guard band expanded uncertainty", ("type K class 1 {", "type T class 1 {"))
    judgement = run(plan)
    assert verdict(judgement, "hold time").guarded == NOT_SHOWN
    assert any("no error of the wire" in one for one in judgement.assumed)
    assert judgement.overall == NOT_SHOWN


def test_no_guard_band_unless_asked_for() -> None:
    judgement = run(spec_plan("guard band none"), points=level(719.0))
    assert {one.guarded for one in judgement.verdicts} == {None}


def test_one_sided_guard_band_on_the_hold() -> None:
    # 1.645 u = 3.03 K: the hold counts from 693.03 degC.
    plan = spec_plan("guard band one-sided 95 %")
    found = verdict(run(plan, points=level(692.5)), "hold time")
    assert (found.verdict, found.guarded) == (MET, CONDITIONAL)
    found = verdict(run(plan, points=level(693.5)), "hold time")
    assert (found.verdict, found.guarded) == (MET, MET)


def test_what_no_record_of_temperature_shows_decides_nothing() -> None:
    judgement = run(spec_plan("begin within 24 h\nremove insulation below 80 degC"))
    others = {one.requirement: one for one in judgement.verdicts if one.elsewhere}
    assert set(others) >= {"delay before heat treatment", "cooling medium", "insulation"}
    assert {one.verdict for one in others.values()} == {NOT_SHOWN}
    assert judgement.overall == MET


@pytest.mark.parametrize(("hours", "outcome"), [(20.0, MET), (25.0, NOT_MET)])
def test_a_note_of_the_end_of_welding_shows_the_delay(hours: float, outcome: str) -> None:
    events = [Event(NOTE, -hours * HOUR, text="End of welding")]
    judgement = run(spec_plan("begin within 24 h"), events=events)
    assert verdict(judgement, "delay before heat treatment").verdict == outcome


def test_the_parameter_of_the_run_agrees_with_the_isothermal_formula() -> None:
    # P = T (C + log10 t): 2 h 37 min at 705 degC alone give 978.15 x (20 + log10 2.62) = 19972;
    # the ramps add a few units, never take any.
    judgement = run(spec_plan())
    (found,) = [one for one in judgement.noted if one.name.startswith("Hollomon")]
    assert 19955 < float(found.sentence.split()[0]) < 20010


def test_earlier_treatments_are_added_at_one_temperature() -> None:
    # 1 h at 700 degC are worth 10^(973.15 x 20 / 978.15 - 20) = 0.790 h at 705 degC.
    judgement = run(spec_plan("", ("  axis horizontal\n", QUALIFIED % "9 h")))
    alone, whole = (
        next(one for one in judgement.noted if one.name.startswith(name))
        for name in ("Hollomon", "parameter with")
    )
    hours = 10 ** (float(whole.sentence.split(",")[0]) / 978.15 - 20)
    before = 10 ** (float(alone.sentence.split()[0]) / 978.15 - 20)
    assert hours - before == pytest.approx(10 ** (973.15 * 20 / 978.15 - 20), abs=0.01)


def test_the_document_is_as_its_schema_says() -> None:
    with open(f"{ROOT}/grammar/record.schema.json", encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    for judgement in (
        run(spec_plan()),
        run(spec_plan("guard band expanded uncertainty"), points=level(684.0)),
    ):
        written = document.write(judgement)
        jsonschema.validate(json.loads(written), schema)
        assert document.write(judgement) == written


def test_the_text_names_both_fingerprints() -> None:
    judgement = run(spec_plan(), points=level(684.0))
    told = text.write(judgement)
    assert judgement.plan.job.document.fingerprint in told
    assert "0000" not in judgement.plan.job.document.fingerprint
    assert "SIMULATED" in told
    assert told.splitlines()[-1].startswith("not met: ")
    assert "T1 reached 684.0 degC" in told


def test_faults_are_told_in_the_units_of_the_job_and_with_what_to_do() -> None:
    number = 'number       "HT-1"'
    plan = spec_plan("", (number, f"{number}\n  show         US"))
    times = every(60.0, 640.0)
    courses = {one.tag: course(GOOD, times) for one in plan.watched}
    courses["T1"] = np.where(times >= 300 * 60, 1372.0, courses["T1"])
    made = record(courses, times)
    found = faults.find(made, plan)
    told = " ".join(text.write(judge(faults.apply(made, found), plan, found)).split())
    # The end of type K in IEC 60584-1, 1372 degC, is 2501.6 degF.
    assert "goes from 1301 degF to 2502 degF and stands" in told
    assert f"to do: {faults.BY_NAME['open-upscale'].remedy}" in told


def test_the_text_cannot_steer_a_terminal() -> None:
    events = [Event(NOTE, 60.0, text="\x1b[2J")]
    made = run(spec_plan(), events=events)
    made = made._replace(record=made.record._replace(assumed=("a column named \x1b[31m",)))
    assert "\x1b" not in text.write(made) + document.write(made)


def test_what_is_missing_before_and_after_control_does_not_matter() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    values = course(GOOD, times)
    values[times < 20 * 60.0] = np.nan  # connected at 20 min, long before 300 degC
    values[times > 636 * 60.0] = np.nan  # taken off below 300 degC
    courses = {one.tag: course(GOOD, times) for one in plan.watched} | {"T2": values}
    judgement = judge(record(courses, times), plan)
    assert verdict(judgement, "thermocouples").verdict == MET
    assert judgement.overall == MET
    values[times > 500 * 60.0] = np.nan  # lost at about 530 degC: how it cooled is not known
    judgement = judge(record(courses, times), plan)
    assert verdict(judgement, "end of the record").verdict == NOT_SHOWN
    assert verdict(judgement, "thermocouples").verdict == NOT_SHOWN


@pytest.mark.parametrize(("least", "outcome"), [("100 degC/h", MET), ("107 degC/h", NOT_MET)])
def test_a_step_that_must_not_take_too_long(least: str, outcome: str) -> None:
    # 405 K in 230 min are 105.7 degC/h.
    change = ("at most 120 degC/h\n  hold", f"at most 120 degC/h at least {least}\n  hold")
    found = verdict(run(spec_plan("", change), seconds=1.0), "slowest rate, step 2")
    assert found.verdict == outcome
    assert "106 degC/h" in found.actual


PREHEAT = """cycle stress-relief for W1 {"""
WITH_PREHEAT = """preheat W1 {
  at least         150 degC
  interpass        at most 315 degC
  maintain at least 150 degC
  soak             30 min
  recorded by      R1
}

cycle stress-relief for W1 {"""


def test_a_preheat_is_judged_as_well() -> None:
    kept = spec_plan("", (PREHEAT, WITH_PREHEAT), cycle="preheat")
    assert kept.kind == "preheat"
    points = ((0.0, 20.0), (60.0, 160.0), (360.0, 160.0), (480.0, 40.0))
    ended = [Event(NOTE, 350 * 60.0, text="end of welding")]
    judgement = run(kept, points=points, events=ended)
    assert verdict(judgement, "hold time").verdict == MET
    assert verdict(judgement, "preheat maintained").verdict == MET
    assert judgement.overall == MET
    # Without a note nobody knows whether welding went on while the joint cooled.
    found = verdict(run(kept, points=points), "preheat maintained")
    assert (found.verdict, found.elsewhere) == (NOT_SHOWN, True)
    lapse = (*points[:2], (200.0, 160.0), (210.0, 140.0), (220.0, 160.0), *points[2:])
    found = verdict(run(kept, {"T1": lapse}, events=ended, points=points), "preheat maintained")
    assert found.verdict == NOT_MET and found.failures[0].tags == ("T1",)
    hot = (*points[:2], (200.0, 320.0), (210.0, 160.0), *points[2:])
    judgement = run(kept, {"T1": hot}, events=ended, points=points)
    assert verdict(judgement, "highest temperature").verdict == NOT_MET


@each_row(
    ("peak", "began", "outcome", "elsewhere"),
    [
        (200.0, None, MET, False),  # nothing was above it at any time
        (260.0, 120.0, NOT_MET, False),  # above it before the arc
        (260.0, 60.0, MET, False),  # above it, but the arc burned then
        (260.0, None, NOT_SHOWN, True),  # nobody knows whether the arc burned
    ],
)
def test_greatest_preheat(peak: float, began: float | None, outcome: str, elsewhere: bool) -> None:
    preheat = WITH_PREHEAT.replace("  interpass ", "  at most          250 degC\n  interpass ")
    kept = spec_plan("", (PREHEAT, preheat), cycle="preheat")
    points = ((0.0, 20.0), (60.0, 160.0), (360.0, 160.0), (480.0, 40.0))
    hot = (*points[:2], (90.0, peak), (110.0, 160.0), *points[2:])
    notes = [Event(NOTE, 350 * 60.0, text="end of welding")]
    notes += [Event(NOTE, began * 60.0, text="Start of welding")] if began is not None else []
    found = verdict(run(kept, {"T2": hot}, events=notes, points=points), "greatest preheat")
    assert (found.verdict, found.elsewhere) == (outcome, elsewhere)
    if outcome == NOT_MET:
        assert found.failures[0].tags == ("T2",) and "T2" in found.actual


_HOT: Points = ((0.0, 170.0), (30.0, 300.0), *GOOD[2:])
_DIPPED: Points = ((0.0, 170.0), (10.0, 140.0), (50.0, 300.0), *GOOD[2:])
_FROM_COLD: Points = (
    (-200.0, 20.0), (-150.0, 160.0), (-40.0, 160.0), *_HOT,
)  # fmt: skip


@each_row(
    ("points", "ended", "outcome"),
    [
        (_HOT, None, MET),
        (_DIPPED, None, NOT_MET),
        # From cold, preheat and welding in the record: the note tells when it has to stay hot.
        (_FROM_COLD, -60.0, MET),
        (_FROM_COLD, None, NOT_SHOWN),
        (((0.0, 20.0), *GOOD[1:]), None, NOT_SHOWN),
        (((0.0, 20.0), *GOOD[1:]), 0.0, NOT_MET),
    ],
)
@each_row("begins", ["from preheat", "from bake"])
def test_kept_hot_before(points: Points, ended: float | None, outcome: str, begins: str) -> None:
    """The preheat is 150 degC, kept up at 150 degC."""
    plan = spec_plan(f"begins {begins}", (PREHEAT, WITH_PREHEAT), cycle="stress-relief")
    earlier = -points[0][0]
    moved = tuple((minute + earlier, degrees) for minute, degrees in points)
    notes = [] if ended is None else [(ended + earlier) * 60.0]
    events = [Event(NOTE, at, text="end of welding") for at in notes]
    found = verdict(run(plan, points=moved, events=events), "kept hot before")
    assert found.verdict == outcome, found.actual
    assert bool(found.failures) == (outcome == NOT_MET)


def test_nothing_is_asked_where_the_weld_has_cooled() -> None:
    for more in ("begins after cooling", ""):
        plan = spec_plan(more, (PREHEAT, WITH_PREHEAT), cycle="stress-relief")
        assert "kept hot before" not in {one.requirement for one in run(plan).verdicts}


def test_greatest_preheat_of_a_procedure() -> None:
    """The job follows it and states none of its own."""
    owner = "procedure P-1 {\n  revision 1 on 2026-01-01\n  preheat at most 250 degC\n}\n"
    changes = (
        (PREHEAT, WITH_PREHEAT),
        ("  governed by", "  follows P-1\n  governed by"),
        ("material pipe", f"{owner}material pipe"),
    )
    asked = spec_plan("", *changes, cycle="preheat").greatest_preheat
    assert asked is not None and asked.value == 250.0 and "P-1" in asked.why.source
