"""Channels changed over, told by spares and edges; a junction near a heater; two at one place."""

import numpy as np
import pytest

from hts.record.faults import apply, find
from hts.record.faults.fault import Fault
from hts.record.judging import MET, judge
from hts.record.record import Floats
from tests.record.faults.runs import AIR, HOLD, late, readings, record, stress_relief, times
from tests.rows import each_row


def with_spares(**options: float) -> dict[str, Floats]:
    """The run with the spare of each control beside it: the same metal, noise of its own."""
    run = readings(**options)  # type: ignore[arg-type]
    random = np.random.default_rng(7)
    for spare, of in (("T1S", "T1"), ("T2S", "T2")):
        run[spare] = np.round(run[of] + random.normal(0.0, 0.3, run[of].size) + 0.4, 1)
    return run


def found(run: dict[str, Floats], interval: float = 30.0) -> list[Fault]:
    return list(find(record(run, interval), stress_relief()))


def exchanged(run: dict[str, Floats], one: str, other: str) -> dict[str, Floats]:
    return {**run, one: run[other], other: run[one]}


def test_a_sound_run_has_none() -> None:
    assert found(with_spares()) == []


@pytest.mark.parametrize("resolution", [0.1, 1.0, 5 / 9])
def test_two_controls_are_told_by_their_spares(resolution: float) -> None:
    run = exchanged(with_spares(resolution=resolution), "T1", "T2")
    (one,) = found(run)
    assert (one.kind, one.tag, one.others) == ("exchanged", "T1", ("T2",))


def test_two_spares_are_told_by_the_rest_of_their_zones() -> None:
    (one,) = found(exchanged(with_spares(), "T1S", "T2S"))
    assert (one.kind, one.tag, one.others) == ("exchanged", "T1S", ("T2S",))


@each_row("pair", [("T1", "T5"), ("T2", "T5"), ("T3", "T6"), ("T4", "T6")])
def test_one_of_the_band_and_one_at_an_edge(pair: tuple[str, str]) -> None:
    """Of the same zone and of the other; with a spare beside it and without."""
    (one,) = found(exchanged(with_spares(), *pair))
    assert (one.kind, one.tag, one.others) == ("exchanged", pair[0], (pair[1],))


def test_a_cold_place_is_no_exchange() -> None:
    """One in the band reads as an edge does, and every edge reads as edges do: not changed over."""
    run = with_spares()
    run["T3"] = AIR + (run["T3"] - AIR) * 0.7
    assert "exchanged" not in {one.kind for one in found(run)}


def test_a_junction_near_a_heater_follows_its_output() -> None:
    """Low by 7 % of the rise, and by 12 K less while the heaters give all they have."""
    run, at = with_spares(), times()
    full = np.interp(at / 3600, [0.3, 0.6, 4.2, 4.4], [0.0, 1.0, 1.0, 0.0])
    run["T3"] = np.round(run["T3"] - 0.07 * (run["T3"] - AIR) + 12.0 * full, 1)
    (one,) = found(run)
    assert (one.kind, one.tag) == ("near-heater", "T3")
    run["T3"] = np.round(readings()["T3"] * 0.93 + 0.07 * AIR, 1)
    (one,) = found(run)
    assert (one.kind, one.tag) == ("extension-reversed", "T3")


def test_a_control_with_its_extension_reversed_is_no_junction_at_a_heater() -> None:
    """Its head is 3 K cooler than the instrument at first, and warms with a time constant of forty
    minutes; the controller holds what it reads, so the metal of its zone is hotter by as much."""
    run = with_spares()
    head = late(times(), AIR + (run["T2"] - AIR) * 0.05, 2400.0)
    low = 2 * (head - (AIR + 3.0))
    for tag in ("T2S", "T4"):
        run[tag] = np.round(run[tag] + low, 1)
    (one,) = [fault for fault in found(run) if fault.tag]
    assert (one.kind, one.tag) == ("extension-reversed", "T2")


def excess(run: dict[str, Floats], tag: str, most: float) -> Floats:
    """K by which a junction at a heater reads high: a share of what the heater is hotter than the
    part, which is what it gives times the resistance between the two. What it gives is what the
    part stores and loses, and nothing while that is less than nothing (derived; loss with a time
    constant of 6 h, common practice)."""
    smooth = np.convolve(np.pad(run[tag], 10, "edge"), np.ones(21) / 21, "valid")
    gives = np.maximum(np.gradient(smooth, times()) + (smooth - AIR) / (6 * 3600), 0.0)
    return most * gives / gives.max()


@pytest.mark.parametrize("most", [30.0, 60.0, 90.0])
def test_a_junction_at_a_heater_reads_high_and_right_without_power(most: float) -> None:
    run = with_spares()
    run["T3"] = np.round(run["T3"] + excess(run, "T3", most), 1)
    (one,) = found(run)
    assert (one.kind, one.tag) == ("near-heater", "T3")
    assert "above those beside it" in one.evidence and "high while heated" in one.evidence


@each_row("resolution", [0.1, 1.0])
@each_row("most", [8.0, 12.0, 20.0])
def test_a_few_kelvin_tell_by_their_course(most: float, resolution: float) -> None:
    """Within what two sound ones may differ by, but with the heat, and right without power: what
    it reads shows nothing."""
    run = with_spares(resolution=resolution)
    high = np.round((run["T3"] + excess(readings(), "T3", most)) / resolution) * resolution
    run["T3"] = high
    faults = found(run)
    assert [(one.kind, one.tag) for one in faults] == [("near-heater", "T3")]
    made = record(run)
    assert judge(apply(made, faults), stress_relief(), tuple(faults)).overall != MET


def test_one_at_a_heater_in_a_cool_place_reads_low_in_the_hold() -> None:
    """Below those of its zone in the hold and above them at the most heat."""
    run = with_spares()
    cool = run["T3"] - 0.012 * (run["T3"] - AIR)
    run["T3"] = np.round(cool + excess(readings(), "T3", 9.0), 1)
    assert [(one.kind, one.tag) for one in found(run)] == [("near-heater", "T3")]


@each_row("share", [-0.02, 0.02])
@each_row("ahead", [-240.0, 0.0, 120.0, 240.0])
def test_a_place_that_is_warmer_or_quicker_is_not_near_a_heater(share: float, ahead: float) -> None:
    run, at = with_spares(), times()
    course = np.interp(at + ahead, at, run["T3"])
    run["T3"] = np.round(course + share * (course - AIR), 1)
    assert "near-heater" not in {one.kind for one in found(run)}


def test_metal_that_is_warm_under_a_heater_is_not() -> None:
    """The same excess, but it comes and goes as 70 mm of steel do: the place is that warm."""
    run = with_spares()
    run["T3"] = np.round(run["T3"] + late(times(), excess(readings(), "T3", 20.0), 900.0), 1)
    assert "near-heater" not in {one.kind for one in found(run)}


@pytest.mark.parametrize("most", [30.0, 60.0, 90.0])
def test_a_control_at_a_heater_leaves_its_zone_cold(most: float) -> None:
    """The controller holds what it reads, so the metal of its zone is colder by the excess: all
    others of the zone read that, and nothing is met."""
    run = with_spares()
    high = excess(run, "T1", most)
    for tag in ("T1S", "T3"):
        run[tag] = np.round(run[tag] - high, 1)
    faults = found(run)
    assert {"T1"} <= {tag for one in faults for tag in (one.tag, *one.others)}
    made = record(run)
    assert judge(apply(made, faults), stress_relief(), tuple(faults)).overall != MET


# A required one that reads low by the same share throughout may have a reversed extension.
@pytest.mark.parametrize(("tag", "off"), [("T1S", -30.0), ("T1S", 30.0), ("T1", 30.0)])
def test_of_two_at_one_place_neither_is_named_without_need(tag: str, off: float) -> None:
    """30 K off at the hold and late by some minutes: that is no drift, and either may be right."""
    run = with_spares()
    late = np.interp(times() - 500.0, times(), run[tag])
    run[tag] = np.round(late + off * (late - AIR) / (HOLD - AIR), 1)
    assert [one.kind for one in found(run)] == ["disagree"]


def test_a_drift_is_named_though_there_is_a_spare() -> None:
    run, at = with_spares(), times()
    run["T1"] = np.round(run["T1"] * (1 - 0.03 * np.maximum(at - 7200, 0) / 3600), 1)
    assert ("drift", "T1") in {(one.kind, one.tag) for one in found(run)}


def test_a_reading_over_a_gap_is_not_stuck() -> None:
    """Whole degrees, an hour without rows: what was read in it nobody knows."""
    run = with_spares(resolution=1.0, noise=0.05)
    at = times()
    kept = (at < 3 * 3600) | (at > 4 * 3600)
    cut = {tag: values[kept] for tag, values in run.items()}
    edge = np.searchsorted(at[kept], 3 * 3600)
    cut["T5"][edge - 4 : edge + 4] = cut["T5"][edge]
    told = find(record(cut, elapsed=at[kept]), stress_relief())
    assert "stuck" not in {one.kind for one in told}
