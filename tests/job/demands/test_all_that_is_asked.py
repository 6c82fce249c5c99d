"""Everything a run is asked, of texts that say nearly everything: digests, for the words of it are
held in `tests/job/outputs`."""

from __future__ import annotations

from functools import cached_property
from pathlib import Path

from hts.job.demands import critical, guard
from hts.job.demands.asked import Asked
from tests import told
from tests.rich import texts
from tests.rich.dumped import dumped

KEPT = Path(__file__).with_name("told")
NAMES = [name for name, one in vars(Asked).items() if isinstance(one, property | cached_property)]


def test_all_that_is_asked() -> None:
    lines = []
    for name in texts.NAMES:
        job = texts.job(name)
        runs = [Asked(job, sheet, run) for sheet in job.joints for run in sheet.runs]
        asked = [
            line
            for run in runs
            for what in NAMES
            for line in dumped(getattr(run, what), f"{run.name}/{what}")
        ]
        asked += [line for run in runs for line in dumped(guard.guard(run), "guard")]
        asked += [line for run in runs for line in dumped(critical.margins(run), "margins")]
        lines.append(f"{name}: {told.digest(asked)}")
        told.write_whole(KEPT / "asked.txt", name, asked)
    told.same(KEPT / "asked.txt", "all", "\n".join(lines))
