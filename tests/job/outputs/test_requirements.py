"""What is asked of the record, in the words of paper: each figure from the text, by hand."""

from __future__ import annotations

import pytest

from hts.base.text import Source
from hts.job.compiler import Job, compile_spec
from hts.job.demands.asked import Asked
from hts.job.outputs.index_page import Entry, index_page
from hts.job.outputs.requirements import requirements
from hts.job.outputs.show import Shown
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from tests.paper.packet.jobs import ROOT, job_of

#: 610 mm header in P22 tempered at 760 degC: preheated to 180 degC at 150 degC/h at most; held at
#: 690 .. 720 degC, heated and cooled at 120 degC/h at most above 300 degC.
JOB = job_of(ROOT / "specs/p22-header.hts")
(SHEET,) = JOB.joints


def asked(kind: str, job: Job = JOB) -> dict[str, str]:
    (sheet,) = job.joints
    run = next(run for run in sheet.runs if run.program.kind == kind)
    found = requirements(Asked(job, sheet, run), Shown(job.units).single())
    return {one.name: one.specified.replace("\N{NO-BREAK SPACE}", " ") for one in found}


@pytest.mark.parametrize(
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
    loader = Loader(root_of(str(path)))
    source = Source(text.replace(step, f"{step} {rate}"), path.name, str(path))
    assert asked("cycle", compile_spec(Spec(source, loader)))[name] == words
