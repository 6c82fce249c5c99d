"""What is told of a timetable: sentences, tables and chart, each figure worked by hand."""

from __future__ import annotations

import csv
import datetime
import io
import re
from typing import Any

import pytest

pytest.importorskip("ortools", reason="the extra `plan` is not installed")

from hts.language.model.shifts import Shift
from hts.plan.heats import Heat
from hts.plan.keeping import Keeping, keepings
from hts.plan.proposal import Plan, moment
from hts.plan.timetable import Slot, Terms, Timetable
from hts.plan.work import Machine, Unit, too_much, units
from hts.plan.written import files, summary
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT
from tests.rows import each_row

HOUR = 3600
#: One of something is never told as several, nor several as one.
ONE_AS_MANY = re.compile(
    r"\b1 (?!is\b|has\b|was\b|runs\b)[a-z]+s\b|\b(?!1 )\d+ (?:heat|treatment|crew)\b"
)
JOB = job_at(ROOT / "specs/turnaround-many.hts")


def unit(name: str, **changed: Any) -> Unit:
    """A cycle of 6 h on two loops, 8 channels and 20 kW."""
    made = Unit(
        (name,), "sr", ("sr",), 6 * HOUR, Machine("C1", 6), Machine("R1", 24),
        Machine("PS1", None, 65_000, 6), 2, 8, 2, 20_000, None, False, "",
    )  # fmt: skip
    return made._replace(**changed)


def slot(begin: int, *those: Unit, late: int = 0) -> Slot:
    """Set up for 2 h, 6 h of program, 1 h until the machine is free."""
    at = begin * HOUR
    return Slot(Heat(those), at, at + 2 * HOUR, at + 8 * HOUR, at + 9 * HOUR, late)


def plan(*slots: Slot, ready: dict[str, int] | None = None, **changed: Any) -> Plan:
    end = max(each.end for each in slots)
    late = sum(each.late for each in slots)
    table = Timetable(list(slots), end, changed.pop("least", end), late,
                      changed.pop("least_late", late))  # fmt: skip
    made = Plan(
        JOB, table, len(slots), [], Terms(2 * HOUR, HOUR, None, ready or {}), None, 12 * HOUR
    )
    return made._replace(**changed)


def test_a_moment_is_a_date_or_a_day_counted_from_the_first() -> None:
    assert moment(None, 0) == "day 1 00:00"
    assert moment(None, 24 * HOUR + 5 * HOUR + 7 * 60) == "day 2 05:07"
    begin = datetime.datetime(2026, 12, 1, 6)
    assert moment(begin, 19 * HOUR + 60) == "2026-12-02 01:01"


def test_what_is_proved_is_told_and_what_is_not() -> None:
    both = slot(0, unit("W1"), unit("W2")), slot(9, unit("W3"))
    assert summary(plan(*both)) == [
        "3 treatments in 2 heats (fewer are not possible: proved)",
        "the last machine is free at day 1 18:00 (no plan on these machines ends sooner: proved)",
    ]
    assert summary(plan(*both, least_heats=1, least=12 * HOUR)) == [
        "3 treatments in 2 heats (fewer than 1 are not possible: proved)",
        "the last machine is free at day 1 18:00 (none can end before day 1 12:00: proved)",
    ]
    assert summary(plan(slot(0, unit("W1"))))[0].startswith("1 treatment in 1 heat (")


def test_lateness_is_told_in_all_with_the_first_five() -> None:
    late = [slot(9 * n, unit(f"W{n}"), late=1800) for n in range(6)]
    told = summary(plan(slot(54, unit("W9")), *late))[2]
    assert told == (
        "6 heats begin too late, 180 min in all (with these heats less is not possible: "
        "proved): W0: sr; W1: sr; W2: sr; W3: sr; W4: sr …"
    )
    assert "less than 90 min is not possible" in summary(plan(*late, least_late=5400))[2]
    assert summary(plan(*late[:5]))[2].endswith("W4: sr")


@each_row(
    ("changed", "ready", "told"),
    [
        ({"within": HOUR}, {}, "for 1 treatment; say"),
        ({"kept": True, "keeper": "C1"}, {}, "for 1 treatment; say"),
        ({"within": HOUR}, {"W1": 0}, ""),
        ({"kept": True}, {"W1": 0}, "what keeps the preheat until W1: sr;"),
        ({"watts": None}, {}, "zones that do not state their power"),
        ({"controller": Machine("C1")}, {}, "controller C1 does not state its channels"),
        ({"recorder": Machine("R1")}, {}, "recorder R1 does not state its channels"),
        ({"supply": Machine("PS1")}, {}, "supply PS1 does not state its output"),
        ({"supply": Machine("")}, {}, "treatments without a supply"),
        ({}, {}, ""),
    ],
)
def test_what_is_not_taken_into_account_is_told(
    changed: dict[str, Any], ready: dict[str, int], told: str
) -> None:
    lines = summary(plan(slot(0, unit("W1", **changed)), ready=ready))[2:]
    assert len(lines) == bool(told)
    assert told in "".join(lines)


def test_rows_of_the_tables() -> None:
    # W2 is recorded behind the 8 channels of W1. Welded at 1 h, W1 has to begin within 3 h of it:
    # at 4 h at the latest; its preheat is kept from 1 h to the program at 2 h.
    heats = (
        slot(0, unit("W1", within=3 * HOUR, kept=True, keeper="C1"), unit("W2", watts=None)),
        slot(9, unit("W3", watts=123_460), late=600),
    )
    made = {name: data.decode() for name, data in files(plan(*heats, ready={"W1": HOUR})).items()}
    rows = list(csv.DictReader(io.StringIO(made["plan.csv"])))
    names = ("heat", "joints", "channel offset", "set-up from", "program from", "program to",
             "free at", "latest begin", "late [min]", "preheat kept [min]",
             "power [kW]")  # fmt: skip
    assert [[row[name] for name in names] for row in rows] == [
        ["1", "W1", "0", "day 1 00:00", "day 1 02:00", "day 1 08:00", "day 1 09:00", "day 1 04:00",
         "0", "60", "20.0"],
        ["1", "W2", "8", "day 1 00:00", "day 1 02:00", "day 1 08:00", "day 1 09:00", "", "0", "",
         ""],
        ["2", "W3", "0", "day 1 09:00", "day 1 11:00", "day 1 17:00", "day 1 18:00", "", "10", "",
         "123.5"],
    ]  # fmt: skip
    # Load: set up without power, then the program of the one heat, two units of 2 circuits and 8
    # channels; of the other one unit.
    load = [row[:2] + row[3:] for row in csv.reader(io.StringIO(made["load.csv"]))][1:]
    assert load == [
        ["day 1 00:00", "day 1 02:00", "0.0", "4", "16", "1"],
        ["day 1 02:00", "day 1 08:00", "20.0", "4", "16", "1"],
        ["day 1 08:00", "day 1 09:00", "0.0", "4", "16", "1"],
        ["day 1 09:00", "day 1 11:00", "0.0", "2", "8", "1"],
        ["day 1 11:00", "day 1 17:00", "123.5", "2", "8", "1"],
        ["day 1 17:00", "day 1 18:00", "0.0", "2", "8", "1"],
    ]
    shifts = made["plan.md"].partition("## By shift")[2]
    assert [line for line in shifts.splitlines() if line.startswith("| day")] == [
        "| day 1 00:00 to day 1 12:00 | 1, 2 | 1, 2 | 1 | 123.5 kW |",
        "| day 1 12:00 to day 1 18:00 | none | none | 2 | 123.5 kW |",
    ]
    assert (
        "| 1 | W1, W2 | sr | C1, R1, PS1 | W1: 1 to 8, W2: 9 to 16 | day 1 00:00 "
        "| day 1 02:00 to day 1 08:00 | day 1 09:00 | 20.0 kW |"
    ) in made["plan.md"]
    assert "| day 1 11:00 to day 1 17:00 | day 1 18:00 | 123.5 kW |" in made["plan.md"]
    assert "Setting up 2 h before the program, cooling off and taking down 1 h" in made["plan.md"]


def _chart(made: Plan) -> str:
    return files(made)["plan.svg"].decode()


def test_the_chart_has_a_bar_for_each_heat_on_the_row_of_its_controller() -> None:
    # 1100 wide, 130 for names and 10 at the end: 960 for 20 h, 48 each hour. 24 for the title and
    # 40 for the days stand above the rows.
    other = unit("W2", controller=Machine("C2", 6))
    chart = _chart(plan(slot(0, unit("W1")), slot(11, other, late=60)))
    bars = re.findall(
        r'<rect x="([\d.]+)" y="(\d+)" width="([\d.]+)" height="20" fill="(\S+)"', chart
    )
    assert bars == [
        ("130.0", "67", "432.0", "#ddd"), ("226.0", "67", "288.0", "#0072b2"),
        ("658.0", "93", "432.0", "#ddd"), ("754.0", "93", "288.0", "#d55e00"),
    ]  # fmt: skip
    names = re.findall(r'<text x="4" y="(\d+)">(\w+)<', chart)
    assert names == [("81", "C1"), ("107", "C2"), ("133", "PS1"), ("173", "R1")]
    # Each heat has its number in the middle of its program, one that is late a sign.
    words = re.findall(
        r'<text x="([\d.]+)" y="(\d+)" font-size="10" text-anchor[^>]*>([^<]+)', chart
    )
    assert words == [("370.0", "81", "1: W1"), ("898.0", "107", "2!: W2")]
    assert "program that begins too late (!)" in chart


def test_the_chart_shows_power_and_channels_up_to_all_there_is() -> None:
    """Two heats of 20 kW and 8 channels, of 65 kW and 24: set up at 0 and 6 h, together from 8 to
    14 h by the programs of 6 h that begin 2 h after. 960 for 15 h: 64 each hour; a curve is 30
    high, 40 above each other."""
    chart = _chart(plan(slot(0, unit("W1")), slot(6, unit("W2", controller=Machine("C2", 6)))))
    steps = re.findall(
        r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="([\d.]+)" fill="#999"', chart
    )
    # Power: one program from 2 to 8 h and the other from 8 to 14 h are one step; 30 * 20 / 65.
    assert steps[0] == ("258.0", "768.0", "9.2")
    # Channels: 8 from 0 to 6 h, 16 until 9 h, 8 until 15 h; 30 * 8 / 24 and twice that.
    assert steps[1:] == [
        ("130.0", "384.0", "10.0"), ("514.0", "192.0", "20.0"), ("706.0", "384.0", "10.0"),
    ]  # fmt: skip
    assert ">20 of 65 kW<" in chart
    assert ">16 of 24 channels<" in chart
    unstated = unit("W1", supply=Machine("PS1"), recorder=Machine("R1"))
    assert ">20 of not stated kW<" not in _chart(plan(slot(0, unstated)))
    assert ">20 kW of an output not stated<" in _chart(plan(slot(0, unstated)))


def test_a_line_stands_at_each_midnight_and_weeks_below_each_other() -> None:
    assert re.findall(r">(day \d+)<", _chart(plan(slot(0, unit("W1"))))) == ["day 1"]
    slots = [slot(0, unit("W1")), slot(21 * 24 - 9, unit("W2"))]
    chart = _chart(plan(*slots))
    assert re.findall(r">(day \d+)<", chart) == [f"day {n}" for n in range(1, 22)]
    # Three weeks, two of them with a bar: a week without heats has its days alone.
    tops = re.findall(r'y="(\d+)">day (1|8|15)<', chart)
    assert [int(y) for y, _ in tops] == [52, 52 + 40 + 26 + 80, 52 + 40 + 26 + 80 + 40]
    # A plan that begins at 20:00 says so, and has its first midnight 4 h later.
    begin = datetime.datetime(2026, 12, 1, 20)
    terms = Terms(2 * HOUR, HOUR, None, {}, (), 20 * HOUR)
    chart = _chart(plan(slot(0, unit("W1")), begin=begin, terms=terms))
    # 960 for 9 h.
    assert re.findall(r'<text x="([\d.]+)" y="52">([^<]+)<', chart) == [
        ("130.0", "2026-12-01 20:00"), ("556.7", "2026-12-02"),
    ]  # fmt: skip


def test_hours_at_which_nobody_is_there_are_grey_all_down_the_chart() -> None:
    # 48 for each hour of 20; nobody from 8 to 14 h of the plan, which begins at 04:00.
    terms = Terms(2 * HOUR, HOUR, None, {}, (Shift("a", 18 * 60, 36 * 60, 3),), 4 * HOUR)
    made = plan(slot(0, unit("W1")), slot(11, unit("W2")), terms=terms)
    chart = _chart(made)
    grey = re.findall(r'<rect x="([\d.]+)" y="(\d+)" width="([\d.]+)" height="(\d+)" fill="#eee"',
                      chart)  # fmt: skip
    # From 6 above the row to the foot: a row of 26 and two curves of 40.
    # The other is that of the legend.
    assert grey[0] == ("514.0", "58", "288.0", "112")
    assert len(grey) == 2
    rows = list(csv.DictReader(io.StringIO(files(made)["plan.csv"].decode())))
    assert [row[next(name for name in row if "crew" in name)] for row in rows] == ["a", ""]


def test_power_is_told_to_a_tenth_of_a_kilowatt() -> None:
    made = {name: data.decode() for name, data in
            files(plan(slot(0, unit("W1", watts=64_960)))).items()}  # fmt: skip
    assert all("65.0" in made[name] for name in ("plan.csv", "plan.md", "load.csv"))
    told = too_much(unit("W1", watts=164_960))
    assert told == "W1: sr needs 165.0 kW of PS1, which gives 65.0 kW"


def test_machines_of_a_job() -> None:
    """By hand from specs/turnaround-many.hts."""
    found = {each.joints: each for each in units(JOB)}
    pair, single = found["W21", "W22"], found["W23",]
    assert set(found) == {("W21", "W22"), ("W23",), ("W24",), ("W25",)}
    # Four zones of 10.8 kW on circuits 1 to 4; the last channel of the two joints.
    assert (pair.loops, pair.circuits, pair.watts) == (4, 4, 43_200)
    assert (single.loops, single.circuits, single.watts) == (2, 2, 21_600)
    assert pair.treatment == "pair" and single.treatment == "single"


def test_circuits_are_those_of_the_heaters_and_preheat_is_kept_by_its_controller() -> None:
    """By hand from specs/p22-header.hts: four zones of 21.6 kW, each on two circuits; 24 h from
    preheat, which C2 keeps. specs/carbon-steel-butt.hts: kept to the end of welding alone."""
    (header,) = units(job_at(ROOT / "specs/p22-header.hts"))
    assert (header.loops, header.circuits, header.inputs) == (4, 8, 16)
    assert (header.watts, header.within) == (86_400, 24 * HOUR)
    assert (header.kept, header.keeper) == (True, "C2")
    assert header.supply == Machine("PS2", None, 130_000, 12)
    assert (header.controller, header.recorder) == (Machine("C2", 12), Machine("R2", 24))
    (butt,) = units(job_at(ROOT / "specs/carbon-steel-butt.hts"))
    assert (butt.circuits, butt.within, butt.kept, butt.keeper) == (2, 240 * HOUR, False, "")
    bake, tempering = units(job_at(ROOT / "specs/p91-pipe.hts"))
    assert (bake.treatment, bake.kept, bake.keeper) == ("bake", True, "C3")
    assert (tempering.kept, tempering.within) == (False, 48 * HOUR)


def test_preheat_is_kept_from_the_first_weld_of_a_heat_on() -> None:
    both = unit("W1", joints=("W1", "W2"), kept=True, keeper="C1")
    later = unit("W3", kept=True, keeper="C1")
    ready = {"W1": 3 * HOUR, "W2": HOUR, "W3": 2 * HOUR}
    assert keepings(Heat((later, both)), ready) == [Keeping("C1", HOUR, True)]
    assert keepings(Heat((both,)), {}) == []
    away = unit("W3", kept=True, keeper="C9")
    assert keepings(Heat((away,)), ready) == [Keeping("C9", 2 * HOUR, False)]


@each_row(
    ("changed", "told"),
    [
        ({"loops": 6, "inputs": 24, "circuits": 6, "watts": 65_000}, ""),
        ({"loops": 7}, "W1: sr needs 7 control channels of C1, which has 6"),
        ({"inputs": 25}, "W1: sr needs 25 channels of R1, which has 24"),
        ({"circuits": 7}, "W1: sr needs 7 circuits of PS1, which has 6"),
        ({"watts": 65_001}, "W1: sr needs 65.1 kW of PS1, which gives 65.0 kW"),
        ({"watts": None}, ""),
    ],
)
def test_what_a_machine_has_is_just_enough_or_told(changed: dict[str, Any], told: str) -> None:
    assert too_much(unit("W1", **changed)) == told


@pytest.mark.parametrize("count", [1, 2])
def test_one_is_told_as_one_and_several_as_several(count: int) -> None:
    """Every sentence of a plan, its sheet and what is left out, with one of all and with two."""
    more = {"within": HOUR, "kept": True, "watts": None}
    bare = {"controller": Machine("C1"), "recorder": Machine("R1"), "supply": Machine("PS1")}
    some = [slot(9 * n, unit(f"W{n}", **more, **bare), late=90) for n in range(count)]
    shifts = tuple(Shift(f"c{n}", 6 * 60, 18 * 60, count) for n in range(count))
    for terms in (
        Terms(2 * HOUR, HOUR, count, {}),
        Terms(2 * HOUR, HOUR, None, {}, shifts, 0),
        Terms(2 * HOUR, HOUR, None, {f"W{n}": 0 for n in range(count)}),
    ):
        made = plan(*some)._replace(terms=terms, left_out=["W9 cannot"] * count)
        for text in (*summary(made), files(made)["plan.md"].decode()):
            assert not ONE_AS_MANY.search(text), ONE_AS_MANY.search(text)
    reasons = [
        too_much(unit("X", loops=count + 1, controller=Machine("C1", count))),
        too_much(unit("X", inputs=count + 1, recorder=Machine("R1", count))),
        too_much(unit("X", circuits=count + 1, supply=Machine("PS1", None, None, count))),
    ]
    assert all(reasons)
    for text in reasons:
        assert not ONE_AS_MANY.search(text), text
