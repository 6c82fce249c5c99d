"""Which run of a job a record is judged as: what is asked for, and what its logs say themselves."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import NamedTuple

from hts.job.compiler import Job
from hts.record.errors import RecordError
from hts.record.labels import Labels, labels
from hts.record.plan import Plan, plan


class Belonging(NamedTuple):
    """`notes` are sentences to print: where the logs say something else than is judged; `against`
    are those of them by which the record is of another document or revision."""

    plan: Plan
    notes: tuple[str, ...]
    against: tuple[str, ...] = ()


def belonging(job: Job, logs: Sequence[str], joint: str | None, cycle: str | None) -> Belonging:
    """The run the logs are of; `joint` and `cycle` where asked for go before what the logs say.

    Raises RecordError where that leaves none or several, and where the logs name a joint the job
    has not: a record of another weld proves nothing about this one.
    """
    own_labels = [(os.path.basename(log), labels(log)) for log in logs]
    of_joint = joint or _agreed("joint", [(name, one.joint) for name, one in own_labels])
    if joint is None and of_joint not in (None, *(sheet.joint.name for sheet in job.joints)):
        name = next(name for name, one in own_labels if one.joint)
        raise RecordError(
            name,
            f"it says it is of joint {of_joint}, and {job.document.number} has none of that name",
            "name the specification it is of, or the joint with --joint",
        )
    of_cycle = cycle or _agreed("cycle", [(name, one.cycle) for name, one in own_labels])
    if cycle is None and of_cycle not in {
        run.program.name for sheet in job.joints for run in sheet.runs
    }:
        of_cycle = None  # recorders have names of their own for treatments
    asked = plan(job, of_joint, of_cycle)
    return Belonging(
        asked,
        tuple(note for name, one in own_labels for note in _notes(name, one, asked).values()),
        tuple(note for name, one in own_labels for note in against(name, one, asked)),
    )


def against(name: str, own_labels: Labels, asked: Plan) -> tuple[str, ...]:
    """Sentences on another document or revision that a log says it is of."""
    notes = _notes(name, own_labels, asked)
    return tuple(notes[what] for what in ("document", "revision") if what in notes)


def _agreed(what: str, own_labels: list[tuple[str, str]]) -> str | None:
    """What all logs that say anything say."""
    told = [(name, value) for name, value in own_labels if value]
    for name, value in told[1:]:
        if value != told[0][1]:
            raise RecordError(
                name,
                f"it says it is of {what} {value}, and {told[0][0]} of {what} {told[0][1]}",
                f"give the logs of one run, or say which with --{what}",
            )
    return told[0][1] if told else None


def _notes(name: str, own_labels: Labels, asked: Plan) -> dict[str, str]:
    """What a log says otherwise -> a sentence on it."""
    named = asked.job.document
    revision = own_labels.revision if own_labels.document == named.number else ""
    fingerprint = "" if own_labels.fingerprint == named.digest else own_labels.fingerprint
    return {
        what: f"{name} says it is of {what} {theirs}; it is held to {what} {ours}"
        for what, theirs, ours in (
            ("document", own_labels.document, named.number),
            ("revision", revision, named.revision),
            ("fingerprint", fingerprint, named.fingerprint),
            ("joint", own_labels.joint, asked.joint),
            ("cycle", own_labels.cycle, asked.name),
        )
        if theirs not in ("", ours)
    }
