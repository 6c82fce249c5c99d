"""What is predicted of a specification, from its text to the report."""

from __future__ import annotations

import json
import os
import re
from math import pi
from pathlib import Path
from typing import NoReturn

import jsonschema
import pytest

from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from hts.predict import foresee
from hts.predict import outlook as outlook_module
from hts.predict.building import Builder, grid_of, is_mirrored
from hts.predict.demands import demands_of
from hts.predict.document import document
from hts.predict.inputs import inputs_of
from hts.predict.outlook import Outlook, outlook_of, physics_of
from hts.predict.powers import difference, powers_of
from hts.predict.report import clock_words, report, summary
from hts.predict.setting import NotPredicted, Setting, setting_of
from hts.predict.tables import tables_of
from hts.predict.told import LIMITS, NOT_FOR, PREDICTION
from hts.science.field.steels import STEELS, family
from tests import told
from tests.rows import each_row
from tests.texts import spec_of

ROOT = Path(__file__).parents[2]
ENDS = "    ends           closed and vented"
LINE = "  rate margin  "
ASKED = (
    LINE,
    "  predict soak band within 690 .. 730 degC\n  predict lag at most 2 min\n"
    f"  predict axial gradient at most 300 K over 50 mm\n  predict confidence 80 %\n{LINE}",
)


def case_of(*changes: tuple[str, str]) -> Case:
    return Case(spec_of(changed("butt", changes)))


def setting(*changes: tuple[str, str]) -> Setting:
    case = case_of(*changes)
    joint = next(iter(case.joints()))
    return setting_of(case, next(iter(case.treatments(joint))))


@pytest.fixture(scope="module")
def outlook() -> Outlook:
    made = setting(ASKED)
    return outlook_of(made, physics_of(made, samples=20))


def test_what_a_text_gives() -> None:
    made = setting(ASKED)
    # NPS 12, 25.4 mm: ASME B36.10M
    assert made.near.outer == pytest.approx(0.32385 / 2, abs=1e-4)
    assert made.near.outer - made.near.inner == pytest.approx(0.0254)
    assert (made.near.steel, made.horizontal, made.bore.name) == (
        "2.25Cr",
        True,
        "closed and still",
    )
    assert [(z.name, z.degrees, z.width, z.power) for z in made.zones] == [
        ("top", 0.0, 180.0, 9000.0), ("bottom", 180.0, 180.0, 9000.0)
    ]  # fmt: skip
    assert [c.tag for c in made.couples] == ["T1", "T2", "T3", "T4", "T5", "T6"]  # no spares
    assert made.target == 715.0 and made.window == (700.0, 730.0)
    assert [stage.held for stage in made.stages].count(True) == 1
    # The programmed rate: 200 K/h less the margin of 10 %.
    ramp = next(stage for stage in made.stages if stage.end == 715.0 and not stage.held)
    assert (ramp.end - ramp.start) / ramp.seconds * 3600 == pytest.approx(180, rel=0.01)


@each_row(
    ("change", "reason"),
    [
        (("bore           drained and dry", "bore           filled"), "liquid in the bore"),
        (("heating by resistance", "heating by gas"), "not gas"),
        (("kind       girth butt", "kind       long seam"), "not a long seam"),
        (("A335 P22", "A335 P5"), "properties"),
    ],
)
def test_what_is_refused(change: tuple[str, str], reason: str) -> None:
    with pytest.raises(NotPredicted, match=reason):
        setting(change, ("Cr 2.20 %", "Cr 5.00 %") if "P5" in change[1] else ASKED)


_SUPPORT = '  support    "rod'
_FLANGE = "  heavy section flange 80 mm downstream wall 60 mm over 120 mm taper 30 mm\n"


def test_a_heavy_section_stands_in_the_model() -> None:
    """Its metal is that of a frustum and a ring more than the pipe's: geometry of both."""
    plain, heavy = setting(), setting((_SUPPORT, _FLANGE + _SUPPORT))
    assert not is_mirrored(heavy)
    outer, thick = heavy.near.outer, heavy.near.inner + 0.060
    ring = pi * (thick**2 - outer**2) * 0.120
    taper = pi / 3 * 0.030 * (outer**2 + outer * thick + thick**2) - pi * outer**2 * 0.030
    volumes = [float(mesh.volume.sum()) * mesh.round for _, mesh in map(grid_of, (plain, heavy))]
    # The plain pipe is one half of two that are alike.
    assert volumes[1] - 2 * volumes[0] == pytest.approx(ring + taper, rel=2e-3)
    assert any("heavy section, flange" in one.what for one in inputs_of(heavy))
    # Seen from side to side it is the same: upstream it lies mirrored.
    other = setting((_SUPPORT, _FLANGE.replace("downstream", "upstream") + _SUPPORT))
    stations = grid_of(heavy)[0].stations
    assert [(-s.z, *s[1:]) for s in reversed(grid_of(other)[0].stations)] == [
        tuple(pytest.approx(value) for value in s) for s in stations
    ]


def test_a_stated_taper_takes_the_place_of_one_to_four() -> None:
    pipe = (
        "  between    pipe and pipe\n  pipe       NPS 12 schedule 120\n"
        "  wall       25.4 mm measured\n"
    )
    sides = (
        "  side       upstream of pipe NPS 12 wall 25.4 mm measured{}\n"
        "  side       downstream of pipe NPS 12 wall 35.4 mm measured\n"
    )
    lengths = []
    for said in ("", " taper 80 mm", " slope 3"):
        z = [station.z for station in grid_of(setting((pipe, sides.format(said))))[0].stations]
        lengths.append(z[2] - z[1])
    assert lengths == [pytest.approx(0.040), pytest.approx(0.080), pytest.approx(0.030)]


def test_what_is_alike_is_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    text = changed("butt", ()).replace(
        "cycle stress-relief for W12", "cycle stress-relief for W12, W13, W14"
    )
    text = text.replace(
        "preheat W12 {",
        'joint W13 like W12 {\n  line "2"\n}\n'
        "joint W14 like W12 {\n  wall 25.0 mm measured\n}\npreheat W12, W13, W14 {",
    )
    case = Case(spec_of(text))
    asked: list[Setting] = []

    def physics(made: Setting, samples: int) -> NoReturn:
        asked.append(made)
        raise ArithmeticError("not here")

    monkeypatch.setattr(foresee, "_kept", physics)
    told: list[tuple[int, int]] = []
    found = foresee.foresee_all(
        case, foresee.treatments_of(case), tell=lambda done, of: told.append((done, of))
    )
    assert len(found) == 3 and len(asked) == 2
    assert told == [(1, 2), (2, 2)]
    assert all("does not settle" in str(one) for one in found)


def test_figures_hang_together(outlook: Outlook) -> None:
    last = outlook.hold_end
    assert last.lowest.low <= last.lowest.stated <= last.highest.stated <= last.highest.high
    assert min(row.lowest.stated for row in last.rows) >= last.lowest.stated - 1e-9
    assert max(row.highest.stated for row in last.rows) <= last.highest.stated + 1e-9
    # The bore is colder than the outside, and at the end of the ramp it is further behind.
    by_place = {(row.depth, row.clock): row.lowest.stated for row in last.rows}
    assert all(by_place[1.0, clock] < by_place[0.0, clock] for clock in (0.0, 90.0, 180.0))
    assert outlook.ramp_end.lowest.stated < last.lowest.stated
    assert 0 <= outlook.held <= outlook.hold == 7200.0
    # The control thermocouples follow the setpoint.
    index = [c.tag for c in outlook.setting.couples].index("T1")
    upto = outlook.course.hold_end + 1
    off = outlook.course.couples[:upto, index] - outlook.course.setpoint[:upto]
    assert abs(off[1:]).max() < 0.1
    assert [shift.span for shift in outlook.scatter.shifts] == sorted(
        (shift.span for shift in outlook.scatter.shifts), reverse=True
    )
    bands = {width.state: width.band or 9.9 for width in outlook.widths}
    assert bands["lined"] <= bands["closed and still"] <= bands["open"]


def test_what_is_asked_is_answered(outlook: Outlook) -> None:
    assert [(a.demanded.what, a.verdict) for a in outlook.answers] == [
        ("soak band", "predicted to hold"),
        ("lag", "not predicted to hold"),
        ("axial gradient", "predicted to hold"),
    ]
    assert outlook.window == (690.0, 730.0)
    case = case_of(ASKED)
    treatment = next(iter(case.treatments(next(iter(case.joints())))))
    assert demands_of(case, treatment).confidence == 0.8
    # Nine tenths where nobody says how sure: common practice, no source.
    plain = case_of((LINE, f"  predict lag at most 2 min\n{LINE}"))
    treatment = next(iter(plain.treatments(next(iter(plain.joints())))))
    assert demands_of(plain, treatment).confidence == 0.9


def test_a_finer_grid_moves_the_lowest_little() -> None:
    made = setting((ENDS, "    ends           open"))
    found = []
    for cells, finer in ((24, {}), (48, {"fine_to": 0.4, "fine": 0.006, "coarse": 0.02,
                                         "through": 13})):  # fmt: skip
        builder = Builder(made, cells)
        builder.pipe, builder.grid = grid_of(made, cells, **finer)
        field, _ = builder.model().steady(targets=[made.target] * 2)
        found.append(field.extremes(0.0, made.soak)[0].celsius)
    assert found[0] == pytest.approx(found[1], abs=0.3)


def test_widths_for_a_stated_spread(monkeypatch: pytest.MonkeyPatch) -> None:
    made = setting()
    physics = physics_of(made, samples=2)
    with monkeypatch.context() as within:
        within.setattr(outlook_module, "narrowest", lambda _, spread: (spread,))
        assert outlook_of(made, physics, spread=0.5).widths == (0.5,)
        assert outlook_of(made, physics, spread=0.0).widths == ()
    tight, wide = (outlook_of(made, physics, spread=spread) for spread in (2.0, 40.0))
    own = [next(w for w in o.widths if w.state == made.bore.name) for o in (tight, wide)]
    # No width keeps the bore within 2 K: the floor of an endless band is higher.
    assert own[0].band is None and own[0].left > 2.0
    assert own[1].band is not None and own[1].band < 0.5
    assert "none: even an endless band" in " ".join(report(tight, "9", "").split())


@pytest.fixture(scope="module")
def uneven() -> Outlook:
    """What the other is not: a flange, an open bore, gaps, a zone too weak for the program."""
    made = setting(
        (_SUPPORT, _FLANGE + _SUPPORT),
        (ENDS, "    ends           open\n    gap at most    20 mm"),
        ("from 9:00 to 3:00 power 9 kW", "from 9:00 to 3:00 power 5 kW"),
    )
    return outlook_of(made, physics_of(made, samples=4), widths=False)


def test_no_zone_gives_more_than_it_has(uneven: Outlook) -> None:
    """On the flange, too, where it heats more surface than on the pipe."""
    weak, strong = powers_of(uneven)
    assert (weak.installed, strong.installed) == (5.0, 9.0)
    assert weak.most == pytest.approx(5.0)
    assert weak.most < strong.most <= 9.0 * (1 + 1e-9)
    assert weak.short > 30.0
    text = " ".join(report(uneven, "9", "").split())
    assert f"5.0, at its cap and behind for {weak.short:.0f} min" in text
    assert f"up to {uneven.dip:.0f} K less for 20 mm" in text


def _tables(name: str, request: pytest.FixtureRequest) -> list[str]:
    made: Outlook = request.getfixturevalue(name)
    tables = [line for one in tables_of(made) for line in told.leaves(list(one))]
    return [*map(" | ".join, summary(made)), *tables]


@pytest.mark.parametrize("name", ["outlook", "uneven"])
def test_figures_stay(name: str, request: pytest.FixtureRequest) -> None:
    """As they were read when they were kept, to a tenth of a kelvin or of a percent: the last digit
    is the machine's. Whether they are right is held above and in `tests/science/field`."""
    made = json.loads(json.dumps(document([request.getfixturevalue(name)], "9", {})))
    figures: dict[str, list[str]] = {}
    for line in told.leaves(made, frozenset(("traces",))):
        place, _, value = line.partition(": ")
        if re.fullmatch(r"-?[\d.]+", value):
            figures.setdefault(place, []).append(value)
    for place, column in made["predictions"][0]["traces"]["kW"].items():
        figures[f"kW/{place}"] = [f"{value:.3f}" for value in column[:: len(column) // 4]]
    words = [report(request.getfixturevalue(name), "9", ""), *map(str, _tables(name, request))]
    figures["printed"] = re.findall(r"-?\d+(?:\.\d+)?", "\n".join(words))
    lines = [f"{place}: {' '.join(values)}" for place, values in figures.items()]
    file = ROOT / "tests/predict/told/figures.txt"
    if os.environ.get("TELL_ANEW"):
        told.same(file, name, "\n".join(lines))
    kept = dict(line.split(": ") for line in told.kept(file)[name].splitlines())
    assert list(kept) == list(figures)
    for place, values in figures.items():
        assert [float(v) for v in values] == [
            # A whole number on paper may be rounded the other way.
            pytest.approx(float(v), rel=1e-3, abs=0.11 if "." in v else 1.0)
            for v in kept[place].split()
        ], place


def test_a_check_is_told_the_same_figures(outlook: Outlook, uneven: Outlook) -> None:
    for made in (outlook, uneven):
        told_ = foresee._told(made)
        data = json.loads(json.dumps(document([made], "9", {})))["predictions"][0]
        bands = {one["bore"]: one["mm"] for one in data["narrowest_bands"]["bands"]}
        own = bands.get(made.setting.bore.name)
        assert (told_.cure is None) == (own is None)
        assert own is None or told_.cure == pytest.approx(own, abs=0.51)
        assert told_.lined == (bands.get("lined") is not None)
        assert told_.minutes == pytest.approx((data["in_range_min"], data["hold_min"]), abs=0.06)
        assert told_.margin is not None
        margin = data["margin_below_lower_critical_K"]
        assert told_.margin == pytest.approx((margin["stated"], margin["5 %"]), abs=0.06)
        for word, found in (("lowest", told_.lowest), ("highest", told_.highest)):
            last = data["instants"][1][f"{word}_degC"]
            assert found == pytest.approx((last["stated"], last["5 %"], last["95 %"]), abs=0.06)
        short = [(z["zone"], z["most_kW"], z["short_min"]) for z in data["zones"] if z["short_min"]]
        assert [(z.name, z.power / 1000, z.minutes) for z in told_.short] == [
            (name, pytest.approx(most, abs=0.06), pytest.approx(minutes, abs=0.06))
            for name, most, minutes in short
        ]
    # NPS 12 of 25.4 mm: the heated band by rule is 575 mm; the flange makes the two sides unlike.
    assert foresee._told(outlook).heated == pytest.approx(575, abs=1)
    assert foresee._told(outlook).sides == 0.0 < foresee._told(uneven).sides


def test_every_output_says_what_it_is(outlook: Outlook) -> None:
    text = report(outlook, "9.9", "x.hts, fingerprint 1-2-3")
    flat = " ".join(text.split())
    for words in (PREDICTION, *LIMITS, *NOT_FOR, "hts 9.9", "fingerprint 1-2-3", "seed"):
        assert " ".join(words.split()) in flat
    assert max(len(line) for line in text.splitlines()) <= 110
    data = json.loads(json.dumps(document([outlook, ("W1/x", "why")], "9.9", {}), allow_nan=False))
    assert data["what"] == PREDICTION and data["not for"] == list(NOT_FOR)
    assert data["predictions"][0]["address"] == "W12/stress-relief"
    assert data["not predicted"] == [{"address": "W1/x", "reason": "why"}]


def test_json_is_of_its_schema(outlook: Outlook) -> None:
    # The state of the bore unknown, no zone, and no estimate: what may be null is.
    bare = setting((ENDS, "    shelter none"))._replace(sized=None, critical=None)
    lone = outlook_of(bare, physics_of(bare, samples=2))
    named = {"name": "x.hts", "number": None, "revision": None, "fingerprint": "1-2-3"}
    made = document([outlook, lone, ("W1/x", "why")], "9.9", named)
    data = json.loads(json.dumps(made, allow_nan=False))
    schema = json.loads((ROOT / "grammar" / "prediction.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(data)
    # Every key that is written is described, too.
    first = schema["properties"]["predictions"]["items"]["properties"]
    assert set(data) == set(schema["properties"])
    assert set(data["predictions"][0]) == set(first)
    assert set(data["predictions"][0]["zones"][0]) == set(first["zones"]["items"]["properties"])
    traces = data["predictions"][0]["traces"]
    assert {len(column) for column in traces["kW"].values()} == {len(traces["seconds"])}


def test_power_stands_beside_the_quick_estimate(outlook: Outlook) -> None:
    sized = outlook.setting.sized
    assert sized is not None and str(sized.at) == "715 degC"
    rows = powers_of(outlook)
    assert [row.zone for row in rows] == ["top", "bottom"]
    for row in rows:
        # Two ways to the same power: within a factor of two of each other, or one is wrong.
        assert row.sized_heating is not None
        assert 0.5 < row.most / row.sized_heating < 2.0
        assert row.sized_holding is not None and row.holding > 0.0
    text = report(outlook, "9", "")
    assert "quick estimate" in text
    for words in difference(outlook.setting):
        assert words in " ".join(text.split())
    assert "larger of the two" in text.replace("\n", " ")


def test_the_same_every_time(outlook: Outlook) -> None:
    made = setting(ASKED)
    first = physics_of(made, samples=3)
    second = physics_of(made, samples=3, course=outlook.course)
    assert (first.scatter.lowest == second.scatter.lowest).all()
    assert (first.course.coldest == second.course.coldest).all()


def test_steels() -> None:
    assert [family(c) for c in (0.1, 1.25, 2.25, 5.0, 9.0)] == [
        "carbon", "1.25Cr", "2.25Cr", None, "9Cr"
    ]  # fmt: skip
    # What no public source gives is marked, and its spread is wide.
    for name in ("1.25Cr", "2.25Cr", "9Cr"):
        steel = STEELS[name]
        assert steel.material.origin.confidence == "low" and steel.heat_spread >= 0.10
    # The properties reach past every hold of the family.
    assert STEELS["9Cr"].material.specific_heat.high >= 800


def test_clock_words() -> None:
    assert [clock_words(d) for d in (0.0, 90.0, 187.5, 359.9)] == ["12:00", "3:00", "6:15", "12:00"]


@pytest.mark.parametrize("name", ["outlook", "uneven"])
def test_the_words_of_the_report(name: str, request: pytest.FixtureRequest) -> None:
    """Without the figures, which are held above: their last digit is the machine's."""
    lines = [report(request.getfixturevalue(name), "1.0", "HT-1"), *_tables(name, request)]
    text = re.sub(r"-?\d[\d.]*(e-\d+)?", "#", "\n".join(lines))
    file = ROOT / "tests/predict/told/report.txt"
    others = told.kept(file).get("outlook", "") if name != "outlook" else ""
    own = [line for line in dict.fromkeys(text.split("\n")) if line not in others.split("\n")]
    told.same(file, name, "\n".join(own))
