"""One line of the table: a record and what became of it, or a run without one."""

from __future__ import annotations

from typing import NamedTuple

NO_RECORD = "no record"
NOT_JUDGED = "could not judge"


class ArchiveLine(NamedTuple):
    """`verdict` is met, not met, not shown, conditional, NO_RECORD or NOT_JUDGED. `failed` and
    `open` name the requirements that are not met and not shown; `note` says why, or what is to
    be known. `start` is by the record's own clock."""

    document: str
    revision: str
    joint: str
    cycle: str
    record: str
    start: str
    verdict: str
    failed: str
    open: str
    note: str
    fingerprint: str


HEADS = ArchiveLine(
    "document",
    "revision",
    "joint",
    "cycle",
    "record",
    "start",
    "verdict",
    "not met",
    "not shown",
    "note",
    "record fingerprint",
)
