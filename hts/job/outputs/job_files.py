"""The files of a compiled job: which there are and what is in them."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from hts.job.compiler import Job
from hts.job.outputs import csv_files, job_json, setpoint_sheet, tag_sheet

#: The file with every value and its reason.
JOB_JSON = "job.json"
_WRITERS: dict[str, Callable[[Job], str]] = {
    "setpoints.csv": csv_files.setpoints,
    "setpoints.md": setpoint_sheet.write,
    "schedule.csv": csv_files.schedule,
    "tags.csv": csv_files.tags,
    "tags.md": tag_sheet.write,
    JOB_JSON: job_json.write,
}
NAMES = tuple(_WRITERS)
#: What is for people and spreadsheets.
TABLES = tuple(name for name in NAMES if name != JOB_JSON)


def files(job: Job, names: Iterable[str] = NAMES) -> dict[str, bytes]:
    """Name -> content in UTF-8, of the files named. A table without a row is left out: it could not
    say whose it is."""
    texts = {name: _WRITERS[name](job) for name in names}
    return {name: text.encode("utf-8") for name, text in texts.items() if text}
