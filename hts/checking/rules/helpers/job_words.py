"""What a job says of its work in plain words: title, purpose, history."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case


class Words(NamedTuple):
    """A text of the job, what it is called, and where it stands."""

    what: str
    text: str
    at: Span


def headings(case: Case) -> Iterator[Words]:
    """Title and purpose of the job: what it is. What it may be applied to reaches further."""
    job = case.spec.file.job
    if job is None:
        return
    if isinstance(job.name, str):
        yield Words("title", job.name, job.place("name"))
    scope = job.scope
    if scope is not None and isinstance(scope.purpose, str):
        yield Words("purpose", scope.purpose, scope.place("purpose"))


def latest_change(case: Case) -> Iterator[Words]:
    """What the history says of the present revision, where nothing stands after it."""
    job = case.spec.file.job
    lines = job.history.lines if job is not None and job.history is not None else []
    last = lines[-1] if lines else None
    if last is None or job is None or job.revision is None or not isinstance(last.change, str):
        return
    if last.name == job.revision.name:
        yield Words("history", last.change, last.place("change"))
