"""What a record is compared by, on a few readings worked by hand: arithmetic, no source. What is
drawn and told of a comparison is kept word for word."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

import numpy as np
import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.paper.packet.frame import Frame
from hts.paper.packet.pages import Pages
from hts.paper.sheet import A4
from hts.record.expected import comparison, plot, words
from hts.record.expected.comparison import BoreEstimate, Comparison, Trace
from hts.record.expected.json_form import predicted
from hts.record.plan import plan
from hts.record.record import READ, Record, Series
from tests import told
from tests.paper.drawings.test_told import strokes, written
from tests.texts import spec_of

NAN = float("nan")
KEPT = Path(__file__).with_name("told") / "comparison.txt"


def _trace(recorded: list[float], expected: list[float], hold: list[bool]) -> tuple[Any, ...]:
    found = comparison._trace("T3", False, np.array(recorded), np.array(expected), np.array(hold))
    return found.mean, found.in_hold, found.worst


def test_residuals() -> None:
    """Recorded less predicted: 1, none, -5 and 1; the last three instants are of the hold."""
    hold = [False, True, True, True]
    assert _trace([1, NAN, 1, 7], [0, 0, 6, 6], hold) == (-1.0, -2.0, -5.0)
    assert _trace([1, NAN, 1, 7], [0, 0, 6, 6], [True, True, False, False]) == (-1.0, 1.0, -5.0)
    assert _trace([1, NAN, 1, 7], [0, 0, 6, 6], [False] * 4) == (-1.0, None, -5.0)
    assert _trace([NAN] * 4, [0] * 4, hold) == (None, None, None)
    assert comparison._square([np.array([3.0, NAN]), np.array([4.0])]) == 12.5
    assert np.isnan(comparison._square([])) and np.isnan(comparison._square([np.array([NAN])]))


def test_the_bore_that_fits_best() -> None:
    """Roots of the squares at 0.35, 0.6, 1, 1.7 and 2.8 of 4 W/m2K, straight in between over the
    logarithm: least at 1.7; a tenth more at 1.7 exp(-0.1 ln 1.7) and 1.7 exp(0.1 ln(2.8/1.7))."""
    setting: Any = Stub(bore=Stub(mean=4.0))

    def bore(*roots: float) -> BoreEstimate:
        found = comparison._bore(setting, [root**2 for root in roots])
        assert found is not None
        return found

    # The figures are read off 121 steps of 1.7 %.
    found = bore(5, 3, 2, 1, 2)
    assert found.stated == 4.0 and found.told
    assert found[1:4] == pytest.approx((6.8, 6.449, 7.148), rel=0.018)
    # The best is the least convection tried; 1 K between best and worst is enough.
    found = bore(1, 2, 2, 2, 2)
    assert found.best == found.low == pytest.approx(1.4) and found.told
    assert found.high == pytest.approx(1.4 * np.exp(0.1 * np.log(0.6 / 0.35)), rel=0.018)
    assert not bore(1, 1.9, 1.9, 1.9, 1.9).told
    flat = bore(1, 1, 1, 1, 1)
    assert (flat.low, flat.high, flat.told) == (pytest.approx(1.4), pytest.approx(11.2), False)
    assert comparison._bore(setting, [1.0, NAN, 1.0, 1.0, 1.0]) is None


COUPLES = tuple(
    Stub(tag=tag, z=z, degrees=degrees, inside=inside)
    for tag, z, degrees, inside in (
        ("T1", 0.0, 0.0, False), ("T2", -0.1, 90.0, False), ("T3", 0.1, 180.0, True),
        ("T4", 0.3, 270.0, False),
    )
)  # fmt: skip


@pytest.mark.parametrize(
    ("mirrored", "profile"),
    # Along the pipe 50 at 0, 100 at -0.1, 200 at 0.1; both ends of two that are alike lie on one.
    [(True, [150.0, 50.0, 100.0, 150.0, 150.0]), (False, [100.0, 50.0, 125.0, 200.0, 200.0])],
)
def test_the_pipe_begins_as_it_is_read(mirrored: bool, profile: list[float]) -> None:
    celsius = np.full((2, 5, 3), 0.0)
    start: list[float] = []

    class Uniform:
        celsius = np.zeros((2, 5, 3))

        def _replace(self, celsius: np.ndarray) -> Any:
            return Stub(celsius=celsius)

    def begun(at: float) -> Uniform:
        start.append(at)
        return Uniform()

    z = np.array([0.4 if mirrored else -0.4, 0.0, 0.05, 0.1, 0.4])
    model: Any = Stub(mesh=Stub(mirrored=mirrored, z=z), start=begun)
    first = {"T1": 50.0, "T2": 100.0, "T3": 200.0}
    setting: Any = Stub(couples=COUPLES)
    found = comparison._begin(setting, model, first)
    assert start == [0.0]
    assert found.celsius == pytest.approx(celsius + np.array(profile)[None, :, None])


def test_what_the_model_is_driven_by(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: dict[str, Any] = {}

    def run(begin: object, times: list[float], **more: Any) -> Any:
        asked.update(more, begin=begin, times=times)
        return Stub(watched="watched")

    def model(vary: Any) -> Any:
        asked["air"] = vary.air
        return Stub(run=run)

    monkeypatch.setattr(comparison, "_begin", lambda *_: "begun")
    setting: Any = Stub(couples=COUPLES, bore=Stub(mean=4.0))
    seconds, tracks = np.array([0.0, 300.0, 600.0]), np.array([[0.0, 100.0, 300.0], [20.0] * 3])
    builder: Any = Stub(model=model)
    assert comparison._predicted(setting, builder, seconds, tracks, {}, 1.7) == "watched"
    assert asked.pop("targets")(450.0) == [200.0, 20.0]
    assert asked == {
        "air": pytest.approx(6.8), "begin": "begun", "times": [0.0, 300.0, 600.0], "step": 300.0,
        "watch": [(0.0, 0.0, 0.0), (90.0, -0.1, 0.0), (180.0, 0.1, 1.0), (270.0, 0.3, 0.0)],
    }  # fmt: skip


@pytest.fixture(scope="module")
def job() -> Job:
    return compile_spec(spec_of(BUTT))


def _record(end: float, every: float, **columns: float | list[float]) -> Record:
    """Columns of one reading throughout, or of as many as there are rows."""
    seconds = np.arange(0.0, end + 1.0, every)
    series = {
        tag: Series(tag, np.ones(len(seconds)) * values, np.full(len(seconds), READ, np.uint8),
                    tag, "degC")
        for tag, values in columns.items()
    }  # fmt: skip
    return Record(seconds, None, series, {}, (), (), every, (), (), True)


def test_which_thermocouples_tell_of_the_bore(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """T1 and T2 drive the model. T3 and T4 are read, and so is T5, T6 is not; each differs from
    what is predicted by 10 K at the least convection and 2 K less with each more."""
    factors: list[float] = []

    def expected(setting: Any, _: Any, seconds: Any, tracks: Any, first: Any, f: float) -> Any:
        factors.append(f)
        assert first == {"T1": 20.0, "T2": 30.0, "T3": 95.0, "T4": 95.0, "T5": 95.0}
        assert tracks[1].tolist() == [30.0] + [710.0] * (len(seconds) - 1)
        assert not any(zone.power for zone in setting.zones)
        return np.full((len(seconds), len(setting.couples)), 105.0 - 2 * len(factors))

    monkeypatch.setattr(comparison, "_predicted", expected)
    rows = 7200 // 60
    warm = [20.0, *[705.0] * rows]
    record = _record(7200, 60, T1=warm, T2=[30.0, *[710.0] * rows], T3=95.0, T4=95.0, T5=95.0)
    found = comparison.compared(plan(job, "W12", "stress-relief"), record, always=True)
    assert isinstance(found, Comparison)
    assert factors == [0.35, 0.6, 1.0, 1.7, 2.8]
    # Every 300 s of two hours, from the first row to the last.
    assert len(found.seconds) == 24 and found.seconds[-1] == 7200.0
    assert [trace.tag for trace in found.traces] == ["T1", "T2", "T3", "T4", "T5"]
    assert [trace.controls for trace in found.traces] == [True, True, False, False, False]
    # With the convection as stated 99 degC is predicted.
    assert found.traces[2][4:] == (-4.0, -4.0, -4.0)
    assert (
        found.bore is not None and found.bore.best == pytest.approx(4.0 * 2.8) and found.bore.told
    )
    assert not [line for line in found.notes if "when it begins" in line or "a rate" in line]


@pytest.mark.parametrize(
    ("end", "every", "steps"),
    [(600, 60, 10), (3300, 60, 11), (60_000, 60, 200), (432_000, 3600, 200)],
)
def test_steps_of_the_run(
    end: int, every: int, steps: int, job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every 300 s, ten at least and two hundred at most, up to five days."""
    monkeypatch.setattr(comparison, "_predicted", lambda s, b, t, *_: np.zeros((len(t), 6)))
    asked = plan(job, "W12", "stress-relief")
    found = comparison.compared(asked, _record(end, every, T1=20.0, T2=20.0), always=True)
    assert isinstance(found, Comparison)
    assert len(found.seconds) == steps and found.bore is None
    longer = _record(432_000 + every, every, T1=20.0, T2=20.0)
    assert comparison.compared(asked, longer, always=True) == "the record is longer than five days"
    gone = _record(end, every, T1=20.0, T2=NAN)
    assert "zone bottom was recorded" in str(comparison.compared(asked, gone, always=True))


def test_the_row_that_is_read() -> None:
    record = _record(120, 60, T1=[1.0, 2.0, 3.0])
    times = np.array([0.0, 30.0, 60.0, 61.0, 500.0])
    found = comparison._at(record, "T1", times)
    assert found is not None and found.tolist() == [1.0, 2.0, 2.0, 3.0, 3.0]
    assert comparison._at(record, "T9", times) is None


def _made() -> Iterator[tuple[str, Comparison]]:
    seconds = np.linspace(0.0, 36_000.0, 11)
    way = np.array([20, 200, 400, 600, 700, 710, 705, 500, 300, 100, 50], float)
    holes = np.where(np.isin(np.arange(11), (0, 4, 5, 10)), NAN, way)
    nothing = np.full(11, NAN)
    bore = BoreEstimate(4.04, 12.26, 8.44, 17.96, True)
    traces = (
        Trace("T1", True, way, way, 0.0, 0.0, 0.4),
        Trace("T-LONG-NAME-OF-18-L", False, way - 12.34, way, -12.34, -11.5, -14.96),
        Trace("T3", False, holes + 3.0, way, 3.04, None, 3.5),
        Trace("T4", False, nothing, way, None, None, None),
        *(Trace(f"M{n}", False, way + n, way, n, n + 0.5, n + 1.0) for n in range(5)),
    )
    notes = ("the model is driven", "it begins", "insulation taken 50 mm thick: " + "long " * 30)
    yield "much", Comparison(seconds, traces, bore, notes)
    untold = bore._replace(told=False)
    yield "nothing of the bore", Comparison(seconds, traces[:3], untold, notes[:1])
    yield "nothing read", Comparison(seconds, (traces[3],), None, ())


def test_what_is_drawn_and_told(job: Job) -> None:
    shown = {}
    for name, made in _made():
        svg = ET.fromstring(plot.picture(made, job.document, "W12", (240.0, 150.0)))
        page = Pages(Frame(A4))
        plot.pages(page, made, job.document, "W12")
        lines = [words.write(made), f"drawn {told.digest([*written(svg), *strokes(svg)])}"]
        lines.append(f"pages {told.digest(told.leaves(page.parts, frozenset(('svg',))))}")
        lines.append(f"data {told.digest(told.leaves(predicted(made)))}")
        shown[name] = "\n".join(lines)
    shown["none"] = words.write("why\x1b[31m")
    told.each_once(KEPT, shown)
