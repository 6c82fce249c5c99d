"""The files of a compiled job: which there are and what is in them."""

from __future__ import annotations

from hts.job.compiler import Job
from hts.job.outputs import csv_files, job_json, setpoint_sheet, tag_sheet

NAMES = ("setpoints.csv", "setpoints.md", "schedule.csv", "tags.csv", "tags.md", "job.json")


def files(job: Job) -> dict[str, bytes]:
    """Name -> content in UTF-8. A table without a row is left out: it could not say whose it is."""
    texts = (
        csv_files.setpoints(job),
        setpoint_sheet.write(job),
        csv_files.schedule(job),
        csv_files.tags(job),
        tag_sheet.write(job),
        job_json.write(job),
    )
    return {name: text.encode("utf-8") for name, text in zip(NAMES, texts, strict=True) if text}
