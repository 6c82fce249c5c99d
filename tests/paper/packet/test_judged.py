"""What a record is judged by stands on the paper before the run: the judgement of a record against
the text of the packet. Nothing is judged that nobody at the pipe could have read."""

import re
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from hts.checking.checker.run import check_spec
from hts.job.compiler.job import Job
from hts.job.demands.asked import Asked
from hts.job.outputs.requirements import requirements
from hts.job.outputs.show import Shown
from hts.record.judging import judge
from hts.record.judging.verdict import Verdict
from hts.record.plan import Plan
from hts.record.record import POWER_BACK, POWER_LOST, REPLACED, Event
from tests.jobs import job_at
from tests.pairs.choices import ALONE, Choice, besides
from tests.pairs.cover import text_of, together
from tests.paper.packet.jobs import GOOD, bare, of_text, texts_of
from tests.record.judging.made import course, every, record
from tests.texts import spec_of

#: Right specifications of what the examples do not show: furnaces, vessels, repairs.
RIGHT = sorted(Path(__file__).parents[2].joinpath("specs", "right").glob("*.hts"))
#: Told of a record in which it happened, and of no other; a guard band tells in every verdict.
WHERE_IT_HAPPENS = {
    "clock of the record",
    "interruption of the hold",
    "cooling fault",
    "guard band",
}
_NUMBER = re.compile(r"(?<![\w.:-])\d+(?:\.\d+)?(?![\w:-])")


def judged(job: Job) -> list[tuple[Plan, Verdict]]:
    """The verdicts on a record of every run, too fast on the way up, with a loss of power and a
    thermocouple that was changed."""
    found = []
    times = every(60.0, 800.0)
    for sheet in job.joints:
        for run in sheet.runs:
            plan = Plan(job, sheet, run)
            top = float(run.program.target.value) if run.program.target is not None else 100.0
            way = course(((0, 15.0), (20, top), (500, top), (520, 15.0), (800, 15.0)), times)
            values = {one.tag: np.copy(way) for one in plan.watched}
            events = [Event(POWER_LOST, 3600.0), Event(POWER_BACK, 4200.0)]
            if plan.required:
                tag = plan.required[0].tag
                events.append(Event(REPLACED, 6000.0, tag, plan.watched[-1].tag))
            found += [(plan, one) for one in judge(record(values, times, events), plan).verdicts]
    return found


def _same_figures(judged_by: str, printed: str) -> bool:
    told = [float(number) for number in _NUMBER.findall(printed)]
    return all(
        any(abs(float(number) - one) <= 1.0 for one in told)
        for number in _NUMBER.findall(judged_by)
    )


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.stem)
def test_every_requirement_that_is_judged_is_printed(path: Path) -> None:
    job = job_at(path)
    shown = Shown(job.units).single()
    text = bare("".join(page for pages in texts_of(path).values() for page in pages))
    seen = 0
    for plan, verdict in judged(job):
        printed = requirements(Asked(job, plan.sheet, plan.run), shown)
        # A spread may be limited over several distances, each in a row of its own.
        rows = [one for one in printed if one.name == verdict.requirement]
        assert rows, verdict
        for row in rows:
            assert bare(f"{row.name}{row.specified}") in text or bare(row.specified) in text, row
        # The figures are the same; those of the judge are not rounded to whole degrees.
        assert any(_same_figures(verdict.specified, row.specified) for row in rows), verdict
        seen += 1
    assert seen > 8


def silent(job: Job) -> set[tuple[str, str]]:
    """What is printed and neither judged nor left to other papers: treatment and requirement."""
    shown = Shown(job.units).single()
    names: dict[str, set[str]] = {}
    for plan, verdict in judged(job):
        names.setdefault(plan.address, set()).add(verdict.requirement)
    found = set()
    for sheet in job.joints:
        for run in sheet.runs:
            asked = Asked(job, sheet, run)
            printed = {one.name for one in requirements(asked, shown)} - WHERE_IT_HAPPENS
            found |= {(asked.address, name) for name in printed - names.get(asked.address, set())}
    return found


@pytest.mark.parametrize("paths", [GOOD, RIGHT], ids=["examples", "right"])
def test_every_requirement_that_is_printed_is_judged_or_left_to_other_papers(
    paths: list[Path],
) -> None:
    """A limit that stands on the paper is never silent in the report of its run."""
    assert {path.stem: silent(job_at(path)) for path in paths} == {
        path.stem: set() for path in paths
    }


def packed(choices: list[Choice]) -> Iterator[str]:
    """Texts without an error in which every choice stands once, as many in each as go together."""
    while choices:
        row: tuple[Choice, ...] = ()
        for choice in choices:
            if all(together(choice, other) for other in row):
                text = text_of((*row, choice))
                if not any(one.severity == "error" for one in check_spec(spec_of(text))):
                    row = (*row, choice)
        assert row, [str(choice) for choice in choices]
        choices = [choice for choice in choices if choice not in row]
        yield text_of(row)


def test_whatever_can_be_said_of_a_run_is_judged_or_left_to_other_papers() -> None:
    """Every optional thing the vocabulary has for preheat, bake and cycle."""
    about = ("cycle.", "bake.", "preheat.", "hold.", "heat.", "cool.")
    choices = [one for one in besides() if one.about.startswith(about) and one.about not in ALONE]
    texts = list(packed([one for one in choices if "predict" not in one.about]))
    assert len(choices) > 60
    assert set.union(*(silent(of_text(text)) for text in texts)) == set()
