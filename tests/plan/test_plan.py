"""Heats and timetables: capacities are kept, bounds are true, a proposal changes nothing."""

from __future__ import annotations

import csv
import io
import shutil
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

pytest.importorskip("ortools", reason="the extra `plan` is not installed")

from hts.cli.plan import command
from hts.plan.heats import Heat, _most, heats
from hts.plan.load import loads
from hts.plan.propose import in_order, propose
from hts.plan.timetable import TICK, timetable
from hts.plan.work import too_much
from tests.plan.units import HOUR, at, terms, unit
from tests.rows import each_row
from tests.specs.found import SPECS


@settings(max_examples=25)
@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 12)), min_size=1, max_size=9))
def test_heats_keep_what_a_machine_has_and_are_no_fewer_than_proved(
    sizes: list[tuple[int, int]],
) -> None:
    units = [unit(f"W{n}", loops=a, inputs=b) for n, (a, b) in enumerate(sizes)]
    packed, least = heats(units)
    assert sorted(u.name for h in packed for u in h.units) == sorted(u.name for u in units)
    for heat in packed:
        assert heat.total("loops") <= 6
        assert heat.total("inputs") <= 24
        assert heat.total("watts") <= 65_000
    assert least <= len(packed)
    # By hand: what is needed in all over what one heat has, rounded up.
    assert least >= -(-sum(a for a, _ in sizes) // 6)


def test_a_packing_first_fit_misses_is_found() -> None:
    """4 4 4 2 2 2 in the order 2 2 2 4 4 4: first fit takes four heats of six, three will do."""
    units = [
        unit(f"W{n}", loops=size, inputs=1, watts=0) for n, size in enumerate((2, 2, 4, 4, 2, 4))
    ]
    packed, least = heats(units)
    assert (len(packed), least) == (3, 3)


def test_what_is_welded_too_late_for_another_shares_no_heat_with_it() -> None:
    """W0 has to begin within 3 h of its weld, and W2 is welded 20 h after it."""
    units = [unit(f"W{n}", within=3 * HOUR, inputs=1, watts=0) for n in range(3)]
    ready = {"W0": 0, "W1": 2 * HOUR, "W2": 20 * HOUR}
    packed, least = heats(units, ready)
    assert [[u.joints[0] for u in heat.units] for heat in packed] == [["W0", "W1"], ["W2"]]
    assert least <= 2
    assert timetable(packed, terms(ready=ready)).late == HOUR  # W1 at 2 h, set up until 4 h


def test_a_timetable_uses_no_machine_twice_and_ends_as_soon_as_can_be() -> None:
    """Five heats of 6 h with 3 h around on one controller: 45 h, as arithmetic has it."""
    packed = [Heat((unit(f"W{n}"),)) for n in range(5)]
    found = timetable(packed, terms())
    assert found.end == found.least == 5 * 9 * HOUR
    for first, then in pairwise(found.slots):
        assert then.begin >= first.end
    assert all(slot.begin % TICK == 0 for slot in found.slots)


def test_supplies_crews_and_recorders_are_shared_between_controllers() -> None:
    # Three controllers, 20 kW each, one supply of 65 kW: all at once. With two crews not.
    packed = [Heat((unit(f"W{n}", controller=f"C{n}"),)) for n in range(3)]
    assert timetable(packed, terms()).end == 9 * HOUR
    assert timetable(packed, terms(crews=2)).end == 18 * HOUR
    hungry = [Heat((unit(f"W{n}", controller=f"C{n}", watts=40_000),)) for n in range(2)]
    found = timetable(hungry, terms())
    # The programs do not overlap, setting up does.
    assert found.end == 2 * HOUR + 12 * HOUR + HOUR
    assert max(each.watts for each in loads(found.slots)) == 40_000
    wide = [Heat((unit(f"W{n}", controller=f"C{n}", inputs=13),)) for n in range(2)]
    assert timetable(wide, terms()).end == 18 * HOUR


def test_a_treatment_begins_within_its_time_where_that_can_be_and_else_is_told_late() -> None:
    ready = {"W0": 0, "W1": 4 * HOUR}
    urgent = unit("W1", within=4 * HOUR)
    found = timetable([Heat((unit("W0", hours=5),)), Heat((urgent,))], terms(ready=ready))
    by_name = {slot.heat.first.joints[0]: slot for slot in found.slots}
    assert by_name["W1"].start <= 8 * HOUR
    assert by_name["W1"].begin >= 4 * HOUR
    assert found.late == 0
    both = [Heat((unit(f"W{n}", within=3 * HOUR),)) for n in range(2)]
    late = timetable(both, terms(ready={"W0": 0, "W1": 0}))
    # The second begins 9 h after the first, which begins at 2 h: 8 h after its 3 h.
    assert late.late == late.least_late == 8 * HOUR


def test_a_bake_comes_before_the_cycle_of_its_joint() -> None:
    bake = unit("W0", controller="C2", hours=2, treatment="bake")
    cycle = unit("W0", hours=6)
    found = timetable([Heat((cycle,)), Heat((bake,))], terms())
    starts = {slot.heat.first.treatment: slot for slot in found.slots}
    assert starts["sr"].start >= starts["bake"].finish


def test_a_controller_that_keeps_preheat_is_taken_from_the_end_of_welding_on() -> None:
    """By hand: W0 is welded at 4 h and set up 2 h before; with 6 h of program and 1 h after it the
    machine is free at 11 h. W1 (2 + 6 + 1 h) fits in only behind: not at 0, where it would end at
    9 h, although nothing is heated before 4 h."""
    kept, plain = unit("W0", keeper="C1"), unit("W1")
    found, left = propose([Heat((kept,)), Heat((plain,))], terms(ready={"W0": 4 * HOUR}), at)
    slots = {slot.heat.first.joints[0]: slot for slot in found.slots}
    assert (slots["W0"].begin, slots["W0"].start, slots["W0"].end) == (
        2 * HOUR,
        4 * HOUR,
        11 * HOUR,
    )
    assert slots["W1"].begin == 11 * HOUR
    assert left == []


def test_preheat_kept_by_another_controller_takes_that_one() -> None:
    """C2 keeps W0 from 0 h until its program begins on C1 at 2 h; only then is C2 set up anew."""
    kept, other = unit("W0", keeper="C2"), unit("W1", controller="C2")
    found, _ = propose([Heat((kept,)), Heat((other,))], terms(ready={"W0": 0}), at)
    slots = {slot.heat.first.joints[0]: slot for slot in found.slots}
    assert slots["W0"].start == 2 * HOUR
    assert slots["W1"].begin == 2 * HOUR


def test_what_cannot_be_kept_is_left_out_and_told_why() -> None:
    first, second, plain = unit("W0", keeper="C1"), unit("W1", keeper="C1"), unit("W2")
    heats_ = [Heat((each,)) for each in (second, first, plain)]
    found, left = propose(heats_, terms(ready={"W0": 0, "W1": HOUR}), at)
    assert [slot.heat.first.joints[0] for slot in found.slots] == ["W0", "W2"]
    (why,) = left
    assert why.startswith("W1: sr: its preheat has to be kept by C1 from 0 h on, but C1 is taken")
    assert "until 7 h at least by W0: sr" in why
    # At 9 h the machine is free and set up again.
    found, left = propose(heats_, terms(ready={"W0": 0, "W1": 9 * HOUR}), at)
    assert len(found.slots) == 3
    assert left == []


def test_what_no_recorder_has_room_for_is_left_out_too() -> None:
    wide = [unit(f"W{n}", controller=f"C{n}", keeper=f"C{n}", inputs=13) for n in range(3)]
    ready = {"W0": 0, "W1": HOUR, "W2": 20 * HOUR}
    found, left = propose([Heat((each,)) for each in wide], terms(ready=ready), at)
    assert [slot.heat.first.joints[0] for slot in found.slots] == ["W0", "W2"]
    assert len(left) == 1
    assert left[0].startswith("W1: sr: its preheat has to be kept from 1 h until it begins, and R1")


@settings(max_examples=25)
@given(st.lists(st.tuples(st.integers(0, 30), st.booleans()), min_size=1, max_size=6))
def test_nothing_else_takes_a_controller_while_it_keeps_preheat(
    welds: list[tuple[int, bool]],
) -> None:
    units = [unit(f"W{n}", keeper="C1" if keep else None) for n, (_, keep) in enumerate(welds)]
    ready = {f"W{n}": hour * HOUR for n, (hour, _) in enumerate(welds)}
    found, left = propose([Heat((each,)) for each in units], terms(ready=ready), at)
    assert len(found.slots) + len(left) == len(units)
    for first, then in pairwise(found.slots):
        assert then.begin >= first.end
    for slot in found.slots:
        since = ready[slot.heat.first.joints[0]]
        assert slot.start >= since
        if slot.heat.first.kept:
            assert slot.begin <= max(0, since - 2 * HOUR)


def test_heats_that_could_change_places_stand_in_the_order_of_the_text() -> None:
    """W1 lasts longer and keeps its place; W3 has a bake before it and keeps its own, too."""
    units = [unit(f"W{n}", hours=7 if n == 1 else 6) for n in range(4)]
    bake = unit("W3", treatment="bake")
    order = [units[2], units[1], bake, units[0], units[3]]
    found = timetable([Heat((each,)) for each in order], terms())
    slots = [slot._replace(heat=Heat((u,))) for slot, u in zip(found.slots, order, strict=True)]
    table = in_order(found._replace(slots=slots), [*units, bake], terms())
    assert [slot.heat.first.name for slot in table.slots] == [
        "W0: sr", "W1: sr", "W3: bake", "W2: sr", "W3: sr",
    ]  # fmt: skip
    assert [slot[1:] for slot in table.slots] == [slot[1:] for slot in slots]
    # What is welded at another time cannot change places.
    ready = {"W0": 3 * HOUR, "W2": 0}
    kept = in_order(found._replace(slots=slots), [*units, bake], terms(ready=ready))
    assert kept.slots == slots


def test_a_timetable_of_heats_that_are_alike_has_them_in_the_order_of_the_text() -> None:
    """On each of two machines; what has to begin within a time is not held to it."""
    alike = [unit(f"{c}{n}", controller=c) for n in range(3) for c in ("C1", "C2")]
    found = timetable([Heat((each,)) for each in alike], terms())
    for machine in ("C1", "C2"):
        names = [slot.heat.first.joints[0] for slot in found.slots]
        assert [name for name in names if name.startswith(machine)] == [
            f"{machine}{n}" for n in range(3)
        ]
    urgent = unit("C19", controller="C1", within=5 * HOUR)
    heats_ = [Heat((each,)) for each in (*alike, urgent)]
    found = timetable(heats_, terms(ready={"C19": 0}))
    assert found.late == 0
    assert next(s for s in found.slots if s.heat.first is urgent).start == 2 * HOUR


def test_what_no_machine_can_hold_is_told() -> None:
    assert too_much(unit("W0", inputs=25)) == "W0: sr needs 25 channels of R1, which has 24"
    assert "65.0 kW" in too_much(unit("W0", watts=70_000))
    assert too_much(unit("W0")) == ""


def test_where_nothing_can_be_planned_it_says_why(tmp_path: Path) -> None:
    text = (SPECS / "p22-header.hts").read_text("utf-8")
    shutil.copytree(SPECS / "library", tmp_path / "library")
    spec = tmp_path / "one.hts"
    line = next(each for each in text.splitlines() if each.lstrip().startswith("governed by"))
    for crew, expected in (
        ("crew nights from 22:00 to 06:00 watches 1", "no heat can be planned"),
        (
            "crew nights from 22:00 to 06:00 watches 0",
            "nothing is planned: the text has an error\n",
        ),
    ):
        spec.write_text(text.replace(line, f"{line}\n  {crew}", 1), "utf-8")
        run = CliRunner().invoke(command, [str(spec)])
        assert run.exit_code == 1
        assert expected in run.output
        assert "proved" not in run.output


def test_the_plan_of_a_job_is_written_and_the_same_each_time(tmp_path: Path) -> None:
    spec = str(SPECS / "turnaround-many.hts")
    ready = tmp_path / "ready.csv"
    ready.write_text("weld,ready\nW23,2026-12-01 06:00\nW24,2026-12-01 10:00\n", "utf-8")
    told = []
    for folder in ("a", "b"):
        run = CliRunner().invoke(
            command,
            [
                *(spec, "-o", str(tmp_path / folder)),
                *("--from", "2026-12-01 06:00", "--ready", str(ready)),
            ],
        )
        assert run.exit_code == 0, run.output
        told.append({p.name: p.read_bytes() for p in (tmp_path / folder).iterdir()})
    assert told[0] == told[1]
    assert "A proposal, not an order" in told[0]["plan.md"].decode()
    rows = list(csv.DictReader(io.StringIO(told[0]["plan.csv"].decode())))
    # W21 and W22 are heated together, the others one by one on the same machine.
    assert [row["joints"] for row in rows if row["treatment"] == "pair"] == ["W21 W22"]
    assert len(rows) == 4
    alone = sorted((r["set-up from"], r["free at"]) for r in rows if r["treatment"] == "single")
    assert all(then[0] >= first[1] for first, then in pairwise(alone))


def test_a_wrong_table_of_times_is_refused_at_its_place(tmp_path: Path) -> None:
    ready = tmp_path / "ready.csv"
    ready.write_text("weld,ready\nW99,2026-12-01 06:00\n", "utf-8")
    run = CliRunner().invoke(
        command,
        [str(SPECS / "turnaround-many.hts"), "--from", "2026-12-01 06:00", "--ready", str(ready)],
    )
    assert run.exit_code != 0
    assert "ready.csv:2:1: no joint that is treated is named 'W99'" in run.output


@each_row(
    ("circuits", "limit", "most"),
    [((3, 3, 3), 6, 2), ((1, 2, 3), 6, 3), ((1, 2, 3), 5, 2), ((4, 4), 3, 1), ((0, 0), 1, 2)],
)
def test_how_many_of_the_smallest_fit(circuits: tuple[int, ...], limit: int, most: int) -> None:
    those = [unit(f"W{n}")._replace(circuits=count) for n, count in enumerate(circuits)]
    assert _most(those, {"circuits": limit}) == most
    assert _most(those, {"circuits": limit, "loops": 10**6}) == most
    assert _most(those, {}) == len(those)
