"""One line of the table: a record and what became of it, or a run without one."""

from __future__ import annotations

from typing import NamedTuple

NO_RECORD = "no record"
#: Nothing is due: the document is not released for work, or all it has is preheat.
NONE_DUE = "none due"
NOT_JUDGED = "could not judge"

#: Why something could not be judged, in a word: a file that cannot be read; a log that does not say
#: what document it is of; a document there is no specification of, or several; a specification
#: that cannot be made out, or without the values a run is held to; a joint or cycle the document
#: has not; a log in which no readings of the run can be made out; a results file like that.
UNREADABLE, UNNAMED, UNKNOWN, AMBIGUOUS = "unreadable", "unnamed", "unknown", "ambiguous"
ERRORS, INCOMPLETE, FOREIGN, READINGS = "errors", "incomplete", "foreign", "readings"
RESULTS = "results"


class ArchiveLine(NamedTuple):
    """`record` are the logs of the run, joined by ` + `; empty in a line on a run or a
    specification without one. `start` is by the record's own clock. `verdict` is met, not met,
    not shown, conditional, NO_RECORD, NONE_DUE or NOT_JUDGED, and with the last `why` is the word
    for it. `failed` and `open` name the requirements that are not met and not shown; `note` says
    the reason, or what is to be known."""

    document: str = ""
    revision: str = ""
    joint: str = ""
    cycle: str = ""
    record: str = ""
    start: str = ""
    verdict: str = NOT_JUDGED
    why: str = ""
    failed: str = ""
    open: str = ""
    note: str = ""
    fingerprint: str = ""


HEADS = ArchiveLine(
    "document",
    "revision",
    "joint",
    "cycle",
    "record",
    "start",
    "verdict",
    "why",
    "not met",
    "not shown",
    "note",
    "record fingerprint",
)
