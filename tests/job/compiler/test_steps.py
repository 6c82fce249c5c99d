"""Steps that take no time, steps that are one, and what heads the papers, worked by hand."""

from __future__ import annotations

import pytest

from hts.job.compiler.steps import REACHED
from tests.job.compiler.test_program import HOUR, MINUTE, compiled, cycle, told


def test_a_step_that_is_there_already_takes_no_time() -> None:
    made = cycle("""\
  start of control 300 degC
  heat to 315 degC
  heat to 315 degC at most 100 degC/h
  heat to 715 degC at most 200 degC/h
  hold 700 .. 730 degC for 2 h
  cool to 300 degC at most 200 degC/h
""")
    step = made.steps[1]
    assert (told(step), step.note) == (("heat", 315, 315, None), REACHED)
    assert step.times.duration == 0
    assert {*step.times} == {0}
    # The default margin of 10 %: 400 K at 180 K/h are 2 h 13 min 20 s, in whole minutes 2 h 14 min;
    # at the limit 2 h.
    assert made.steps[2].times.finish == 134 * MINUTE
    assert made.steps[2].times.earliest_finish == 2 * HOUR


def test_a_stated_rate_is_one_step_across_the_thresholds_of_rules() -> None:
    """Rules limit the rate above 315 degC; 150 degC/h, kept 10 % below, is looser than none."""
    made = cycle("""\
  start of control 100 degC
  heat to 715 degC at most 150 degC/h
  hold 700 .. 730 degC for 2 h
  cool to 100 degC at most 150 degC/h
""")
    assert [told(step) for step in made.steps] == [
        ("heat", 100, 715, 135), ("hold", 715, 715, None), ("cool", 715, 100, 135),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("status", "printed"), [(" status for construction", "for construction"), ("", "not stated")]
)
def test_what_heads_the_papers(status: str, printed: str) -> None:
    head = compiled((" status for construction", status)).document
    assert (head.number, head.revision, head.dated) == ("HT-0001", "A", "2026-10-02")
    assert head.status == printed
