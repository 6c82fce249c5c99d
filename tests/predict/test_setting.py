"""What a text gives a prediction, what is assumed where it gives nothing, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.predict.setting import NotPredicted, Setting, setting_of
from tests import told
from tests.predict.test_predict import case_of
from tests.rows import each_row

KEPT = Path(__file__).with_name("told") / "settings.txt"
INSULATION = '    insulation     "ceramic fibre blanket" thickness 50 mm layers 2\n'
COMPOSITION = "  composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %\n"
T5 = "T5   monitors heated edge    at 12:00, 287 mm downstream   channel 5"


def setting(*changes: tuple[str, str]) -> Setting:
    case = case_of(*changes)
    return setting_of(case, next(iter(case.treatments(next(iter(case.joints()))))))


#: Of the plain text: the pipe at 20 degC at the start, steps with their rates.
USUAL = set(setting().assumed)


@each_row(
    ("old", "new", "words"),
    [
        (INSULATION, "", "insulation taken 50 mm thick: the text does not say"),
        ("  axis       horizontal\n", "", "the pipe taken as horizontal: its axis is not stated"),
        ("  datum      top\n", "  datum      north\n",
         "12:00 taken as the top, though the datum is the north"),
        (T5, T5.replace("287 mm", "3.1 m"), "T5 left out: it is more than 3 m from the weld"),
        ("heating by resistance accepted", "heating by induction accepted",
         "induction taken as flux into the outside"),
    ],
)  # fmt: skip
def test_what_is_assumed_is_told(old: str, new: str, words: str) -> None:
    more = [line for line in setting((old, new)).assumed if line not in USUAL]
    assert [line for line in more if line.startswith(words)], more


def test_of_the_plain_text_little_is_assumed() -> None:
    assert {
        "to 315 °C without a rate: taken as 200 K/h",
        "the whole pipe taken at 300 °C when it begins",
    } == USUAL


def test_an_edge_of_what_is_followed() -> None:
    """3 m from the weld is followed, and where it is."""
    tags = {one.tag: one.z for one in setting((T5, T5.replace("287 mm", "3 m"))).couples}
    assert tags["T5"] == pytest.approx(3.0) and tags["T6"] == pytest.approx(-0.287)


@each_row(
    ("changes", "name", "value"),
    [
        ((("  rate margin  ", "  power at most 80 %\n  rate margin  "),), "powers", [7200, 7200]),
        ((("power 9 kW heaters 2\n    zone bottom", "power 6 kW heaters 2\n    zone bottom"),),
         "powers", [6000, 9000]),
        ((("from 9:00 to 3:00 power 9 kW", "from 9:00 to 3:00"),), "powers", [None, 9000]),
        ((("  axis       horizontal\n", "  axis       vertical\n"),), "horizontal", False),
        ((("thickness 50 mm layers 2", "thickness 75 mm layers 2"),), "blanket", 0.075),
        ((("    gap at         12:00\n", "    gap at         12:00\n    gap at most    20 mm\n"),),
         "gap", 0.020),
        ((("    ends           closed and vented\n",
           '    ends           closed and vented\n    inside insulation "plug" thickness 100 mm'
           " width 500 mm total\n"),), "lined", 0.250),
        ((("    ends           closed and vented\n",
           "    ends           open\n    draught stopped by plugs at 2 m\n"),), "lined", 2.0),
        ((("composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %", "composition  C 0.11 %, Mn "
           "0.45 %, Si 0.25 %, Cr 1.25 %"), ("A335 P22", "A335 P11")), "steel", "1.25Cr"),
        (((COMPOSITION, ""),), "steel", "2.25Cr"),
        (((COMPOSITION, ""), ("A335 P22", "A106-B")), "steel", "carbon"),
        (((COMPOSITION, ""), ("A335 P22", "A335 P91")), "steel", "9Cr"),
    ],
)  # fmt: skip
def test_what_a_line_changes(
    changes: tuple[tuple[str, str], ...], name: str, value: object
) -> None:
    made = setting(*changes)
    found = {
        "powers": [zone.power for zone in made.zones],
        "horizontal": made.horizontal,
        "blanket": made.blanket,
        "gap": made.gap,
        "lined": made.lined,
        "steel": made.near.steel,
    }
    assert found[name] == (pytest.approx(value) if isinstance(value, float) else value)
    assert {key for key, one in found.items() if one != _plain()[key]} <= {name}


def _plain() -> dict[str, object]:
    return {"powers": [9000, 9000], "horizontal": True, "blanket": 0.05, "gap": 0.0,
            "lined": None, "steel": "2.25Cr"}  # fmt: skip


def test_the_two_walls_lie_as_places_count() -> None:
    sides = (
        "  side upstream of pipe NPS 12 wall 25.4 mm measured\n"
        "  side downstream of pipe NPS 12 wall 35.4 mm measured\n"
    )
    pipe = (
        "  between    pipe and pipe\n  pipe       NPS 12 schedule 120\n"
        "  wall       25.4 mm measured\n"
    )
    made = setting((pipe, sides))
    walls = [half.outer - half.inner for half in (made.near, made.far)]
    assert walls == [pytest.approx(0.0254), pytest.approx(0.0354)]
    downstream = {one.tag: one.z for one in made.couples}["T5"]
    assert downstream > 0, "the thicker wall and what is downstream lie on one side"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ((("  hold  700 .. 730 degC for 2 h\n", ""),), "no hold has a range that is known"),
        ((("  hold  700 .. 730 degC for 2 h\n", "  hold  700 .. 730 degC for 199 h\n"),),
         "longer than 200 h"),
    ],
)  # fmt: skip
def test_what_is_refused(changes: tuple[tuple[str, str], ...], words: str) -> None:
    with pytest.raises(NotPredicted, match=words):
        setting(*changes)


_ZONE = "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n"
_ZONES = f"{_ZONE}    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n"
_HOLD = "  hold  700 .. 730 degC for 2 h\n"
_HEATING = 'heating by resistance accepted by "Owner\'s engineer" {\n'
_CR = "composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %"
_START = "  start of control    300 degC\n"
_T1 = "T1   controls top            at 12:00 on weld              channel 1   control channel 1"
_BANDS = "    soak band      by rule\n    heated band    by rule\n    gradient band  by rule\n"
#: A text each, by what is changed; what cannot be predicted is told so.
TOLD = {
    "plain": (),
    "one side": ((_ZONES, _ZONES.replace("from 9:00", "side upstream from 9:00")
                  .replace("from 3:00 to 9:00", "side downstream from 3:00 to 9:00")),),
    "nobody controls": ((_T1, _T1.replace("controls top ", "monitors weld").partition(
        "control channel")[0]), ("spare for T1 ", "spare for T2 ")),
    "inside": (("T3   monitors soak edge      at 12:00, 40 mm downstream",
                "T3   monitors inside         at 12:00, 40 mm downstream"),),
    "two holds": ((_HOLD, f"  hold  650 .. 670 degC for 1 h\n{_HOLD}"
                   "  hold  700 .. 720 degC for 1 h\n"),),
    "half an hour": ((_HOLD, "  hold  700 .. 730 degC for 30 min\n"),),
    "just 200 h": ((_START, "  start of control    295 degC\n"),
                   ("margin         10 %", "margin  0 %"),
                   (_HOLD, "  hold  700 .. 730 degC for 11274 min\n"),
                   ("715 degC   at most 200 degC/h", "715 degC   at most 100 degC/h"),
                   ("cool  to 315 degC   at most 200", "cool  to 315 degC   at most 50")),
    "begins at 40": ((_START, "  start of control    40 degC\n"), ("  heat  to 315 degC\n", "")),
    "begins at 41": ((_START, "  start of control    41 degC\n"), ("  heat  to 315 degC\n", "")),
    "Cr 15": ((_CR, _CR.replace("2.20", "15")),),
    "Cr 15.1": ((_CR, _CR.replace("2.20", "15.1")),),
    "stainless": ((COMPOSITION, ""), ("A335 P22", "A312 TP304H")),
    "nickel": ((COMPOSITION, ""), ("A335 P22", "B444")),
    "no steel": (("  grade        \"A335 P22\"\n", ""), (COMPOSITION, "")),
    "wall alone": (("  pipe       NPS 12 schedule 120\n", ""),),
    "no bore": (("wall       25.4 mm", "wall       162 mm"),),
    "wide": ((_BANDS, "    soak band 100 mm total\n    heated band 300 mm total\n"
              "    gradient band by rule\n"),
             ("asme-b31.3 edition 2018, local-heating", "asme-b31.3 edition 2018")),
    "no rule": (("asme-b31.3 edition 2018, local-heating", "asme-b31.3 edition 2018"),),
    "narrowed": (("    band ratio     5\n",
                  "    band narrows to 300 mm total from 4:00 to 8:00\n    band ratio     5\n"),),
    "waits": (("  rate margin  ", "  wait for slowest within 15 K\n  rate margin  "),),
    "a furnace": ((_HEATING, _HEATING.replace("resistance", "furnace")),),
    "water": (("bore           drained and dry", "bore           filled"),),
    "socket": (("kind       girth butt", "kind       socket"),),
    "a valve": (("  between    pipe and pipe\n  pipe       NPS 12 schedule 120\n"
                 "  wall       25.4 mm measured\n",
                 "  side upstream of pipe NPS 12 wall 25.4 mm measured part valve\n"
                 "  side downstream of pipe NPS 12 wall 35.4 mm measured\n"),),
    "vertical": (("  axis       horizontal\n", "  axis       vertical\n"),),
}  # fmt: skip


def test_what_each_text_gives() -> None:
    """All of it of the plain text, of the others what is unlike that."""
    lines: list[str] = []
    plain: dict[str, str] = {}
    for name, changes in TOLD.items():
        try:
            made = setting(*changes)._asdict()
        except NotPredicted as reason:
            lines.append(f"{name} is refused: {reason}")
            continue
        shown = {key: repr(value) for key, value in made.items() if key != "demands"}
        own = [f"{key} {value}" for key, value in shown.items() if value != plain.get(key)]
        lines += [f"{name}: {'; '.join(own)}"] if plain else own
        plain = plain or shown
    told.same(KEPT, "settings", "\n".join([told.digest(lines), *(line[:300] for line in lines)]))
