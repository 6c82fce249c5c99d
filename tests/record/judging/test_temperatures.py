"""Temperatures, spreads and what lies nearby: hand-worked cases."""

from __future__ import annotations

import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, judge
from tests.record.judging.made import (
    GOOD,
    MINUTE,
    Points,
    course,
    every,
    file_plan,
    record,
    run,
    spec_plan,
    verdict,
)


def bump(minutes: float, to: float) -> Points:
    """GOOD with a plateau of so many minutes above, reached within a second."""
    return (*GOOD[:3], (300.0, 705.0), (300.01, to), (300.01 + minutes, to),
            (300.02 + minutes, 705.0), *GOOD[3:])  # fmt: skip


@pytest.mark.parametrize(("minutes", "outcome"), [(9.0, MET), (11.0, NOT_MET)])
def test_excursions_against_their_allowance(minutes: float, outcome: str) -> None:
    # Practice: the time out of range is added up and held against an allowance.
    plan = spec_plan("excursion at most 10 min in total")
    judgement = run(plan, {"T2": bump(minutes, 730.0)}, seconds=1.0)
    found = verdict(judgement, "time outside the hold range")
    assert found.verdict == outcome
    assert verdict(judgement, "highest temperature").verdict == outcome
    if outcome == NOT_MET:
        assert (
            "T2 was up to 730.0 degC, the top of the range is 720 degC"
            in found.failures[0].sentence
        )
        assert found.failures[0].start == pytest.approx(300 * MINUTE, abs=2)


def test_two_short_excursions_add_up_but_each_is_short() -> None:
    twice = (*bump(6.0, 730.0)[:7], (340.0, 705.0), (340.01, 730.0), (346.01, 730.0),
             (346.02, 705.0), *GOOD[3:])  # fmt: skip
    total = spec_plan("excursion at most 10 min in total")
    assert verdict(run(total, {"T2": twice}, seconds=1.0), "time outside the hold range").verdict \
        == NOT_MET  # fmt: skip
    each = spec_plan("excursion at most 10 min each")
    assert verdict(run(each, {"T2": twice}, seconds=1.0), "time outside the hold range").verdict \
        == MET  # fmt: skip


def test_without_an_allowance_nothing_above_the_range_is_tolerated() -> None:
    found = verdict(run(spec_plan(), {"T2": bump(1.0, 721.0)}, seconds=1.0), "highest temperature")
    assert found.verdict == NOT_MET
    assert found.failures[0].tags == ("T2",)


def test_hot_before_the_hold_counts_is_hot_all_the_same() -> None:
    early = (*GOOD[:2], (240.0, 725.0), (250.0, 725.0), (260.0, 705.0), *GOOD[3:])
    assert verdict(run(spec_plan(), {"T1": early}), "highest temperature").verdict == NOT_MET


def test_the_margin_below_the_lower_critical_temperature() -> None:
    # 805 degC stated; 30 K kept from it leaves 775 degC.
    plan = spec_plan("margin below lower critical 30 K\nexcursion at most 10 min in total")
    name = "margin below lower critical temperature"
    assert verdict(run(plan, {"T2": bump(2.0, 775.0)}, seconds=1.0), name).verdict == MET
    found = verdict(run(plan, {"T2": bump(2.0, 776.0)}, seconds=1.0), name)
    assert found.verdict == NOT_MET
    assert found.specified == "at most 775 degC, 30 K below 805 degC"


def lower(kelvin: float) -> Points:
    return tuple((minutes, degrees - kelvin) for minutes, degrees in GOOD)


def test_spread_only_within_the_stated_distance() -> None:
    # T1 and T3 are 50 mm apart at 12:00; T2 is half round a pipe of 323.8 mm: 509 mm by arc.
    plan = spec_plan("heating spread at most 20 K within 400 mm")
    name = "spread while heating and cooling"
    assert verdict(run(plan, {"T2": lower(25.0)}), name).verdict == MET
    found = verdict(run(plan, {"T3": lower(25.0)}), name)
    assert found.verdict == NOT_MET
    assert set(found.failures[0].tags) == {"T1", "T3"}
    wide = spec_plan("heating spread at most 20 K within 520 mm")
    assert verdict(run(wide, {"T2": lower(25.0)}), name).verdict == NOT_MET


def test_the_example_header_counts_pairs_within_a_metre() -> None:
    # NPS 24: T1 (12:00) to T3 (6:00) is half of pi x 610 mm = 958 mm and counts within 1 m; T5 at
    # 12:00, 62 mm upstream, to T8 at 6:00, 62 mm downstream, is 966 mm.
    from hts.job.demands.watched import apart, pairs_within

    plan = file_plan("p22-header.hts")
    tags = plan.by_tag
    assert apart(tags["T1"], tags["T3"]) == pytest.approx(958.2, abs=0.1)
    assert apart(tags["T5"], tags["T8"]) == pytest.approx((958.2**2 + 124**2) ** 0.5, abs=0.5)
    assert len(pairs_within(plan.required, 1000.0)) == 28
    assert len(pairs_within(plan.required, 500.0)) < 28


def test_the_spread_of_the_hold_is_judged_while_it_is_held() -> None:
    plan = spec_plan("holding spread at most 10 K")
    name = "spread during the hold"
    assert verdict(run(plan, {"T2": lower(10.0)}), name).verdict == MET
    found = verdict(run(plan, {"T2": lower(10.5)}), name)
    assert found.verdict == NOT_MET
    assert found.actual.startswith("10.5 K (T1 to T2)") or "T3 to T2" in found.actual


def test_spread_per_zone_is_told() -> None:
    plan = spec_plan("holding spread at most 30 K")
    found = verdict(run(plan, {"T3": lower(4.0), "T2": lower(12.0)}), "spread during the hold")
    assert "12.0 K" in found.actual and "zone top 4.0 K" in found.actual


def test_what_is_nearby_has_a_limit_of_its_own() -> None:
    # The example header: a tapping that may reach 450 degC, watched by T12.
    plan = file_plan("p22-header.hts")
    name = "temperature of instrument tapping, NPS 1 (T12)"
    cool = ((0.0, 20.0), (640.0, 440.0))
    hot = ((0.0, 20.0), (300.0, 455.0), (640.0, 20.0))
    assert verdict(run(plan, {"T12": cool}), name).verdict == MET
    found = verdict(run(plan, {"T12": hot}), name)
    assert found.verdict == NOT_MET and found.failures[0].tags == ("T12",)
    times = every(60.0, 640.0)
    courses = {one.tag: course(GOOD, times) for one in plan.watched if one.tag != "T12"}
    assert verdict(judge(record(courses, times), plan), name).verdict == NOT_SHOWN


def test_the_monitor_of_a_nearby_item_is_found_by_its_place() -> None:
    plan = file_plan("carbon-steel-butt.hts")
    points = ((0.0, 250.0), (200.0, 625.0), (400.0, 625.0), (600.0, 280.0))
    judgement = run(plan, {"T7": ((0.0, 20.0), (600.0, 150.0))}, points=points)
    assert verdict(judgement, "temperature of suction gate valve, seat (T7)").verdict == MET


def test_the_edge_of_the_heated_band_is_told_and_decides_nothing() -> None:
    # AWS D10.10 (from memory): at least half of the temperature at the edge of the soak band.
    half = tuple((minutes, degrees * 0.45) for minutes, degrees in GOOD)
    judgement = run(spec_plan(), {"T4": half})
    assert judgement.overall == MET
    (found,) = [one for one in judgement.noted if "heated band" in one.name]
    assert "45% of the lowest required" in found.sentence and "(T4)" in found.sentence
    assert found.source is not None and found.source.basis == "memory"


def test_mean_of_highest_and_lowest_is_the_holding_temperature() -> None:
    # US Navy S9074-AR-GIB-010/278 (1995): the temperature of the hold is the mean of the highest
    # and the lowest thermocouple, and all of them are in the range.
    plan = spec_plan("", ("local-heating", "us-navy-s9074 edition 1995, local-heating"))
    judgement = run(plan, {"T2": lower(12.0), "T3": lower(4.0)})
    found = verdict(judgement, "holding temperature")
    assert found.verdict == MET
    assert found.actual.startswith("699.0 degC")  # (705 + 693) / 2
    assert found.source is not None and found.source.source == "us-navy-s9074"
    cold = verdict(run(plan, {"T2": lower(20.0)}), "holding temperature")
    assert cold.verdict == NOT_SHOWN  # never all in range: no hold to take the mean of


def test_a_spare_stands_in_from_the_event_on() -> None:
    from hts.record.record import REPLACED, Event

    plan = spec_plan("on thermocouple loss change to the spare")
    broken = (*GOOD[:2], (200.0, 600.0), (200.1, 20.0), (640.0, 20.0))
    without = run(plan, {"T1": broken})
    assert verdict(without, "hold time").verdict == NOT_MET
    judgement = run(plan, {"T1": broken}, events=[Event(REPLACED, 200 * MINUTE, "T1", "T1S")])
    assert verdict(judgement, "hold time").verdict == MET
    assert verdict(judgement, "thermocouple loss").verdict == MET
    wrong = run(plan, {"T1": broken}, events=[Event(REPLACED, 200 * MINUTE, "T1", "T4")])
    assert verdict(wrong, "thermocouple loss").verdict == NOT_MET


def test_before_the_event_the_spare_counts_for_nothing() -> None:
    from hts.record.record import REPLACED, Event

    plan = spec_plan("on thermocouple loss change to the spare")
    broken = (*GOOD[:2], (200.0, 600.0), (200.1, 20.0), (640.0, 20.0))
    # The spare lay in the open, too hot for the start of the record, until it was connected.
    spare = ((0.0, 500.0), (199.9, 500.0), (200.0, 599.3), *GOOD[2:])
    events = [Event(REPLACED, 200 * MINUTE, "T1", "T1S")]
    judgement = run(plan, {"T1": broken, "T1S": spare}, events=events)
    assert verdict(judgement, "start of the record").verdict == MET
    assert verdict(judgement, "hold time").verdict == MET
    assert verdict(judgement, "heating rate").verdict == MET


def test_from_one_wire_to_its_spare_is_no_rate() -> None:
    """One that reads 40 K low to its end, and the spare beside it from then on."""
    from hts.record.record import REPLACED, Event

    plan = spec_plan("on thermocouple loss change to the spare")
    low = tuple((minute, value - 40.0 * (value > 300)) for minute, value in GOOD)
    events = [Event(REPLACED, 200 * MINUTE, "T1", "T1S")]
    judgement = run(plan, {"T1": low}, events=events)
    assert verdict(judgement, "heating rate").verdict == MET
    # What the spare itself shows is one, right before it took over as well.
    fast = (*GOOD[:2], (180.0, 480.0), (200.0, 599.3), *GOOD[2:])
    judgement = run(plan, {"T1": low, "T1S": fast}, events=events)
    assert verdict(judgement, "heating rate").verdict == NOT_MET
