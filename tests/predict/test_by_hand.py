"""What is read off a field and a course, on a few figures worked by hand; the field itself is held
against exact solutions in `tests/science/field`. Arithmetic where no source is named."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import numpy as np
import pytest

from hts.predict import building, outlook, scatter, widths
from hts.predict.bodies import Body, with_bodies
from hts.predict.building import beyond_band, grid_of
from hts.predict.course import Course, _looked_at
from hts.predict.report import place_words
from hts.predict.setting import Half
from hts.science.field.pipe import Station
from hts.science.field.state import Extreme
from hts.science.field.states import LOG_SPREAD
from tests.predict.test_setting import setting
from tests.rows import each_row

SECONDS = np.arange(6) * 60.0


def course(setpoint: list[float], coldest: list[float], hottest: list[float] | None = None) -> Any:
    """Every minute; the hold from the third instant to the fifth."""
    ends = [[Stub(celsius=t) for t in its] for its in (coldest, hottest or coldest)]
    nothing = np.zeros((6, 1))
    return Course(
        SECONDS, np.array(setpoint), nothing, ends[0], ends[1], nothing, {4: None, 1: None}, 2, 4
    )  # type: ignore[arg-type]


UP, BEHIND = [0.0, 50.0, 100.0, 100.0, 100.0, 100.0], [0.0, 20.0, 60.0, 95.0, 100.0, 100.0]


@each_row(
    ("low", "coldest", "lag"),
    [
        # 90 is passed by the setpoint at 60 + 40/50 x 60 = 108 s, by the band at 120 + 30/35 x 60.
        (90.0, BEHIND, 120 + 30 / 35 * 60 - 108),
        (60.0, BEHIND, 120 - 72.0),
        (0.0, BEHIND, 0.0),
        # It gets there with the last instant of the hold, or only after it.
        (100.0, BEHIND, 240 - 120.0),
        (100.0, [*BEHIND[:4], 99.0, 100.0], None),
        (101.0, BEHIND, None),
        # A band that is ahead of the setpoint does not lag.
        (90.0, [0.0, 95.0, 100.0, 100.0, 100.0, 100.0], 0.0),
        # Level from one instant to the next, and there.
        (60.0, [60.0, 60.0, 60.0, 95.0, 100.0, 100.0], 0.0),
    ],
)
def test_the_lag_of_the_soak_band(low: float, coldest: list[float], lag: float | None) -> None:
    found = course(UP, coldest).lag(low, 120.0)
    assert found == (None if lag is None else pytest.approx(lag))


@each_row(
    ("low", "high", "held"),
    [(95.0, 120.0, 60.0), (60.0, 120.0, 120.0), (95.0, 104.9, 0.0), (60.0, 105.0, 120.0),
     (96.0, 120.0, 0.0)],
)  # fmt: skip
def test_the_hold_within_the_range(low: float, high: float, held: float) -> None:
    """From instant to instant, where both ends are in it; the hottest is 105 at the fourth."""
    hottest = [0.0, 30.0, 100.0, 105.0, 105.0, 300.0]
    assert course(UP, BEHIND, hottest).held(low, high) == held


def test_instants_of_a_course() -> None:
    its = course(UP, BEHIND)
    assert its.moments == [1, 4]
    assert its.stages == [1, 1, 2, 3, 4]
    # Of 100 instants, the first in the first second: 25 evenly in time, and those of the stages.
    times = [0.0, 1.0, *np.linspace(10.0, 240.0, 98).tolist()]
    found = _looked_at(times, 41, 83)
    assert {20, 30, 41, 62, 83, 0, 99} <= set(found)
    assert all(min(abs(times[n] - 10.0 * part) for n in found) <= 1.2 for part in range(25))
    assert 25 <= len(found) <= 30


PIPE = [Station(-1.0, 0.10, 0.12), Station(1.0, 0.10, 0.12)]


@pytest.mark.parametrize(
    ("body", "stations"),
    [
        # A taper from 0.05 to 0.1 m, 20 mm more to 0.3 m, and there the pipe again at once.
        (Body("flange", 1, 0.05, 0.1, 0.3, 0.02, True),
         [(-1, 0.10, 0.12), (0.05, 0.10, 0.12), (0.1, 0.10, 0.14), (0.3, 0.10, 0.14),
          (0.3, 0.10, 0.12), (1, 0.10, 0.12)]),
        # At once, toward the other end, and inward.
        (Body("flange", -1, 0.05, 0.05, 0.3, 0.02, False),
         [(-1, 0.10, 0.12), (-0.3, 0.10, 0.12), (-0.3, 0.08, 0.12), (-0.05, 0.08, 0.12),
          (-0.05, 0.10, 0.12), (1, 0.10, 0.12)]),
        # So thick that no bore would be left: a hundredth of the radius is.
        (Body("plug", 1, 0.05, 0.05, 2.0, 0.2, False),
         [(-1, 0.10, 0.12), (0.05, 0.10, 0.12), (0.05, 0.0012, 0.12), (1, 0.0012, 0.12)]),
    ],
)  # fmt: skip
def test_what_is_thicker_lies_over_the_pipe(
    body: Body, stations: list[tuple[float, float, float]]
) -> None:
    found = with_bodies(PIPE, (body,))
    assert [tuple(one) for one in found] == [pytest.approx(one) for one in stations]
    assert with_bodies(PIPE, ()) == PIPE


def test_two_beside_each_other_add_up() -> None:
    both = (
        Body("pad", 1, 0.1, 0.1, 0.5, 0.02, True), Body("ring", 1, 0.2, 0.2, 0.4, 0.01, True)
    )  # fmt: skip
    found = {(round(one.z, 3), round(one.outer_radius, 3)) for one in with_bodies(PIPE, both)}
    assert found == {(-1.0, 0.12), (0.1, 0.12), (0.1, 0.14), (0.2, 0.14), (0.2, 0.15),
                     (0.4, 0.15), (0.4, 0.14), (0.5, 0.14), (0.5, 0.12), (1.0, 0.12)}  # fmt: skip


def field(z: list[float], *rows: list[float]) -> Any:
    return Stub(mesh=Stub(z=np.array(z)), layer=lambda depth: np.array(rows))


Z = [0.0, 0.3, 0.4, 1.0]


@pytest.mark.parametrize(
    ("over", "kelvin", "z"), [(0.1, 200.0, 0.35), (0.2, 240.0, 0.4), (0.05, 100.0, 0.325)]
)
def test_the_steepest_fall(over: float, kelvin: float, z: float) -> None:
    """Even to 0.3 m, 200 K in the next 0.1 m, 40 K in each 0.1 m after that; at the other clock
    position half of it."""
    steep = [700.0, 700.0, 500.0, 260.0]
    found = outlook._slope(field(Z, [700.0, 700.0, 600.0, 480.0], steep), Stub(), over)
    assert found.kelvin == pytest.approx(kelvin, abs=1e-6)
    assert found.z == pytest.approx(z, abs=0.03) and found.over == over


def test_what_is_left_beyond_the_band() -> None:
    """2 sqrt(R t) of 0.09 m and 10 mm are 0.06 m: from 0.3 to 0.36 m 700 K fall by 120 K."""
    half = Stub(inner=0.09, outer=0.1)
    assert beyond_band(half) == pytest.approx(0.06)  # type: ignore[arg-type]
    its: Any = Stub(hold_end=4, fields={4: field(Z, [700.0, 700.0, 650.0, 480.0],
                                                  [700.0, 700.0, 500.0, 260.0])})  # fmt: skip
    setting: Any = Stub(heated=0.3, near=half)
    assert outlook._edge(its, setting) == pytest.approx(580 / 700)


@each_row(
    ("degrees", "z", "unwatched"),
    [
        (30.0, 0.0, False), (41.0, 0.0, False), (41.1, 0.0, True), (339.0, 0.0, False),
        (338.9, 0.0, True), (10.0, 0.1, False), (10.0, 0.101, True), (10.0, -0.1, False),
        (180.0, 0.0, True),
    ],
)  # fmt: skip
def test_what_a_thermocouple_watches(degrees: float, z: float, unwatched: bool) -> None:
    """31 degrees either way round, and 0.1 m along."""
    setting: Any = Stub(couples=[Stub(degrees=10.0, z=0.0)], near=1, far=2, bodies=())
    place: Any = Stub(degrees=degrees, z=z)
    assert outlook._is_unwatched(setting, place) is unwatched


def test_one_side_watches_the_other_where_they_are_alike() -> None:
    place: Any = Stub(degrees=10.0, z=-0.5)
    for far, bodies, unwatched in ((1, (), False), (2, (), True), (1, ("flange",), True)):
        setting: Any = Stub(couples=[Stub(degrees=10.0, z=0.45)], near=1, far=far, bodies=bodies)
        assert outlook._is_unwatched(setting, place) is unwatched


def test_power_and_how_long_it_is_short() -> None:
    """At its cap of 5 kW at three instants; behind by more than 2 K at the first two of them."""
    power = np.array([[0, 1], [4994, 2], [4995, 3], [5000, 4], [5000, 3], [9000, 9]], dtype=float)
    couples = np.array([[0.0], [90.0], [97.9], [97.0], [98.0], [0.0]])
    its: Any = Stub(
        hold_end=4, seconds=SECONDS, power=power, couples=couples, setpoint=np.full(6, 100.0)
    )
    setting: Any = Stub(
        zones=[Stub(name="top", power=5000.0, follows="T1"), Stub(name="low", power=None)],
        couples=[Stub(tag="T1")],
    )
    top, low = outlook._needs(setting, its)
    assert tuple(top) == ("top", 5000.0, 5000.0, 5000.0, 120.0)
    assert tuple(low) == ("low", 4.0, 3.0, None, 0.0)


def test_the_dip_beside_a_gap(monkeypatch: pytest.MonkeyPatch) -> None:
    """A thin fin: k t = 25 x 0.01 = 0.25 W/K, m = sqrt(25/0.25) = 10/m; two gaps round 0.1 m are
    pi/10 m apart, tanh(10 pi/40) = 0.655794. Fluxes 10 and 40 kW/m2 over 0.4 and 0.2 m of the
    pipe have a mean of 20: 20000 x 0.02/(2 x 0.25 x 10) x 0.655794 = 52.4635 K."""
    steel = Stub(material=Stub(conductivity=Stub(at=lambda t: 25.0)))
    monkeypatch.setattr(outlook, "STEELS", {"any": steel})
    zones = [Stub(width=180.0, start=-0.2, end=0.2), Stub(width=180.0, start=0.0, end=0.2)]
    setting: Any = Stub(
        gap=0.02, near=Stub(steel="any", inner=0.09, outer=0.1), target=700.0, zones=zones,
        bore=Stub(mean=25.0, emissivity=0.0),
    )  # fmt: skip
    fluxes: Any = Stub(fluxes=np.array([10_000.0, 40_000.0]))
    assert outlook._dip(setting, fluxes) == pytest.approx(52.4635, abs=1e-3)
    # What is radiated across counts like convection: 4 e s T3 (Stefan-Boltzmann, CODATA 2018).
    hot = 25.0 / (4 * 5.670374419e-8 * 973.15**3)
    setting.bore.emissivity, setting.bore.mean = hot, 0.0
    assert outlook._dip(setting, fluxes) == pytest.approx(52.4635, abs=1e-3)
    setting.gap = 0.0
    assert outlook._dip(setting, fluxes) == 0.0


def test_draws_are_even_in_every_input() -> None:
    """A Latin hypercube has one sample in each of n equal parts of each input (McKay, Beckman and
    Conover 1979). Insulation and bare pipe are log-normal by 0.35 and 0.2, emissivity is even
    from 0.6 to 0.9, an error of a thermocouple normal by 2 K."""
    half = Stub(steel="carbon")
    known: Any = Stub(
        zones=[1, 2], near=half, far=half, bore_known=True,
        bore=Stub(mean=5.0, lean=0.3, emissivity=0.8, low=2.0, high=8.0),
    )  # fmt: skip
    draws = scatter._draws(known, 100)
    normal = np.array([-1.2815515655, 1.2815515655])  # of 10 % and 90 %: tables of the normal
    for of, spread in (
        (lambda one: np.log(one.insulation), 0.35), (lambda one: np.log(one.bare), 0.2),
        (lambda one: np.log(one.air / 5.0), LOG_SPREAD), (lambda one: one.errors[1], 2.0),
        (lambda one: one.lean - 0.3, 0.15),
    ):  # fmt: skip
        ordered = sorted(of(one) for one in draws)
        assert ordered[9] < normal[0] * spread < ordered[10]
        assert ordered[89] < normal[1] * spread < ordered[90]
    parts = sorted(int((one.emissivity - 0.6) / 0.003) for one in draws)
    assert parts == list(range(100))
    # Of a bore nobody knows all from the least to the most, evenly in its logarithm.
    known.bore_known = False
    parts = sorted(int(np.log(one.air / 2.0) / np.log(4.0) * 100) for one in
                   scatter._draws(known, 100))  # fmt: skip
    assert parts == list(range(100))
    known.near = Stub(steel="austenitic")
    least = min(one.emissivity for one in scatter._draws(known, 100))
    assert 0.3 <= least < 0.306
    known.bore = known.bore.__class__(mean=5.0, lean=0.0, emissivity=0.0, low=2.0, high=8.0)
    assert {(one.lean, one.emissivity) for one in scatter._draws(known, 10)} == {(0.0, 0.0)}


@each_row(
    ("depth", "z", "mirrored", "words"),
    [
        (0.0, 0.0, True, "outside, 6:00, on the weld"),
        (1.0, 0.00049, False, "bore, 6:00, on the weld"),
        (0.5, 0.0005, False, "mid-wall, 6:00, 0 mm from the weld far side"),
        (0.25, -0.05, False, "a quarter in, 6:00, 50 mm from the weld near side"),
        (0.75, 0.05, True, "three quarters in, 6:00, 50 mm from the weld on either side"),
        (0.3, 0.05, False, "30 % of the wall in, 6:00, 50 mm from the weld far side"),
    ],
)
def test_a_place_in_words(depth: float, z: float, mirrored: bool, words: str) -> None:
    assert place_words(Extreme(700.0, 180.0, z, depth), mirrored) == words


@pytest.mark.parametrize("far", ["carbon", "9Cr"])
def test_stations_stand_where_something_begins_or_ends(far: str) -> None:
    """Soak band, heated band, insulation and 2 sqrt(R t) of 0.09 m and 10 mm beyond the heated
    one, 0.06 m, on both sides; and every thermocouple."""
    near = Half(0.09, 0.10, "carbon")
    zones = (Stub(start=-0.2, end=0.2, z=0.0), Stub(start=-0.2, end=0.2, z=0.03))
    setting: Any = Stub(
        near=near, far=near._replace(steel=far), soak=0.05, heated=0.2, insulated=0.4, bodies=(),
        zones=zones, couples=(Stub(z=-0.11),), taper=None,
    )  # fmt: skip
    pipe, grid = grid_of(setting, 1)
    assert pipe.mirrored == (far == "carbon")
    ends = {0.03, 0.05, 0.2, 0.26, 0.4}
    ends |= {0.11} if pipe.mirrored else {-0.11, -0.05, -0.2, -0.26, -0.4}
    assert all(np.abs(grid.z - end).min() < 1e-9 for end in ends)


@pytest.mark.parametrize(("samples", "sizes"), [(60, [25, 25, 10]), (50, [25, 25]), (7, [7])])
def test_each_sample_is_worked_out_once_on_other_machines(
    samples: int, sizes: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[int, int]] = []

    def each(work: object, units: Any) -> Any:
        for _, of, start, stop in units:
            assert work is scatter.held and of == samples
            asked.append((start, stop))
            yield [(float(n), n + 0.5, np.full((3, 4, 2), n)) for n in range(start, stop)]

    for name, instead in (
        ("is_connected", lambda: True), ("each", each), ("_stated", lambda *_: (None, None)),
        ("table_of", lambda *_: None), ("_shifts", lambda *_: ()),
    ):  # fmt: skip
        monkeypatch.setattr(scatter, name, instead)
    found = scatter.scattered(Stub(), Stub(), samples)  # type: ignore[arg-type]
    assert [stop - start for start, stop in asked] == sizes
    assert found.lowest.tolist() == list(range(samples))
    assert found.highest.tolist() == [n + 0.5 for n in range(samples)]


@pytest.mark.parametrize(
    ("soak", "spread", "band"),
    [
        # 6 K/m over the half width behind: 0.4 m keep 15 K, the halving stops within 5 mm.
        (0.05, 15.0, 0.80),
        # So wide a spread is kept by the least that is tried: 10 mm beyond the soak band, or 30 mm.
        (0.05, 100.0, 0.12), (0.01, 200.0, 0.06), (0.05, 3.75, 3.20), (0.05, 3.74, None),
    ],
)  # fmt: skip
def test_the_narrowest_band(
    soak: float, spread: float, band: float | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    tried: list[float] = []

    def behind(setting: Any, state: Any, half: float) -> float:
        tried.append(half)
        return 6.0 / half

    monkeypatch.setattr(widths, "_behind", behind)
    own: Any = Stub(name="draughty")
    made = widths.narrowest(Stub(soak=soak, bore=own), spread)  # type: ignore[arg-type]
    assert [one.state for one in made] == ["draughty", "lined", "closed and still", "open"]
    assert max(tried) == 1.6 and {one.left for one in made} == {3.75}
    (found,) = {one.band for one in made}
    assert found == (None if band is None else pytest.approx(band, abs=0.0101))
    if found is not None:
        # What is told keeps the spread, and 5 mm less on each side would not, or is not tried.
        assert 6.0 / (found / 2) <= spread
        assert 6.0 / (found / 2 - 0.005) > spread or found / 2 == min(tried)
    # A bore that is one of the others is told once.
    own.name = "open"
    made = widths.narrowest(Stub(soak=soak, bore=own), spread)  # type: ignore[arg-type]
    assert [one.state for one in made] == ["open", "lined", "closed and still"]


def test_a_band_that_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """Zones reach as far as the band, those of one side from the weld on; nothing limits them."""
    asked: list[Any] = []

    def builder(tried: Any) -> Any:
        asked.append(tried)
        ends = lambda *where: (Stub(celsius=690.0), Stub(celsius=720.0))  # noqa: E731
        steady = lambda targets: (Stub(extremes=ends), targets)  # noqa: E731
        return Stub(model=lambda: Stub(steady=steady))

    class Zone(Stub):
        def _replace(self, **more: Any) -> Any:
            return Zone(**{**vars(self), **more})

    monkeypatch.setattr(widths, "Builder", builder)
    monkeypatch.setattr(widths, "band_of", lambda *_: (0.0, 1.0))
    zones = (Zone(start=-0.2, end=0.2, power=9.0), Zone(start=0.0, end=0.3, power=9.0),
             Zone(start=-0.3, end=0.0, power=9.0))  # fmt: skip
    setting = Zone(zones=zones, target=715.0, heated=0.3, insulated=0.5, lined=0.2)
    for emissivity in (0.0, 0.8):
        state: Any = Stub(emissivity=emissivity)
        assert widths._behind(setting, state, 0.4) == 25.0  # type: ignore[arg-type]
    first, second = asked
    assert [(z.start, z.end, z.power) for z in first.zones] == [
        (-0.4, 0.4, None), (0.0, 0.4, None), (-0.4, 0.0, None)
    ]  # fmt: skip
    assert (first.heated, first.insulated, first.lined) == (0.4, pytest.approx(0.7), None)
    assert first.beyond is not None and first.beyond.name == "closed and still"
    assert second.beyond is None


def test_a_taper_ends_half_way_along_what_is_worked_out() -> None:
    """However long the text says it is: behind it lies the wall as stated."""
    near, far = Half(0.1365, 0.1619, "carbon"), Half(0.1265, 0.1619, "carbon")
    made = setting()._replace(near=near, far=far, taper=9.0)
    stations = building._pipe(made, Stub(), Stub()).stations  # type: ignore[arg-type]
    assert [one.z / stations[-1].z for one in stations] == pytest.approx([-1.0, 0.0, 0.5, 1.0])
    shorter = building._pipe(made._replace(taper=0.08), Stub(), Stub()).stations  # type: ignore[arg-type]
    assert [one.z for one in shorter[1:3]] == pytest.approx([0.0, 0.08])


@pytest.mark.parametrize(
    ("what", "most", "predicted", "share"),
    [
        ("soak band", 0.0, "in 60 of 100 cases at the end of the hold", 0.6),
        # The samples are 5 K colder and 0, 5, 10 and 20 K hotter than the model as stated, so that
        # they lag behind 705, 700, 695, 690 and 680 degC: never, 10, 5, 0 and 0 min.
        ("lag", 600.0, "10 min; 80 of 100 cases within it", 0.8),
        ("lag", 599.0, "10 min; 60 of 100 cases within it", 0.6),
        ("lag", 0.0, "10 min; 40 of 100 cases within it", 0.4),
        ("gradient", 55.0, "55 K at the end of the hold", 1.0),
        ("gradient", 54.0, "55 K at the end of the hold", 0.0),
    ],
)
def test_what_is_answered(
    what: str, most: float, predicted: str, share: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(outlook, "_slope", lambda *_: Stub(kelvin=55.0))
    its: Any = Stub(fields=[None], hold_end=0)
    its.lag = lambda low, high: None if low > 700.0 else max(0.0, low - 690.0) * 60.0
    inside = np.array([True, True, True, False, False])
    moved = np.array([-5.0, 0.0, 5.0, 10.0, 20.0])
    for least in (share, share + 0.01):
        demands = Stub(confidence=least, each=[Stub(what=what, most=most, over=0.3)])
        setting: Any = Stub(demands=demands)
        (found,) = outlook._answers(setting, its, inside, moved, (700.0, 730.0))
        assert (found.predicted, found.share) == (predicted, pytest.approx(share))
        assert found.verdict == (outlook.HOLDS if least == share else outlook.FAILS)
    never: Any = Stub(fields=[None], hold_end=0, lag=lambda *_: None)
    if what == "lag":
        (found,) = outlook._answers(setting, never, inside, moved, (700.0, 730.0))
        assert found.predicted == "never; 0 of 100 cases within it"
