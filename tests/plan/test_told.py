"""All that is told of plans that differ in it, and what is read of work to be planned, word for
word."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

pytest.importorskip("ortools", reason="the extra `plan` is not installed")

from hts.checking.rules.examples import BASES
from hts.job.compiler import compile_spec
from hts.language.model.shifts import Shift
from hts.plan.proposal import Plan
from hts.plan.timetable import Terms
from hts.plan.work import Machine, units
from hts.plan.written import files
from tests.plan.test_written import HOUR, plan, slot, unit
from tests.rich import texts
from tests.texts import spec_of
from tests.told import each_once, same

TOLD = Path(__file__).with_name("told")


def told_plans() -> dict[str, Plan]:
    """Plans that differ in all that is told of one."""
    kept = {"kept": True, "keeper": "C1"}
    many = [slot(9 * n, unit(f"K{n}", kept=True), late=1800) for n in range(7)]
    bare = {"controller": Machine(""), "recorder": Machine("", None), "supply": Machine("", None)}
    open_ended = {
        "controller": Machine("C9"), "recorder": Machine("R9"), "supply": Machine("PS9"),
        "watts": None,
    }  # fmt: skip
    begin = datetime.datetime(2026, 12, 1, 6, 30)
    shifts = (Shift("day", 6 * 60, 18 * 60, 2), Shift("late", 14 * 60, 22 * 60, 1))
    ready = {"W1": 0, "W2": HOUR, "W3": 3 * HOUR + 1800}
    return {
        "one": plan(slot(0, unit("W1"))),
        "shared": plan(
            slot(1, unit("W1", within=4 * HOUR), unit("W2", inputs=5, watts=7_250, joints=("W2",
            "W4"))),
            slot(4, unit("W3", supply=Machine("PS2"), treatment="bake", **kept), late=4500),
            ready=ready, least=12 * HOUR, least_late=1800, least_heats=1, begin=begin,
            shift=6 * HOUR,
        ),
        "many late": plan(*many, left_out=["W8: no machine", "W9: no crew"]),
        "nothing stated": plan(slot(0, unit("W1", **bare)), slot(0, unit("W2", **open_ended))),
        "nothing stated, twice": plan(
            slot(0, unit("W1", **open_ended, within=HOUR), unit("W5", **open_ended, joints=("W5",
            "W1"))),
            slot(2, unit("W2",
            controller=Machine("C8"), recorder=Machine("R8"), supply=Machine("P"))),
            ready={"W1": 0},
        ),
        "crews": plan(slot(2, unit("W1")), slot(20, unit("W2")), begin=begin,
                      terms=Terms(2 * HOUR, HOUR, None, {}, shifts, 23_400)),
        "weeks": plan(
            slot(0, unit("W1"), unit("W2", joints=("W2", "W3", "W4", "W5", "W6", "W7", "W8"))),
            slot(7 * 24 - 5, unit("W9"), late=900), slot(21 * 24 - 9, unit("W10")), begin=begin,
            terms=Terms(2 * HOUR, HOUR, None, {}, shifts, 23_400),
        ),
        "weeks by number": plan(slot(0, unit("W1")), slot(9 * 24, unit("W2", watts=9_990)),
                                terms=Terms(2 * HOUR, HOUR, None, {}, (), 20 * HOUR)),
        "two at once": plan(slot(0, unit("W1")), terms=Terms(5400, 900, 2, {})),
    }  # fmt: skip


def told(made: Plan) -> str:
    text = "\n".join(f"--- {file}\n{content.decode()}" for file, content in files(made).items())
    return text.replace("\r\n", "\n")


def test_told() -> None:
    each_once(TOLD / "plans.txt", {name: told(made) for name, made in told_plans().items()})


#: What the text says otherwise -> what is read of the work then.
OTHERWISE = {
    "as it stands": [],
    "flames": [("method            resistance", "method            gas")],
    "no method": [("  method            resistance\n", "")],
    "induction": [("method            resistance", "method            induction")],
    "no controller": [("  controlled by       C1\n", "")],
    "no recorder": [("  recorded by         R1\n", "")],
    "no supply": [("  powered by          PS1\n", "")],
    "no output": [("  output    65 kVA\n", "")],
    "no circuits": [("  circuits  6\n", "")],
    "one power": [("from 9:00 to 3:00 power 9 kW", "from 9:00 to 3:00")],
}


def read(name: str, text: str) -> str:
    found = units(compile_spec(spec_of(text)))
    said = [
        f"{field}={value}"
        for each in found
        for field, value in each._asdict().items()
        if field != "program"
    ]
    return "\n".join([name, *(f"  {line}" for line in said)])


def test_what_is_read_of_the_work() -> None:
    kept = BASES["butt"].replace(
        "keep until        end of welding", "keep until        post-weld heat treatment"
    )
    lines = []
    for name, changes in OTHERWISE.items():
        text = kept
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new)
        lines.append(read(name, text))
    for name in texts.PATHS:
        for each in units(texts.job(name)):
            lines.append(f"{name}: {each._replace(program=())}")
    same(TOLD / "work.txt", "work", "\n".join(lines))
