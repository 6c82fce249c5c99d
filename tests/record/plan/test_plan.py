"""What a compiled job asks of a run, as numbers."""

from __future__ import annotations

from math import hypot, pi

import pytest

from hts.job.compiler import compile_spec
from hts.job.demands.watched import Watched, apart, pairs_within
from hts.language.model import Spec
from hts.record.errors import RecordError
from hts.record.plan import plan
from tests.record.judging.made import SPECS, file_plan, spec_plan
from tests.texts import examples


def test_the_steps_of_the_example_header() -> None:
    # Read off specs/p22-header.hts by hand.
    asked = file_plan("p22-header.hts")
    heat, ramp, hold, cool, free = asked.spans
    assert (heat.limit, ramp.limit, cool.limit, free.limit) == (None, 120.0, 120.0, None)
    assert (ramp.start, ramp.end) == (300.0, 705.0)
    assert (hold.low, hold.high, hold.least, hold.longest) == (690.0, 720.0, 7200.0, 21600.0)
    assert (asked.control_start, asked.control_end) == (300.0, 300.0)
    assert asked.window.value == 900.0
    assert [one.value for one in asked.heating_spreads] == [100.0, 140.0]
    assert asked.excursion_total is not None and asked.excursion_total.value == 600.0
    assert asked.excursion_each is None and asked.guard is None
    assert asked.counts_all and asked.adds_up


def test_a_limit_in_fahrenheit_keeps_its_exact_value() -> None:
    asked = spec_plan("", ("690 .. 720 degC", "1275 .. 1325 degF"))
    # 1275 degF = 690.55... degC (NIST SP 811: (t - 32) / 1.8).
    assert asked.holds[0].low == pytest.approx((1275 - 32) / 1.8)


def test_who_has_to_be_in_range() -> None:
    assert [one.tag for one in spec_plan().required] == ["T1", "T2", "T3"]
    # In the bake of the P91 example a preheat monitor counts for nothing, in its preheat it does.
    bake, preheat = (file_plan("p91-pipe.hts", name) for name in ("bake", "preheat"))
    assert "T8" not in [one.tag for one in bake.required]
    assert "T8" in [one.tag for one in preheat.required]
    # A heavy section outside the soak band is watched, but not held.
    assert "T8" not in [one.tag for one in file_plan("branch-unequal.hts").required]


def test_a_monitor_lies_in_the_zone_of_its_arc() -> None:
    zones = {one.tag: one.zone for one in file_plan("p22-header.hts").watched}
    assert (zones["T5"], zones["T6"], zones["T12"]) == ("top", "bottom", "right")


def test_distance_along_and_round_the_pipe() -> None:
    tags = spec_plan().by_tag
    # NPS 12: 323.8 mm outside (ASME B36.10M).
    assert apart(tags["T1"], tags["T2"]) == pytest.approx(pi * 323.8 / 2, abs=0.2)
    assert apart(tags["T1"], tags["T3"]) == 50.0
    assert apart(tags["T2"], tags["T3"]) == pytest.approx(hypot(50, pi * 323.8 / 2), abs=0.2)


def test_a_pair_of_unknown_distance_is_compared() -> None:
    known = spec_plan().by_tag["T1"]
    unknown = Watched(**{**known._asdict(), "axial": None})
    assert apart(known, unknown) is None
    assert pairs_within((known, unknown), 10.0) == [(0, 1)]


def test_the_run_asked_for() -> None:
    path = f"{SPECS}/p91-pipe.hts"
    loader = examples()
    job = compile_spec(Spec(loader.read(path), loader))
    # The treatment, rather than the preheat and the bake before it.
    assert plan(job).address == "W33/tempering"
    assert plan(job, "W33", "bake").kind == "bake"
    with pytest.raises(RecordError, match="--joint W33 --cycle tempering"):
        plan(job, "W34")


def test_several_joints_have_to_be_chosen_from() -> None:
    path = f"{SPECS}/turnaround-many.hts"
    loader = examples()
    job = compile_spec(Spec(loader.read(path), loader))
    with pytest.raises(RecordError, match="several runs"):
        plan(job)
