"""Programs against timelines worked out by hand. The working stands beside each."""

from fractions import Fraction as F

import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import CannotCompile, Job, compile_spec
from hts.job.compiler.program import Program
from hts.job.compiler.steps import Step
from tests.rows import each_row
from tests.texts import spec_of

HOUR = 3600
MINUTE = 60

CYCLE = """\
  start of control    300 degC
  heat  to 315 degC
  heat  to 715 degC   at most 200 degC/h
  hold  700 .. 730 degC for 2 h
  cool  to 315 degC   at most 200 degC/h
  cool  in still air
  end of control      300 degC
  rate margin         10 %
"""


def compiled(*changes: tuple[str, str]) -> Job:
    text = BUTT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    spec = spec_of(text, "x.hts")
    assert [f for f in spec.findings if f.severity == "error"] == []
    return compile_spec(spec)


def cycle(lines: str) -> Program:
    """The program of the butt with these lines instead of its cycle's."""
    job = compiled((CYCLE, lines))
    return job.joints[0].runs[-1].program


def told(step: Step) -> tuple[str, F, F | None, F | None]:
    """Action, from, to (degC), programmed rate (K/h)."""
    return (
        step.action,
        step.start.value,
        step.end.value if step.end else None,
        step.rate.value if step.rate else None,
    )


def test_stated_rates_with_stated_margin() -> None:
    program = cycle(CYCLE)
    # 200 degC/h less 10 % is 180 degC/h; below 315 degC nothing limits the rate.
    assert [told(step) for step in program.steps] == [
        ("heat", 300, 315, None),
        ("heat", 315, 715, 180),
        ("hold", 715, 715, None),
        ("cool", 715, 315, 180),
        ("cool", 315, 300, None),
    ]
    assert [step.is_free for step in program.steps] == [True, False, False, False, True]
    # 400 K at 180 K/h is 2 h 13 min 20 s, rounded up to 2 h 14 min, at the limit 2 h.
    times = [step.times for step in program.steps]
    ramp, hold = 134 * MINUTE, 2 * HOUR
    assert [t.duration for t in times] == [None, ramp, hold, ramp, None]
    assert [t.begin for t in times] == [0, 0, ramp, ramp + hold, 2 * ramp + hold]
    assert [t.finish for t in times] == [0, ramp, ramp + hold, 2 * ramp + hold, 2 * ramp + hold]
    assert [t.earliest_finish for t in times] == [0, 2 * HOUR, 4 * HOUR, 6 * HOUR, 6 * HOUR]
    # No slowest rate and no longest hold is stated: from the first ramp on the latest is open.
    assert [t.latest_begin for t in times] == [0, 0, None, None, None]
    assert [t.latest_finish for t in times] == [0, None, None, None, None]


def test_latest_times_where_slowest_rates_and_longest_hold_are_stated() -> None:
    program = cycle("""\
  start of control 315 degC
  heat to 715 degC at most 200 degC/h at least 50 degC/h
  hold 700 .. 730 degC for 2 h at most 3 h
  cool to 315 degC at most 200 degC/h at least 40 degC/h
""")
    # 400 K / 50 K/h = 8 h; + 3 h; + 400 K / 40 K/h = 10 h.
    assert [step.times.latest_finish for step in program.steps] == [8 * HOUR, 11 * HOUR, 21 * HOUR]
    assert [step.times.latest_begin for step in program.steps] == [0, 8 * HOUR, 11 * HOUR]


def test_rate_by_rule_begins_at_its_threshold() -> None:
    # ASME B31.3-2014 331.1.4 (from memory): above 315 degC no faster than 600 degF/h or
    # 600 degF/h * 2 in / thickness, the lesser; 25.4 mm of wall: 600 degF/h = 333.33 K/h.
    # Programmed 90 %: 300 K/h. From 300 to 315 degC nothing limits the rate.
    program = cycle("""\
  start of control 300 degC
  heat to 715 degC at most by rule
  hold 700 .. 730 degC for by rule
  cool to 300 degC at most by rule
  rate margin 10 %
""")
    assert [told(step) for step in program.steps] == [
        ("heat", 300, 315, None),
        ("heat", 315, 715, 300),
        ("hold", 715, 715, None),
        ("cool", 715, 315, 300),
        ("cool", 315, 300, None),
    ]
    heat = program.steps[1]
    assert heat.limit is not None and heat.limit.value == F(1000, 3)
    assert heat.counts_from is not None and heat.counts_from.value == 315
    # 400 K at 300 K/h is 1 h 20 min. The limit of 600 degF/h gives 1 h 12 min.
    assert heat.times.duration == 80 * MINUTE
    assert heat.times.earliest_finish == 72 * MINUTE
    # ASME B31.3-2016 Table 331.1.1 (from memory): 1 h for each 25 mm; 25.4 mm: 60.96 min, up to 61.
    assert program.steps[2].times.duration == 61 * MINUTE
    assert program.steps[2].times.earliest_finish == 72 * MINUTE + F(6096, 100) * MINUTE


def test_free_heating_is_free_only_below_the_threshold() -> None:
    program = cycle("""\
  start of control 300 degC
  heat to 715 degC
  hold 700 .. 730 degC for 2 h
  cool in still air
""")
    # No rate is stated, so above 315 degC the rule's holds: 600 degF/h, of which 90 % by default.
    assert [told(step) for step in program.steps] == [
        ("heat", 300, 315, None),
        ("heat", 315, 715, 300),
        ("hold", 715, 715, None),
        ("cool", 715, 315, 300),
        ("cool", 315, None, None),
    ]


def test_stated_rate_counts_from_where_it_says() -> None:
    program = cycle("""\
  start of control 300 degC
  heat to 715 degC at most 100 degC/h above 400 degC
  hold 700 .. 730 degC for 2 h
  cool to 300 degC at most 100 degC/h
""")
    assert [told(step) for step in program.steps][:3] == [
        ("heat", 300, 315, None),
        ("heat", 315, 400, 300),
        ("heat", 400, 715, 90),
    ]
    assert program.steps[2].counts_from is not None
    assert program.steps[2].counts_from.value == 400


def test_margin_is_this_programs_default_where_none_is_stated() -> None:
    program = cycle(CYCLE.replace("  rate margin         10 %\n", ""))
    assert program.margin == F(1, 10)
    assert program.margin_why.basis == "practice"
    stated = cycle(CYCLE.replace("10 %", "25 %"))
    assert stated.margin == F(1, 4)
    assert stated.margin_why.basis == "stated"
    assert stated.steps[1].rate is not None and stated.steps[1].rate.value == 150


@each_row(
    ("lines", "target"),
    [
        # Stated.
        ("heat to 715 degC\n hold 700 .. 730 degC for 2 h target 720 degC", 720),
        # Where the step before goes to, as that lies inside the range.
        ("heat to 712 degC\n hold 700 .. 730 degC for 2 h", 712),
        # The middle: 690 .. 721 degC gives 705.5, rounded 706.
        ("heat to 690 degC\n hold 690 .. 721 degC for 2 h", 706),
        # The middle of 700.1 .. 700.4 degC is 700.25; 700 lies outside, 700.3 inside.
        ("heat to 600 degC\n hold 700.1 .. 700.4 degC for 2 h", F(7003, 10)),
    ],
)
def test_setpoint_of_a_hold(lines: str, target: F) -> None:
    program = cycle(f" start of control 315 degC\n {lines}\n cool in still air\n")
    hold = next(step for step in program.steps if step.action == "hold")
    assert hold.end is not None and hold.end.value == target
    assert program.target is not None and program.target.value == target
    # The program goes there before it holds.
    assert hold.start == hold.end


def test_step_to_the_setpoint_keeps_the_rate_of_the_step_before() -> None:
    program = cycle(
        " start of control 315 degC\n heat to 690 degC at most 100 degC/h\n"
        " hold 690 .. 720 degC for 2 h\n cool in still air\n"
    )
    assert [told(step) for step in program.steps][:3] == [
        ("heat", 315, 690, 90),
        ("heat", 690, 705, 90),
        ("hold", 705, 705, None),
    ]
    assert "setpoint" in program.steps[1].note


def test_start_of_a_program() -> None:
    # Control begins where the free step ends: the part is still cold before.
    program = cycle(CYCLE.replace("heat  to 315 degC", "heat  to 300 degC"))
    assert told(program.steps[0]) == ("heat", 20, 300, None)
    assert program.start.why.basis == "practice"
    # Nothing stated at all.
    assert cycle(CYCLE.replace("  start of control    300 degC\n", "")).start.at.value == 20


def test_alarms_are_inside_the_range_by_the_error_of_a_reading_unless_stated() -> None:
    steps = cycle(CYCLE).steps
    # IEC 60584-1 type K class 1: 0.004 of 730 is 2.92 K, of 700 2.8 K; C1 errs by 1.0 K. So
    # 730 - 3.92, down to 726 degC, and 700 + 3.8, up to 704 degC.
    assert [s.alarm_high.value if s.alarm_high else None for s in steps] == [726] * 5
    assert [s.alarm_low.value if s.alarm_low else None for s in steps] == [
        None,
        None,
        704,
        None,
        None,
    ]
    steps = cycle(CYCLE + "  alarm above 725 degC\n  alarm below 705 degC\n").steps
    assert [s.alarm_high.value if s.alarm_high else None for s in steps] == [725] * 5
    assert steps[2].alarm_low is not None and steps[2].alarm_low.value == 705


def test_program_is_made_in_the_governing_unit() -> None:
    job = compiled(("show         SI and US", "show         US and SI"))
    heat = job.joints[0].runs[-1].program.steps[1]
    # 200 degC/h is 360 degF/h; 90 % of it is 324 degF/h.
    assert heat.rate is not None and heat.rate.to("degF/h") == 324
    assert heat.rate.unit.symbol == "degF/h"


def test_preheat_is_set_above_its_least_by_the_errors_known() -> None:
    # IEC 60584-1 type K class 1: the greater of 1.5 K and 0.004 of 150 = 0.6 K, so 1.5 K.
    # No controller and no recorder is named: 2 K for the reading and 5 K of swing are assumed
    # (common practice, no source). 150 + 1.5 + 2 + 5 = 158.5, up to 159 degC.
    program = compiled().joints[0].runs[0].program
    assert program.kind == "preheat"
    assert program.target is not None and program.target.value == 159
    assert program.by_hand
    hold = program.steps[-1]
    assert hold.window is not None
    assert (hold.window.low.value, hold.window.high.value) == (150, 315)  # type: ignore[union-attr]
    assert hold.times.duration is None
    # With C1 also its error of 1.0 K and its swing of 5 K: 150 + 1.5 + 1 + 5 = 157.5, up to 158.
    program = (
        compiled(
            (
                "  keep until        end of welding\n",
                "  keep until        end of welding\n  controlled by C1\n",
            )
        )
        .joints[0]
        .runs[0]
        .program
    )
    assert program.target is not None and program.target.value == 158
    assert not program.by_hand


@each_row("least", [-10, 0, 5, 10, 12, 19, 20, 40])
def test_a_preheat_below_the_surroundings_is_no_cooling(least: int) -> None:
    program = compiled(("at least          150 degC", f"at least          {least} degC"))
    steps = program.joints[0].runs[0].program.steps
    assert [step.action for step in steps if step.action != "hold"] == ["heat"]
    assert steps[0].end is not None and steps[0].start < steps[0].end
    assert program.joints[0].runs[0].program.start.why.basis == "practice"


def test_what_is_keyed_is_whole_in_the_unit_of_the_controller() -> None:
    # 1300 degF is 704.44 degC, 600 degF 315.56 degC: the rate is slow from 315 degC on, both ways.
    text = """\
  start of control 570 degF
  heat to 1300 degF at most 360 degF/h above 600 degF
  hold 1275 .. 1325 degF for 2 h
  cool to 570 degF at most 360 degF/h above 600 degF
  rate margin 10 %
"""
    job = compiled(
        (CYCLE, text),
        ("show         SI and US", "show         US"),
    )
    steps = job.joints[0].runs[-1].program.steps
    assert job.joints[0].runs[-1].program.unit == "degF"
    assert [step.set_to.to("degF") if step.set_to else None for step in steps][:2] == [600, 1300]
    job = compiled(
        (CYCLE, text),
        ("show         SI and US", "show         US"),
        ("controller C1 {", "controller C1 {\n  unit degC"),
    )
    program = job.joints[0].runs[-1].program
    assert program.unit == "degC"
    keyed = [step.set_to.to("degC") if step.set_to else None for step in program.steps]
    assert keyed == [315, 704, 704, 315, 298]
    # 200 K/h less 10 %, in the controller's unit.
    assert program.steps[1].rate is not None and program.steps[1].rate.to("degC/h") == 180
    for step in program.steps:
        for alarm in (step.alarm_high, step.alarm_low):
            assert alarm is None or alarm.to("degC").denominator == 1


@each_row(
    ("old", "new", "reason"),
    [
        ("  rate margin         10 %\n", "  rate margin         100 %\n", "leaves no rate"),
        (
            "at most 200 degC/h\n  hold",
            "at most 200 degC/h at least 190 degC/h\n  hold",
            "below the slowest",
        ),
        ("for 2 h", "for 2 h target 740 degC", "lies outside"),
        ("for 2 h", "for 2 h at most 1 h", "at most 1 h"),
    ],
)
def test_what_cannot_be_programmed_is_refused(old: str, new: str, reason: str) -> None:
    assert old in CYCLE
    with pytest.raises(CannotCompile, match=reason):
        cycle(CYCLE.replace(old, new))


def test_by_rule_without_a_rule_is_refused_with_every_gap() -> None:
    lines = CYCLE.replace("hold  700 .. 730 degC for 2 h", "hold by rule for by rule").replace(
        "heat  to 715 degC   at most 200 degC/h", "heat  to 715 degC   at most by rule"
    )
    with pytest.raises(CannotCompile) as raised:
        compiled(
            (CYCLE, lines),
            (
                "  governed by  asme-b31.3 edition 2018, local-heating",
                "  governed by  common-practice",
            ),
        )
    reasons = "\n".join(raised.value.reasons)
    assert "no rule gives the rate" in reasons
    assert "no rule gives the soak band" in reasons
