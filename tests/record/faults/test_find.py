"""Each fault is found in a run of our own making, and nothing in a sound one.

How a fault shows in a record is common practice, no source, but where a source is named.
"""

from collections.abc import Callable

import numpy as np
import pytest

from hts.record.faults import BY_NAME, KINDS, Fault, apply, find
from hts.record.record import BLANK, LEFT_OUT, READ, TEXT, Floats
from hts.science.thermocouples.faults import extension_reversed, reversed_once
from tests.record.faults.runs import AIR, readings, record, stress_relief, times
from tests.rows import each_row
from tests.sampling import whose_turn

INTERVALS = (1.0, 10.0, 60.0)
#: s from the start: in the ramp, and in the hold.
RAMP, HOLD = 2.5 * 3600, 5.5 * 3600

Change = Callable[[Floats, Floats], Floats]


def faulty(change: Change, tag: str = "T3", interval: float = 30.0, **how: float) -> list[Fault]:
    values = readings(interval, **how)  # type: ignore[arg-type]
    values[tag] = change(times(interval), values[tag])
    return list(find(record(values, interval), stress_relief()))


def only(found: list[Fault], kind: str, tag: str = "T3") -> Fault:
    assert [(one.kind, one.tag) for one in found] == [(kind, tag)], found
    return found[0]


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize(("noise", "resolution"), [(0.0, 0.1), (0.3, 0.1), (0.2, 1.0), (1.0, 0.1)])
def test_a_sound_run_has_none(interval: float, noise: float, resolution: float) -> None:
    for seed in whose_turn(range(3), 3):
        values = readings(interval, noise, resolution, seed)
        assert find(record(values, interval), stress_relief()) == ()
        assert find(record(values, interval)) == ()


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize(
    ("level", "kind"),
    [(1372.0, "open-upscale"), (3276.7, "open-upscale"), (-200.0, "open-downscale"),
     (0.0, "open-downscale")],
)  # fmt: skip
@pytest.mark.parametrize("begins", [RAMP, HOLD])
def test_open_circuits(interval: float, level: float, kind: str, begins: float) -> None:
    found = faulty(lambda at, v: np.where(at >= begins, level, v), interval=interval)
    one = only(found, kind)
    assert one.start == pytest.approx(begins, abs=interval)
    assert one.end == times(interval)[-1]
    assert (one.confidence, one.treatment) == ("high", "left out")


def test_break_detection_that_takes_its_time() -> None:
    def change(at: Floats, v: Floats) -> Floats:
        return np.where(at < RAMP, v, np.minimum(1372.0, v + (at - RAMP) * 40))

    one = only(faulty(change, interval=1.0), "open-upscale")
    assert one.start == pytest.approx(RAMP, abs=2.0)


def test_open_for_a_while_only() -> None:
    def change(at: Floats, v: Floats) -> Floats:
        return np.where((at >= RAMP) & (at < HOLD), 1372.0, v)

    one = only(faulty(change), "open-upscale")
    assert (one.start, one.end) == (RAMP, HOLD - 30.0)


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize("resolution", [0.1, 1.0])
def test_flat(interval: float, resolution: float) -> None:
    def change(at: Floats, v: Floats) -> Floats:
        return np.round((24 + np.sin(at / 9000)) / resolution) * resolution

    one = only(faulty(change, interval=interval, resolution=resolution), "flat")
    assert one.treatment == "left out"
    assert (one.start, one.end) == (0.0, times(interval)[-1])


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize("resolution", [0.1, 1.0])
def test_stuck_in_the_ramp(interval: float, resolution: float) -> None:
    def change(at: Floats, v: Floats) -> Floats:
        row = int(np.searchsorted(at, RAMP))
        return np.where((at >= RAMP) & (at < RAMP + 2400), v[row], v)

    one = only(faulty(change, interval=interval, resolution=resolution), "stuck")
    assert one.start == pytest.approx(RAMP, abs=max(interval, 120))
    assert one.end == pytest.approx(RAMP + 2400, abs=max(interval, 120))


def test_stuck_in_the_hold_where_noise_cannot_stand_still() -> None:
    def change(at: Floats, v: Floats) -> Floats:
        row = int(np.searchsorted(at, HOLD))
        return np.where((at >= HOLD) & (at < HOLD + 3000), v[row], v)

    one = only(faulty(change, interval=10.0), "stuck")
    assert one.confidence == "high" and "then leaps by" in one.evidence
    # Rounded to whole degrees a steady hold stands still of itself.
    assert faulty(lambda at, v: v, interval=10.0, resolution=1.0, noise=0.05) == []


@pytest.mark.parametrize("interval", INTERVALS)
def test_spikes(interval: float) -> None:
    rows = np.linspace(500, 700, 6).astype(int)
    by = np.array([80.0, -95.0, 400.0, 30.0, -60.0, 120.0])

    def change(at: Floats, v: Floats) -> Floats:
        v = v.copy()
        v[rows] += by
        return v

    one = only(faulty(change, interval=interval), "spikes")
    at = times(interval)
    assert [spell.start for spell in one.spells] == at[rows].tolist()
    assert "+400 K" in one.evidence


@pytest.mark.parametrize("interval", INTERVALS)
def test_a_reversed_pair(interval: float) -> None:
    # inv(2 E(25) - E(T)), IEC 60584-1 reference function of type K; off the scale below.
    def reading(celsius: float) -> float:
        try:
            return reversed_once("K", celsius, 25.0)
        except ValueError:
            return -200.0

    grid = np.arange(0.0, 640.0)
    table = np.array([reading(celsius) for celsius in grid])
    one = only(faulty(lambda at, v: np.interp(v, grid, table), interval=interval), "reversed")
    assert one.confidence == "high"


@each_row("interval", INTERVALS)
@each_row("hot", [120.0, 150.0, 180.0])
def test_a_reversed_pair_on_a_part_that_was_hot_from_the_first_row(
    interval: float, hot: float
) -> None:
    # inv(2 E(25) - E(180)) = -170 degC, IEC 60584-1 reference function of type K; the recorder
    # shows nothing below -200 degC, which a part at 195 degC reaches.
    assert reversed_once("K", 180.0, 25.0) == pytest.approx(-170, abs=1)
    grid = np.arange(0.0, 640.0)
    table = np.array([-200.0 if t > 193 else reversed_once("K", t, 25.0) for t in grid])
    values = readings(interval)
    at = times(interval)
    values["T3"] = np.interp(values["T3"], grid, table)
    from_hot = (values["T1"] >= hot) & (at < 8 * 3600)
    run = {tag: course[from_hot] for tag, course in values.items()}
    found = list(find(record(run, elapsed=at[: int(from_hot.sum())]), stress_relief()))
    assert only(found, "reversed").start == 0.0


@pytest.mark.parametrize(("head", "low"), [(60.0, 67), (45.0, 39)])
def test_a_reversed_extension(head: float, low: float) -> None:
    # -2 [E(head) - E(instrument)], IEC 60584-1 reference function of type K; for a head at 60 degC
    # and the instrument at 25 degC 620 degC reads 552.5 degC (derived).
    assert extension_reversed("K", 620.0, 60.0, 25.0) == pytest.approx(552.5, abs=0.1)
    grid = np.arange(0.0, 640.0)
    table = np.array(
        [extension_reversed("K", t, 25 + (head - 25) * max(0, t - AIR) / 590, 25.0) for t in grid]
    )
    found = faulty(lambda at, v: np.interp(v, grid, table), "T1")
    one = only(found, "extension-reversed", "T1")
    assert one.treatment == "kept"  # a cold place would read so, too: it is judged
    said = float(one.evidence.removeprefix("reads ").split(" K below")[0])
    assert said == pytest.approx(low, abs=9)  # the zones differ by up to 9 K


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize("begins", [RAMP, HOLD])
def test_a_shorted_lead(interval: float, begins: float) -> None:
    def change(at: Floats, v: Floats) -> Floats:
        return np.where(at >= begins, AIR + (v - AIR) * 0.4, v)

    one = only(faulty(change, interval=interval), "shorted")
    assert one.start == pytest.approx(begins, abs=interval)
    assert "40%" in one.evidence


def test_a_lead_shorted_from_the_start_is_judged_all_the_same() -> None:
    one = only(faulty(lambda at, v: AIR + (v - AIR) * 0.4), "shorted")
    assert (one.confidence, one.treatment) == ("medium", "kept")


@pytest.mark.parametrize("interval", INTERVALS)
def test_fallen_off(interval: float) -> None:
    def change(at: Floats, v: Floats) -> Floats:
        fall = np.exp(-np.maximum(at - HOLD, 0) / 200)
        return np.where(at >= HOLD, AIR + 2 + (v - AIR) * fall, v)

    one = only(faulty(change, interval=interval), "ambient")
    assert one.start == pytest.approx(HOLD, abs=max(180, 2 * interval))
    assert one.treatment == "left out"


def test_two_channels_exchanged() -> None:
    values = readings()
    values["T1"], values["T2"] = values["T2"], values["T1"]
    (one,) = find(record(values), stress_relief())
    assert one.kind == "exchanged"
    assert {one.tag, *one.others} >= {"T1", "T2"}
    assert one.treatment == "kept"


def test_text_and_blanks() -> None:
    rows = list(range(300, 340))
    values = readings()
    (one,) = find(record(values, texts={"T2": rows}), stress_relief())
    assert (one.kind, one.tag) == ("error-text", "T2")
    assert (one.start, one.end) == (300 * 30.0, 339 * 30.0)
    (one,) = find(record(values, blanks={"T2": [*rows, 400]}), stress_relief())
    assert one.kind == "blank"
    assert len(one.spells) == 2
    assert "41 of 1500 cells" in one.evidence


def test_a_contact_that_comes_and_goes() -> None:
    values = readings()
    for row, wild in ((601, 1241.2), (605, 658.9), (640, 240.1), (641, 900.0)):
        values["T3"][row] = wild
    lost = [600, 602, 603, 604, 606, 639, 642]
    found = find(record(values, texts={"T3": lost}), stress_relief())
    assert {one.kind for one in found} == {"error-text", "intermittent"}
    (one,) = (one for one in found if one.kind == "intermittent")
    wrong = [row for spell in one.spells for row in np.arange(spell.start, spell.end + 1, 30) / 30]
    assert wrong == [601, 605, 640, 641]


@pytest.mark.parametrize("begins", [RAMP, 9 * 3600.0])
def test_a_clock_set_forward(begins: float) -> None:
    at = times()
    values = readings()
    moved = np.where(at >= begins, at + 3600.0, at)
    (one,) = find(record(values, elapsed=moved), stress_relief())
    assert (one.kind, one.tag, one.confidence) == ("clock-jump", "", "high")
    assert "01:00:00" in one.evidence
    # A true gap of an hour is none: the part went on.
    keep = (at < begins) | (at >= begins + 3600)
    left = {tag: course[keep] for tag, course in values.items()}
    assert find(record(left, elapsed=at[keep]), stress_relief()) == ()


def test_an_edge_that_lags_is_no_fault() -> None:
    values = readings()
    values["T5"] = AIR + (np.interp(times() - 5400, times(), values["T1"]) - AIR) * 0.3
    assert find(record(values), stress_relief()) == ()


def test_power_cut_and_insulation_opened_are_no_faults() -> None:
    values = readings()
    at = times()
    cooled = np.exp(-np.clip(at - HOLD, 0, 1800) / 4000)
    values = {tag: AIR + (course - AIR) * cooled for tag, course in values.items()}
    assert find(record(values), stress_relief()) == ()


def test_left_out_readings() -> None:
    values = readings()
    values["T3"][500] += 300
    before = record(values, texts={"T3": [700]}, blanks={"T3": [701]})
    after = apply(before, find(before, stress_relief()))
    series = after.series["T3"]
    assert series.status[[499, 500, 501, 700, 701]].tolist() == [READ, LEFT_OUT, READ, TEXT, BLANK]
    assert np.isnan(series.values[500])
    assert series.as_read[500] == values["T3"][500]
    assert before.series["T3"].values[500] == values["T3"][500]
    assert after.series["T1"] is before.series["T1"]


def test_kinds_are_listed_once() -> None:
    assert len(BY_NAME) == len(KINDS) == 37
    for kind in KINDS:
        assert kind.title and kind.summary and kind.remedy


def test_a_record_that_begins_hot() -> None:
    keep = slice(240, None)  # at about 200 degC
    values = {tag: course[keep] for tag, course in readings().items()}
    at = times()[keep] - times()[240]
    assert find(record(values, elapsed=at), stress_relief()) == ()
    values["T3"] = np.full(at.size, -200.0)
    one = only(list(find(record(values, elapsed=at), stress_relief())), "open-downscale")
    assert "a reversed pair on a hot part reads so too" in one.evidence


@pytest.mark.parametrize("count", [1, 2, 3])
def test_few_thermocouples_and_no_plan(count: int) -> None:
    values = dict(list(readings().items())[:count])
    assert find(record(values)) == ()
    values["T1"] = np.where(times() >= HOLD, 1372.0, values["T1"])
    values["T1"][300] += 200
    found = {one.kind for one in find(record(values))}
    # A level is only known to be too high against others, or a plan.
    assert found == ({"open-upscale", "spikes"} if count > 1 else {"spikes"})


def test_the_dead_one_of_two() -> None:
    values = dict(list(readings().items())[:2])
    values["T1"] = np.full(times().size, 23.4)
    assert only(list(find(record(values))), "flat", "T1")


def test_nothing_but_error_text() -> None:
    values = readings()
    rows = list(range(times().size))
    found = find(record(values, texts=dict.fromkeys(values, rows)), stress_relief())
    assert {one.kind for one in found} == {"error-text"}
    assert len(found) == len(values)


def test_a_clock_set_back_is_told() -> None:
    from hts.record.record import Jump

    one = record(readings())._replace(jumps=(Jump(HOLD, -3600.0),))
    (found,) = find(one, stress_relief())
    assert (found.kind, found.start, found.confidence) == ("clock-jump", HOLD, "high")
    assert "set back by 01:00:00" in found.evidence


def with_spares(values: dict[str, Floats], seed: int = 5) -> dict[str, Floats]:
    """A spare beside each control, with noise of its own."""
    random = np.random.default_rng(seed)
    for tag in ("T1", "T2"):
        values[f"{tag}S"] = np.round(values[tag] + random.normal(0.0, 0.25, values[tag].size), 1)
    return values


def test_spares_tell_which_two_channels_are_exchanged() -> None:
    values = with_spares(readings())
    values["T1"], values["T2"] = values["T2"], values["T1"]
    (one,) = [one for one in find(record(values), stress_relief()) if one.kind == "exchanged"]
    assert {one.tag, *one.others} == {"T1", "T2"}


def test_two_on_unlike_stretches_of_the_pipe_are_not_exchanged() -> None:
    # T3 upstream and T4 downstream: the pipe beyond differs, the spares of T1 and T2 agree.
    values = with_spares(readings())
    values["T3"], values["T4"] = values["T4"], values["T3"]
    assert not [one for one in find(record(values), stress_relief()) if one.kind == "exchanged"]
