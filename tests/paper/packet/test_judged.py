"""What a record is judged by stands on the paper before the run: the judgement of a record against
the text of the packet. Nothing is judged that nobody at the pipe could have read."""

import re
from pathlib import Path

import numpy as np
import pytest

from hts.job.compiler.job import Job
from hts.job.demands.asked import Asked
from hts.job.outputs.requirements import requirements
from hts.job.outputs.show import Shown
from hts.record.judging import judge
from hts.record.judging.verdict import Verdict
from hts.record.plan import Plan
from hts.record.record import POWER_BACK, POWER_LOST, REPLACED, Event
from tests.paper.packet.jobs import GOOD, bare, job_of, texts_of
from tests.record.judging.made import course, every, record

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
    job = job_of(path)
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
