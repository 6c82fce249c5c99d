"""What is asked of the record, in the words of paper: each figure from the text, by hand."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.base.text import Source
from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.job.demands.asked import Asked
from hts.job.outputs.index_page import Entry, index_page
from hts.job.outputs.requirements import _grouped, requirements
from hts.job.outputs.show import Shown
from hts.language.model import Spec
from tests import told
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT, of_text
from tests.rich import texts
from tests.rows import each_row
from tests.texts import examples

KEPT = Path(__file__).with_name("told")

#: 610 mm header in P22 tempered at 760 degC: preheated to 180 degC at 150 degC/h at most; held at
#: 690 .. 720 degC, heated and cooled at 120 degC/h at most above 300 degC.
JOB = job_at(ROOT / "specs/p22-header.hts")
(SHEET,) = JOB.joints


def asked(kind: str, job: Job = JOB) -> dict[str, str]:
    (sheet,) = job.joints
    run = next(run for run in sheet.runs if run.program.kind == kind)
    found = requirements(Asked(job, sheet, run), Shown(job.units).single())
    return {one.name: one.specified.replace("\N{NO-BREAK SPACE}", " ") for one in found}


@each_row(
    ("kind", "name", "words"),
    [
        # A limit counts from the colder end of its step, whichever way it goes.
        ("preheat", "heating rate", "at most 150 °C/h above 20 °C; judged over 15 min"),
        ("cycle", "heating rate", "at most 120 °C/h above 300 °C; judged over 15 min"),
        ("cycle", "cooling rate", "at most 120 °C/h above 300 °C; judged over 15 min"),
        ("cycle", "hold time",
         "every required thermocouple in 690 °C to 720 °C for at least 2 h"),
        ("cycle", "highest temperature", "at most 720 °C"),
        # 805 and 760 degC less the 25 and 20 K the cycle keeps.
        ("cycle", "margin below lower critical temperature", "at most 780 °C: 25 K below 805 °C"),
        ("cycle", "margin below tempering temperature", "at most 740 °C: 20 K below 760 °C"),
    ],
)  # fmt: skip
def test_what_is_asked_of_the_record(kind: str, name: str, words: str) -> None:
    assert asked(kind)[name] == words


#: Of texts that say nearly everything, by hand from their lines, in the units each shows first:
#: 315 degC is 599 degF, 93 degC 199.4, 250 degC 482.
OF_RICH = """
pipe-a | bake | delay before testing | not before 48 h have passed
pipe-a | bake | kept hot before | from preheat: the weld stays at least 200 °C until it is heated
pipe-a | bake | share of the hold at the heated edge | at least 50 % of the lowest required reading, in °C
pipe-a | stress-relief | longest hold | no required thermocouple in 700 °C to 730 °C, or above it, for more than 6 h
pipe-b | stress-relief | charging of the furnace | furnace at charging at most 572 °F
pipe-b | stress-relief | slowest rate, step 2 | at least 90 °F/h from 599 °F to 1292 °F, where the hold begins
pipe-b | stress-relief | hold time, step 5 | every required thermocouple in 1256 °F to 1292 °F for at least 1 h 5 min
pipe-c | preheat | greatest preheat | at most 482 °F before the first arc
pipe-c | stress-relief | cooled before heat treatment | the weld has been below 199 °F first
pipe-d | bake | hydrogen left | at most 30 % of the hydrogen left in the wall, by estimate
pipe-d | bake | mean of the hold, all | mean of all in 695 °C to 715 °C for as long as the hold is asked to last
pipe-d | stress-relief | delay before heat treatment | heating begins within 24 h of the end of welding
pipe-d | stress-relief | slowest rate, step 5 | at least 50 °C/h from 315 °C to 300 °C
pipe-d | stress-relief | unloading of the furnace | furnace at unloading at most 300 °C
pipe-e | stress-relief | time at temperature, all treatments | at most 10 h: PQR-31 with 8 h / 0.8; 2 h of it had before
"""  # noqa: E501


@cache
def of_rich(name: str) -> list[str]:
    job = texts.job(name)
    return [
        f"{run.program.name} | {one.stage} | {one.name} | {one.specified}"
        for sheet in job.joints
        for run in sheet.runs
        for one in requirements(Asked(job, sheet, run), Shown(job.units).single())
    ]


@each_row("line", OF_RICH.strip().splitlines())
def test_what_is_asked_under_texts_that_say_nearly_everything(line: str) -> None:
    name, run, what, words = line.split(" | ")
    rows = [row.replace("\N{NO-BREAK SPACE}", " ").split(" | ") for row in of_rich(name)]
    assert words in [row[3] for row in rows if (row[0], row[2]) == (run, what)]


def test_every_requirement() -> None:
    """The words stand in the packets, too, where they are read: here it is held that they stay."""
    digests = [f"{name}: {told.digest(of_rich(name))}" for name in texts.NAMES]
    told.same(KEPT / "requirements.txt", "of each text", "\n".join(digests))


def test_the_page_links_what_lies_beside_it() -> None:
    page = index_page(
        JOB, [Entry("W12", (SHEET,), ("packet.pdf",))], ["setpoints.md", "W12/tags.md"]
    )
    assert 'href="setpoints.md"' in page
    assert 'href="W12/tags.md"' not in page


@pytest.mark.parametrize(
    ("slowest", "name", "words"),
    [
        # A heating into a hold of 690 .. 720 degC is gone through at 690, a cooling to 300 at 300.
        (("heat to 705 degC        at most 120 degC/h", "at least 40 degC/h"),
         "slowest rate, step 2", "at least 40 °C/h from 300 °C to 690 °C, where the hold begins"),
        (("cool to 300 degC        at most 120 degC/h", "at least 30 degC/h"),
         "slowest rate, step 4", "at least 30 °C/h from 705 °C to 300 °C"),
    ],
)  # fmt: skip
def test_a_slowest_rate(slowest: tuple[str, str], name: str, words: str) -> None:
    path = ROOT / "specs/p22-header.hts"
    text = path.read_text("utf-8")
    step, rate = slowest
    assert text.count(step) == 1
    loader = examples()
    source = Source(text.replace(step, f"{step} {rate}"), path.name, str(path))
    assert asked("cycle", compile_spec(Spec(source, loader)))[name] == words


def test_neighbouring_holds_of_one_range_of_which_one_has_a_longest_time() -> None:
    """2 h of at most 3 h and 1 h 30 min without an end: 3 h 30 min at least, 4 h 30 min at most."""
    first = "  hold  700 .. 730 degC for 2 h"
    both = f"{first} at most 3 h\n  hold  700 .. 730 degC for 1 h 30 min\n"
    assert BUTT.count(f"{first}\n") == 1
    found = asked("cycle", of_text(BUTT.replace(f"{first}\n", both)))
    assert found["hold time"].endswith(" for at least 3 h 30 min")
    assert found["longest hold"] == (
        "no required thermocouple in 700 °C to 730 °C, or above it, for more than 3 h in step 3, "
        "4 h 30 min in all steps of it"
    )


@pytest.mark.parametrize(
    ("counts", "begins", "words"),
    [
        ("while all in range", "counts from all in range", "every required thermocouple in"),
        ("while controlling in range", "", "the controlling thermocouples in"),
        (
            "while controlling in range",
            "counts from all in range",
            "the controlling thermocouples in … , counted from when all are in range",
        ),
    ],
)
def test_from_when_a_hold_counts(counts: str, begins: str, words: str) -> None:
    text = BUTT.replace("hold counts         while all in range", f"hold counts         {counts}")
    text = text.replace("730 degC for 2 h\n", f"730 degC for 2 h {begins}\n")
    start, _, end = words.partition(" … ")
    said = asked("cycle", of_text(text))["hold time"]
    assert said == f"{start} 700 °C to 730 °C for at least 2 h{end}"


@each_row(
    ("holds", "groups"),
    [
        ([], []),
        ([(3, "a")], [1]),
        ([(3, "a"), (4, "a")], [2]),
        ([(3, "a"), (4, "b")], [1, 1]),
        ([(3, "a"), (5, "a")], [1, 1]),
        ([(3, "a"), (4, "a"), (5, "b"), (6, "b")], [2, 2]),
    ],
)
def test_holds_that_belong_together(holds: list[tuple[int, str]], groups: list[int]) -> None:
    """Side by side and of one range."""
    steps: Any = tuple(Stub(number=number, window=window) for number, window in holds)
    found = _grouped(steps)
    assert [len(group) for group in found] == groups and [s for g in found for s in g] == [*steps]


def test_the_highest_of_several_holds_is_the_highest_temperature() -> None:
    held = "  hold  700 .. 730 degC for 2 h"
    for first, second in (("700 .. 720", "710 .. 740"), ("710 .. 740", "700 .. 720")):
        both = f"  hold {first} degC for 1 h\n  hold {second} degC for 1 h"
        found = asked("cycle", of_text(BUTT.replace(held, both)))
        assert found["highest temperature"] == "at most 740 °C"
