"""Small steps of the compiler at their edges, worked by hand."""

from __future__ import annotations

from fractions import Fraction

from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.compiler.clock import whole_minutes
from hts.job.compiler.free import FreeTime, free_times
from hts.job.compiler.why import issue
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT
from tests.rows import each_row
from tests.texts import spec_of

_HEAT = "  heat  to 715 degC"


def changed(*changes: tuple[str, str]) -> str:
    text = BUTT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


@each_row(
    ("seconds", "longest", "rounded"),
    [
        ("90", None, "120"),
        ("120", None, "120"),
        ("90", "120", "120"),  # just as long as it may take
        ("90", "119", "90"),
        ("89.5", "90", "90"),  # whole seconds, then
        ("89.5", "89.7", "89.5"),  # and then as it is
    ],
)
def test_times_are_whole_minutes_as_far_as_they_may(
    seconds: str, longest: str | None, rounded: str
) -> None:
    most = Fraction(longest) if longest is not None else None
    assert whole_minutes(Fraction(seconds), most) == Fraction(rounded)


@each_row(
    ("edition", "basis", "words"),
    [
        ("2018", "published", "edition 2018"),
        ("2019a", "memory", "edition 2019a"),
        ("not recorded", "memory", "not recorded"),
        ("B", "stated", "revision B"),
        ("", "stated", ""),
        ("", "practice", ""),
    ],
)
def test_an_issue_is_named_as_its_kind_is(edition: str, basis: str, words: str) -> None:
    assert issue(edition, basis) == words


def free(text: str) -> FreeTime:
    job = compile_spec(spec_of(text, "x.hts"))
    (sheet,) = job.joints
    run = next(run for run in sheet.runs if run.program.kind == "cycle")
    return min(free_times(sheet, run).items())[1]


def test_a_free_step_is_reckoned_with_the_power_there_is() -> None:
    """Two zones of 9 kW, free up to 315 degC; half of them where the cycle says so."""
    step = (_HEAT, f"  heat  to 315 degC\n{_HEAT}")
    half = ("  rate margin ", "  power at most       50 %\n  rate margin ")
    assert "with 18 kW" in free(changed(step)).why.numbers
    assert "with 9 kW" in free(changed(step, half)).why.numbers


def test_a_zone_without_its_power_leaves_a_free_step_to_what_is_usual() -> None:
    text = changed(
        (_HEAT, f"  heat  to 315 degC\n{_HEAT}"),
        ("from 3:00 to 9:00 power 9 kW heaters 2", "from 3:00 to 9:00"),
    )
    assert "kW" not in free(text).why.numbers


@each_row(("tag", "outside"), [("T9", "168.3"), ("T10", "406.4"), ("T5", "168.3"), ("T1", "168.3")])
def test_a_thermocouple_on_the_run_has_the_diameter_of_the_run(tag: str, outside: str) -> None:
    """specs/leaning-drain.hts, W71: NPS 6 on NPS 16, 168.3 on 406.4 mm (ASME B36.10M)."""
    (found,) = (t for t in job_at(ROOT / "specs/leaning-drain.hts").joints[0].tags if t.tag == tag)
    assert found.outside is not None
    assert found.outside.to("mm") == Fraction(outside)


def test_alarms_keep_the_error_of_what_states_one() -> None:
    """At 730 degC wire of class 1 is off by 0.4 %, 2.92 K (IEC 60584-1), the controller by 1 K:
    3.92 K below the end of the range is 726.08 degC, and the alarm comes a degree before. Without
    the error of the controller it is 727.08."""

    def alarm(text: str) -> Fraction:
        (sheet,) = compile_spec(spec_of(text, "x.hts")).joints
        run = next(run for run in sheet.runs if run.program.kind == "cycle")
        high = next(s.alarm_high for s in run.program.steps if s.action == "hold")
        assert high is not None
        return high.to("degC")

    assert 725 <= alarm(BUTT) <= 726
    assert 726 <= alarm(changed(("  error              +/- 1.0 degC\n", ""))) <= 727
