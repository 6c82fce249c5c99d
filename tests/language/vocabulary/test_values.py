"""Values as they are read and exported.

The exact values are worked out by hand from the definitions of the units: 1 in = 25.4 mm, and
t/degF = 1.8 t/degC + 32 (NIST SP 811, appendix B).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from hts.base.quantities import Quantity
from hts.language.vocabulary.export import export
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.types import BY_RULE, Multiple
from tests.language.vocabulary.read import inside, read
from tests.rows import each_row


def exported(place: str, text: str) -> Any:
    """What the innermost entry of a place says in JSON."""
    file, tellings = read(inside(place, text))
    assert tellings == []
    return export(file)


def quantity(written: str, value: str, unit: str) -> dict[str, str]:
    return {"written": written, "value": value, "unit": unit}


@each_row(
    ("written", "value"),
    [
        ("25.4 mm", "127/5"),
        ("25.40 mm", "127/5"),
        ("1 in", "127/5"),
        ("1 1/2 in", "381/10"),
        ("3/8 in", "381/40"),
        ("2.5 cm", "25"),
        ("0.025 m", "25"),
    ],
)
def test_lengths_are_exact_and_keep_their_digits(written: str, value: str) -> None:
    joint = exported("joint", f"cap width {written}")["joints"][0]
    assert joint["cap_width"] == quantity(written, value, "mm")


@pytest.mark.parametrize(
    ("written", "value"), [("705 degC", "705"), ("1300 degF", "6340/9"), ("-40 degF", "-40")]
)
def test_temperatures(written: str, value: str) -> None:
    step = exported("cycle", f"heat to {written}")["cycles"][0]["segments"][0]
    assert step == {"entry": "heat", "to": quantity(written, value, "degC")}


@each_row(
    ("written", "value"),
    [("25 degC", "25"), ("25 K", "25"), ("45 degF", "25"), ("25 degF", "125/9")],
)
def test_a_difference_is_never_a_place_on_the_thermometer(written: str, value: str) -> None:
    cycle = exported("cycle", f"holding spread at most {written}")["cycles"][0]
    assert cycle["holding_spread"][0]["at_most"] == quantity(written, value, "K")


@each_row(
    ("written", "low", "high"),
    [
        ("690 .. 720 degC", "690", "720"),
        ("690..720 degC", "690", "720"),
        ("690 degC .. 1350 degF", "690", "6590/9"),
        ("705 +/- 15 degC", "690", "720"),
        ("705 degC +/- 15 K", "690", "720"),
        ("705 ± 15 degC", "690", "720"),
        ("1300 +/- 45 degF", "6115/9", "6565/9"),
    ],
)
def test_ranges_and_tolerances(written: str, low: str, high: str) -> None:
    hold = exported("cycle", f"hold {written} for 2 h 30 min")["cycles"][0]["segments"][0]
    assert (hold["range"]["from"]["value"], hold["range"]["to"]["value"]) == (low, high)
    assert hold["time"] == quantity("2 h 30 min", "9000", "s")


def test_by_rule() -> None:
    file, _ = read(inside("cycle", "hold by rule for by rule"))
    hold = file.cycles[0].segments[0]
    assert isinstance(hold, Hold) and hold.range is BY_RULE
    assert export(file)["cycles"][0]["segments"] == [
        {"entry": "hold", "range": {"by": "rule"}, "time": {"by": "rule"}}
    ]


@each_row(
    ("written", "amount", "counts"),
    [
        ("160 mm each side", quantity("160 mm", "160", "mm"), "each side"),
        ("320 mm total", quantity("320 mm", "320", "mm"), "total"),
        ("320 mm in total", quantity("320 mm", "320", "mm"), "total"),
        ("6 t each side", {"times": "t", "factor": "6"}, "each side"),
        ("1 1/2 t total", {"times": "t", "factor": "1 1/2"}, "total"),
        ("1 t each side", {"times": "t", "factor": "1"}, "each side"),
        ("1/4 t each side", {"times": "t", "factor": "1/4"}, "each side"),
    ],
)
def test_widths(written: str, amount: Any, counts: str) -> None:
    text = f'insulation "x" thickness 50 mm width {written}'
    heating = exported("heating", text)["joints"][0]["heating"]
    assert heating["insulation"]["width"] == {"width": amount, "counts": counts}


def test_of_three_figures_the_first_two_were_to_be_a_range() -> None:
    _, told = read(inside("cycle", "hold 690 - 720 - 5 degC for 2 h"))
    assert next((each.name, each.at) for each in told) == ("unclear-tolerance", "690 - 720")


def test_a_multiple_stays_a_multiple() -> None:
    file, _ = read(inside("heating", 'insulation "x" thickness 50 mm width 6 t total'))
    heating = file.joints[0].heating
    assert heating is not None and heating.insulation is not None
    width = heating.insulation.width
    assert width is not None and width.amount == Multiple("6")


@each_row("side", ["upstream", "downstream", "side A", "on branch", "below"])
def test_distance_from_the_weld(side: str) -> None:
    joint = exported("thermocouples", f"T1 controls all at 6:15, 42 mm {side}")["joints"][0]
    assert joint["thermocouples"]["each"] == [
        {
            "name": "T1",
            "controls": "all",
            "at": "6:15",
            "offset": {"distance": quantity("42 mm", "42", "mm"), "side": side},
        }
    ]


@each_row(
    ("written", "degrees"), [("12:00", 0), ("3:00", 90), ("6:15", Fraction(375, 2)), ("12:30", 15)]
)
def test_clock_positions(written: str, degrees: Fraction) -> None:
    # Twelve hours make 360 degrees, so one minute is half a degree.
    file, _ = read(inside("thermocouples", f"T1 controls all at {written} on weld"))
    block = file.joints[0].thermocouples
    assert block is not None
    at = block.each[0].at
    assert at is not None and at.degrees == degrees
    assert str(at) == written


def test_dates_of_leap_years() -> None:
    job = exported("job", 'history { B on 2024-02-29 "x" section "1" section "2" }')["job"]
    assert job["history"]["lines"] == [
        {"name": "B", "on": "2024-02-29", "change": "x", "sections": ["1", "2"]}
    ]


def test_composition_over_lines() -> None:
    material = exported("material", "composition C 0.11 %, Mn 0.45 %,\n Cr 22500 ppm")
    assert material["materials"][0]["composition"] == [
        {"element": "C", "fraction": quantity("0.11 %", "11/100", "%")},
        {"element": "Mn", "fraction": quantity("0.45 %", "9/20", "%")},
        {"element": "Cr", "fraction": quantity("22500 ppm", "9/4", "%")},
    ]


def test_editions() -> None:
    text = 'spec 1\ncycle c for W1 {\nnot required under asme-b31.3 edition 2018 "P-1"\n}\n'
    file, tellings = read(text)
    assert tellings == []
    assert export(file)["cycles"][0]["not_required"] == {
        "under": {"book": "asme-b31.3", "edition": "2018"},
        "reason": "P-1",
    }
    assert exported("job", "")["job"]["governed_by"] == [{"book": "local-heating", "edition": None}]


@each_row("address", ["W12", "W12.T5", "W12/thermocouples/T5", "W12/stress-relief"])
def test_addresses(address: str) -> None:
    assert exported("waive", address)["waivers"][0]["on"] == address


def test_hardness_keeps_its_scale() -> None:
    # ISO 18265 tables relate scales for some steels only, so none is converted here.
    file, _ = read("spec 1\nafter heat W1 { hardness weld at most 248 HV10 }\n")
    hardness = export(file)["after"][0]["hardness"][0]
    assert hardness == {"zone": "weld", "at_most": quantity("248 HV10", "248", "HV10")}


def test_texts_hold_quotes_and_backslashes() -> None:
    assert exported("joint", r'spool "a \"b\" \\ c"')["joints"][0]["spool"] == r'a "b" \ c'


@pytest.mark.parametrize("size", ["12", "1 1/2", "3/4"])
def test_sizes_as_printed(size: str) -> None:
    pipe = exported("joint", f"pipe NPS {size} schedule 40S")["joints"][0]["pipe"]
    assert pipe == {"nps": size, "schedule": "40S"}


@each_row(
    ("line", "said"),
    [
        (
            "hold time at least 2.5 min/mm * t when t > 60 mm and p_number in (1, 5A)",
            {"minimum": "2.5 min/mm * t", "when": "t > 60 mm and p_number in (1, 5A)"},
        ),
        ("heated band at least 5 t each side", {"minimum": "2 * (5 t)"}),
        ("heated band at least 10 t total", {"minimum": "10 t"}),
        (
            "hold temperature at least 690 degC at most 720 degC",
            {"minimum": "690 degC", "maximum": "720 degC"},
        ),
        (
            "heating rate at most 110 degC/h above 315 degC when t <= 60 mm",
            {"maximum": "110 degC/h", "above": "315 degC", "when": "t <= 60 mm"},
        ),
        ("hold time at least max(1 h, 2.5 min/mm * t)", {"minimum": "max(1 h, 2.5 min/mm * t)"}),
    ],
)
def test_formulas_end_where_the_next_clause_begins(line: str, said: dict[str, str]) -> None:
    limit = exported("procedure", line)["procedures"][0]["limits"][0]
    words = limit.pop("entry")
    assert line.startswith(words)
    assert limit == {name: {"formula": text} for name, text in said.items()}


def test_a_formula_knows_its_place() -> None:
    text = inside("procedure", "hold time at least 2.5 min/mm * t when t > 60 mm")
    file, _ = read(text)
    limit = file.procedures[0].limits[0]
    assert limit.minimum is not None and limit.when is not None
    assert text[limit.minimum.start : limit.minimum.end] == "2.5 min/mm * t"
    assert text[limit.when.start : limit.when.end] == "t > 60 mm"


def test_clauses_stand_in_any_order() -> None:
    orders = [
        "T1 controls all at 12:00 on weld channel 1",
        "T1 channel 1, on weld, at 12:00, controls all",
        "T1 on weld controls all channel 1 at 12:00",
    ]
    said = [exported("thermocouples", order)["joints"][0]["thermocouples"] for order in orders]
    assert said[0] == said[1] == said[2]


def test_every_field_knows_its_place() -> None:
    text = inside("joint", "wall 25.4 mm measured")
    wall = read(text)[0].joints[0].wall
    assert wall is not None and isinstance(wall.thickness, Quantity)
    places = {name: text[start:end] for name, (start, end) in wall.places.items()}
    assert places == {"thickness": "25.4 mm", "taken": "measured"}
