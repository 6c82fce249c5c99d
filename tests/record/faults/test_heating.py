"""Heaters that fail while the run goes on. What a zone without heat does is Newton's law of cooling
(time constants of lagged pipe: common practice, no source)."""

import numpy as np
import pytest

from hts.record.faults import apply, find
from hts.record.faults.fault import Fault
from hts.record.judging import MET, NOT_SHOWN, Verdict, judge
from hts.record.record import HEATER_BACK, HEATER_LOST, POWER_BACK, POWER_LOST, Event, Floats
from tests.record.faults.runs import AIR, readings, record, stress_relief, times
from tests.rows import each_row

ZONE = {"top": ("T1", "T1S", "T3"), "bottom": ("T2", "T2S", "T4")}


def run_of() -> dict[str, Floats]:
    run = readings()
    random = np.random.default_rng(7)
    for spare, of in (("T1S", "T1"), ("T2S", "T2")):
        run[spare] = np.round(run[of] + random.normal(0.0, 0.3, run[of].size) + 0.4, 1)
    return run


def without_heat(
    run: dict[str, Floats], tags: tuple[str, ...], begins: float, ends: float, constant: float
) -> dict[str, Floats]:
    """From `begins` to `ends` h these lose what is above the air with a time constant in h; then
    heat is back, and they come up to the others by 120 K/h."""
    at = times() / 3600
    made = dict(run)
    for tag in tags:
        start = float(np.interp(begins, at, run[tag]))
        cold = AIR + (start - AIR) * np.exp(-(at - begins) / constant)
        lowest = float(np.interp(ends, at, cold))
        again = lowest + 120 * (at - ends)
        lost = np.where(at < ends, cold, again)
        noise = run[tag] - np.convolve(np.pad(run[tag], 5, "edge"), np.ones(11) / 11, "valid")
        made[tag] = np.round(np.where(at < begins, run[tag], np.minimum(run[tag], lost + noise)), 1)
    return made


def lost(run: dict[str, Floats], until: float = 99.0) -> list[Fault]:
    kept = times() <= until * 3600
    cut = {tag: values[kept] for tag, values in run.items()}
    made = record(cut, elapsed=times()[kept])
    return [one for one in find(made, stress_relief()) if one.kind == "heater-loss"]


@each_row("zone", ["top", "bottom"])
@each_row("constant", [5.0, 9.0, 14.0])
@each_row("begins", [2.0, 4.6])
def test_a_zone_that_loses_its_heat_is_named(zone: str, constant: float, begins: float) -> None:
    """While heating and in the hold; the hold ends at 6.5 h, and it never has its heat back."""
    run = without_heat(run_of(), ZONE[zone], begins, 99.0, constant)
    (one,) = lost(run)
    assert one.whose == f"zone {zone}" and one.confidence == "high" and not one.over
    assert abs(one.start - begins * 3600) < 900
    assert "adjust neighbouring heaters" in one.evidence
    made = record(run)
    faults = find(made, stress_relief())
    assert {fault.kind for fault in faults} == {"heater-loss"}  # and no chain is blamed for it
    assert judge(apply(made, faults), stress_relief(), faults).overall != MET


def test_it_is_told_while_it_goes_on_and_when_heat_is_back() -> None:
    run = without_heat(run_of(), ZONE["bottom"], 4.6, 5.4, 7.0)
    assert lost(run, until=4.6 + 0.1) == []
    (now,) = lost(run, until=4.6 + 0.35)
    assert (now.zone, now.confidence) == ("bottom", "medium")
    (after,) = lost(run)
    assert after.over and after.end == pytest.approx(5.8 * 3600, abs=900)


def test_what_is_no_lost_heater() -> None:
    sound = run_of()
    assert lost(sound) == []
    # All of the part cools: the power was off.
    tags = (*ZONE["top"], *ZONE["bottom"])
    assert lost(without_heat(sound, tags, 4.6, 5.8, 7.0)) == []
    # One alone has come off.
    assert lost(without_heat(sound, ("T2",), 4.6, 99.0, 7.0)) == []
    # Back within ten minutes.
    assert lost(without_heat(sound, ZONE["top"], 4.8, 4.97, 7.0)) == []
    # A zone that overshot comes down to the others.
    over, at = dict(sound), times() / 3600
    for tag in ZONE["top"]:
        over[tag] = over[tag] + np.interp(at, [3.8, 4.2, 4.6], [0.0, 16.0, 0.0])
    assert lost(over) == []


def test_one_heater_of_several() -> None:
    """The zone falls by 40 K and stands there, on what is left."""
    run, at = run_of(), times() / 3600
    for tag in ZONE["top"]:
        less = 40 * (1 - np.exp(-np.maximum(at - 4.5, 0.0) / 0.4))
        run[tag] = np.round(run[tag] - less, 1)
    (one,) = lost(run)
    assert one.confidence == "medium" and "then no more" in one.evidence


def verdict(run: dict[str, Floats], *events: Event) -> Verdict | None:
    made = record(run)._replace(events=events)
    faults = find(made, stress_relief())
    judgement = judge(apply(made, faults), stress_relief(), faults)
    return next((one for one in judgement.verdicts if one.requirement == "heater loss"), None)


def test_the_rule_of_the_sheet_is_judged() -> None:
    """Its heaters are to be adjusted: shown where the zone has its heat again."""
    sound = run_of()
    never = without_heat(sound, ZONE["top"], 4.6, 99.0, 7.0)
    back = without_heat(sound, ZONE["top"], 4.6, 5.6, 7.0)
    noted = Event(HEATER_LOST, 4.7 * 3600, zone="top")
    mended = Event(HEATER_BACK, 5.6 * 3600, zone="top")
    assert verdict(sound) is None
    told = verdict(never)
    assert told is not None and told.verdict == NOT_SHOWN
    assert "no event says so" in told.failures[0].sentence
    told = verdict(never, noted)
    assert told is not None and told.verdict == NOT_SHOWN
    assert "did not keep it warm" in told.failures[0].sentence
    told = verdict(back, noted, mended)
    assert told is not None and told.verdict == MET
    assert told.specified == "adjust neighbouring heaters"
    told = verdict(sound, noted._replace(zone="middle"))
    assert told is not None and "no such zone" in told.failures[0].sentence
    cut = (Event(POWER_LOST, 4.6 * 3600), Event(POWER_BACK, 5.6 * 3600))
    told = verdict(back, *cut)
    assert told is None or told.verdict == MET
