"""The sentences of a text that tell somebody what to do or to find, and when they are read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from hts.base.text import Source, Span
from hts.checking.govern.case import Case
from hts.language.model.joint import Joint
from hts.language.vocabulary.procedure import Procedure

BEFORE, DURING, AFTER, ALWAYS = "before", "during", "after", ""


class Sentence(NamedTuple):
    """What is told, as what it is told, where and at which stage of the heat, "" for any.

    ``free``: the joint it is told of has no support that is held for the heat.
    """

    text: str
    what: str
    at: Span
    address: str
    stage: str = ALWAYS
    free: bool = False


def instructions(case: Case) -> Iterator[Sentence]:
    """Checks, cautions, points, markings, what is handed over, duties and trainings of a job, and
    the like of the procedures of the file. What several joints share comes once."""
    told: set[tuple[int, str]] = set()
    for each in _all(case):
        which = each.at.start, each.text
        if which not in told:
            told.add(which)
            yield each


def _all(case: Case) -> Iterator[Sentence]:
    for joint in case.joints():
        for stage, blocks in ((BEFORE, joint.before), (DURING, joint.during), (AFTER, joint.after)):
            for block in blocks if _heated(joint) else ():
                if block.sound:
                    free = not any(each.state == "locked" for each in joint.entry.supports)
                    for each in _of_a_list(block, stage, f"{joint.address}/checks"):
                        yield each._replace(free=free)
    yield from _of_the_job(case)
    for procedure in case.spec.file.procedures:
        if procedure.sound:
            yield from _of_a_procedure(procedure)


def _heated(joint: Joint) -> bool:
    """Whether anything is done to a joint that its lists could speak of."""
    return bool(joint.bakes or joint.cycles) or joint.preheat is not None


def _of_a_list(block: Any, stage: str, address: str) -> Iterator[Sentence]:
    for item in block.checks:
        yield Sentence(item.text, "a check", item.place("text"), address, stage)
    for point in (*block.hold_points, *block.witness_points, *block.review_points):
        yield Sentence(point.text, "a point of the plan", point.place("text"), address, stage)
    texts: list[tuple[str, Sequence[str]]] = [("a caution", block.cautions)]
    if stage == AFTER:
        texts.append(("a marking", block.marking))
        for paper in block.hand_over:
            yield Sentence(paper.text, "what is handed over", paper.place("text"), address, stage)
        if isinstance(block.spots, str):
            at = block.place("spots")
            yield Sentence(block.spots, "what becomes of the spots", at, address, stage)
    yield from _listed(block.source, block.start, texts, address, stage)


def _of_the_job(case: Case) -> Iterator[Sentence]:
    job = case.spec.file.job
    if job is None or not job.sound:
        return
    for duty in job.responsibilities:
        if isinstance(duty.duty, str):
            yield Sentence(duty.duty, "a responsibility", duty.place("duty"), job.name)
    for training in job.qualifications:
        if isinstance(training.needs, str):
            yield Sentence(training.needs, "a qualification", training.place("needs"), job.name)


def _of_a_procedure(procedure: Procedure) -> Iterator[Sentence]:
    name = procedure.name
    texts = [("a caution", procedure.cautions), ("what is handed over", procedure.hand_over)]
    yield from _listed(procedure.source, procedure.start, texts, name, ALWAYS)
    checks = [("a check", procedure.checks)]
    yield from _listed(procedure.source, procedure.start, checks, name, BEFORE)
    for line in (*procedure.requires, *procedure.prefers):
        for test in line.what.tests if line.what is not None and line.sound else ():
            for text in test.among:
                if isinstance(text, str) and " " in text:
                    yield Sentence(text, "a demand", line.place("what"), name)


def reasons(case: Case) -> Iterator[Sentence]:
    """Why the procedures of the file ask for what they do."""
    for procedure in case.spec.file.procedures:
        lines: Iterable[Any] = (
            *procedure.limits,
            *procedure.treatments,
            *procedure.forbids,
            *procedure.allows,
            *procedure.requires,
            *procedure.prefers,
        )
        for line in lines if procedure.sound else ():
            if line.sound and isinstance(line.note, str):
                yield Sentence(line.note, "a reason", line.place("note"), procedure.name)


def _listed(
    source: Source, start: int, texts: Iterable[tuple[str, Sequence[str]]], address: str, stage: str
) -> Iterator[Sentence]:
    for what, each in texts:
        for text in each:
            found = source.text.find(f'"{text}"', start) if isinstance(text, str) else -1
            if found >= 0:
                yield Sentence(
                    text, what, source.span(found, found + len(text) + 2), address, stage
                )
