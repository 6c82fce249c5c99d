"""Chains that read wrong, made of simulated runs by what each fault does to a reading: the fault
is named, the thermocouple is the right one, no healthy one is blamed, and nothing is met.

What a wiring fault does follows from the reference functions (IEC 60584-1); the rest is common
practice, without a source."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

import numpy as np
import pytest

from hts.record import faults
from hts.record.judging import MET, judge
from hts.record.plan import Plan
from hts.record.reading import Options, read
from hts.record.record import Record
from hts.record.simulation import Ask, simulate
from hts.science.thermocouples.faults import extension_reversed, wrong_input
from tests.record.judging.made import file_plan

SEEDS = (5, 6)


@lru_cache(maxsize=8)
def clean(seed: int, tmp: str) -> Record:
    from datetime import datetime
    from pathlib import Path

    path = Path(tmp) / f"{seed}.csv"
    path.write_text(simulate(header(), Ask(seed, 60.0, datetime(2026, 11, 20, 6))))
    return read([str(path)], header().run.tags, Options())


def header() -> Plan:
    return file_plan("p22-header.hts")


Change = Callable[[np.ndarray, np.ndarray, np.random.Generator], np.ndarray]


def mapped(reading: Callable[[float], float]) -> Change:
    return lambda times, values, random: np.array([reading(one) for one in values])


def after(share: float, constant: float = 0.0) -> Change:
    def change(times: np.ndarray, values: np.ndarray, random: np.random.Generator) -> np.ndarray:
        since = times[len(times) // 3]
        passed = np.maximum(times - since, 0.0)
        part = 1 - np.exp(-passed / constant) if constant else (passed > 0)
        return values + (share - 1) * (values - 20) * part

    return change


def drift(times: np.ndarray, values: np.ndarray, random: np.random.Generator) -> np.ndarray:
    return values * (1 - 0.03 * np.maximum(times - times[len(times) // 4], 0) / 3600)


def heater(times: np.ndarray, values: np.ndarray, random: np.random.Generator) -> np.ndarray:
    smooth = np.convolve(np.pad(values, 7, "edge"), np.ones(15) / 15, "valid")
    power = np.maximum(np.gradient(smooth, times) + (values - 20) / 25000, 0)
    return values + 60 * power / power.max()


CASES: dict[str, tuple[str, Change]] = {
    "type N set": ("wrong-type", mapped(lambda t: wrong_input("K", "N", t, 25.0))),
    "type J set": ("wrong-type", mapped(lambda t: wrong_input("K", "J", t, 25.0))),
    "wire N on K": ("wrong-type", mapped(lambda t: wrong_input("N", "K", t, 25.0))),
    "wire J on K": ("wrong-type", mapped(lambda t: wrong_input("J", "K", t, 25.0))),
    "degF": ("wrong-unit", lambda times, values, random: values * 1.8 + 32),
    "a tenth": ("wrong-scale", lambda times, values, random: values / 10),
    "step": ("offset", lambda times, values, random: values + 25.0 * (times > 15000)),
    "small step": ("offset", lambda times, values, random: values - 12 * (times > 15000)),
    "drift": ("drift", drift),
    "pick-up": (
        "mains-pick-up",
        lambda times, values, random: (
            values + 12 * np.sin(random.uniform(0, 6.28, len(times))) * (values > 300)
        ),
    ),
    "near a heater": ("near-heater", heater),
    "detached": ("detached", after(0.75, 300.0)),
    "shorted": ("shorted", after(0.35)),
    "extension reversed": (
        "extension-reversed",
        mapped(lambda t: extension_reversed("K", t, 25 + max(0.0, t - 20) * 0.05, 25.0)),
    ),
}


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("tag", ["T3", "T6"])
def test_it_is_named(name: str, tag: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    kind, change = CASES[name]
    for seed in SEEDS:
        made = clean(seed, str(tmp_path_factory.getbasetemp()))
        old = made.series[tag]
        values = change(made.elapsed, old.values, np.random.default_rng(seed))
        made = made._replace(series={**made.series, tag: old._replace(values=values)})
        found = faults.find(made, header())
        assert {(one.kind, one.tag) for one in found} == {(kind, tag)}
        judgement = judge(faults.apply(made, found), header(), found)
        assert judgement.overall != MET


@pytest.mark.parametrize("name", ["type N set", "type J set", "degF", "a tenth", "degC as degF"])
@pytest.mark.parametrize("tag", ["T2", "T2S"])
def test_a_setting_of_one_of_two_in_a_zone(
    name: str, tag: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Its partner goes with the other zones, and no heater makes metal read as a setting does."""
    kind, change = CASES.get(name, ("wrong-unit", lambda times, values, _: (values - 32) / 1.8))
    made = clean(5, str(tmp_path_factory.getbasetemp()))
    old = made.series[tag]
    values = change(made.elapsed, old.values, np.random.default_rng(5))
    made = made._replace(series={**made.series, tag: old._replace(values=values)})
    found = faults.find(made, header())
    assert {(one.kind, one.tag) for one in found} == {(kind, tag)}
    assert judge(faults.apply(made, found), header(), found).overall != MET


def test_an_error_of_a_spare_alone_in_its_zone_is_as_well_its_partners(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    made = clean(5, str(tmp_path_factory.getbasetemp()))
    old = made.series["T2S"]
    for kind, values in (
        ("disagree", old.values + 40),
        # So reads as well a spare beside a control whose extension is reversed.
        ("extension-reversed", old.values * 1.05),
        ("extension-reversed", after(0.9)(made.elapsed, old.values, np.random.default_rng(5))),
    ):
        wrong = made._replace(series={**made.series, "T2S": old._replace(values=values)})
        (fault,) = faults.find(wrong, header())
        assert (fault.kind, {fault.tag, *fault.others}) == (kind, {"T2", "T2S"})
        assert judge(wrong, header(), (fault,)).overall != MET


@pytest.mark.parametrize("what", ["cold-junction", "wrong-unit", "wrong-type"])
def test_all_channels_at_once(what: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    for seed in SEEDS:
        made = clean(seed, str(tmp_path_factory.getbasetemp()))
        late = made.elapsed > 17000
        change: dict[str, Callable[[np.ndarray], np.ndarray]] = {
            "cold-junction": lambda values, late=late: values + 9.0 * late,
            "wrong-unit": lambda values: values * 1.8 + 32,
            "wrong-type": lambda values: np.array([wrong_input("K", "N", t, 25) for t in values]),
        }
        series = {
            tag: one._replace(values=change[what](one.values)) for tag, one in made.series.items()
        }
        made = made._replace(series=series)
        found = faults.find(made, header())
        assert {(one.kind, one.tag) for one in found} == {(what, "")}
        assert judge(faults.apply(made, found), header(), found).overall != MET


def test_a_zone_that_is_colder_is_no_fault_of_a_chain(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    plan = header()
    made = clean(5, str(tmp_path_factory.getbasetemp()))
    series = dict(made.series)
    for one in plan.watched:
        if one.zone == "bottom" and one.tag in series:
            values = series[one.tag].values
            series[one.tag] = series[one.tag]._replace(values=20 + (values - 20) * 0.94)
    found = faults.find(made._replace(series=series), plan)
    assert found == ()
