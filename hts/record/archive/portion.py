"""Some logs of one specification, judged by one process."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from hts.checking.checker.results import PackError
from hts.checking.checker.run import check_spec
from hts.checking.configuration import ConfigurationError, load
from hts.job.compiler import CannotCompile, Job, compile_spec
from hts.job.compiler.fingerprint import grouped
from hts.job.compiler.program import PREHEAT
from hts.language.model import Loader, Spec
from hts.language.model.load import Unreadable, root_of
from hts.record import faults
from hts.record.archive.find import Found
from hts.record.archive.line import NOT_JUDGED, ArchiveLine
from hts.record.belonging import against
from hts.record.errors import RecordError
from hts.record.judging import NOT_MET, NOT_SHOWN, judge
from hts.record.plan import Plan, plan
from hts.record.reading import Options, read


class Portion(NamedTuple):
    """`spec` is the path of the specification; there may be no log of it."""

    spec: str
    logs: tuple[Found, ...]


class Run(NamedTuple):
    """A run that a record is due for."""

    document: str
    revision: str
    joint: str
    cycle: str


class Judged(NamedTuple):
    """`runs` are those of the specification, `seen` the (joint, cycle) of the records judged."""

    lines: tuple[ArchiveLine, ...]
    runs: tuple[Run, ...]
    seen: tuple[tuple[str, str], ...]


def judged(
    portion: Portion, options: Options, today: str | None, config: str | None = None
) -> Judged:
    """The lines of a portion, in the order of its logs."""
    try:
        job = _job(portion.spec, today, config)
    except RecordError as error:
        return Judged(tuple(_not_judged(log, str(error)) for log in portion.logs), (), ())
    lines, seen = [], []
    for log in portion.logs:
        try:
            asked = _plan(portion.spec, today, config, log.labels.joint, log.labels.cycle)
            seen.append((asked.joint, asked.name))
            lines.append(_line(log, asked, options, today))
        except RecordError as error:
            lines.append(_not_judged(log, str(error), job))
    return Judged(tuple(lines), _runs(job), tuple(seen))


@lru_cache(maxsize=8)
def _job(path: str, today: str | None, config: str | None) -> Job:
    loader = Loader(root_of(path))
    try:
        configured = load(path, config)
        spec = Spec(loader.read(path), loader, configured.defaults)
        found = check_spec(spec, today, configured.setting)
    except Unreadable as error:
        raise RecordError(path, str(error), "make sure that it can be read") from None
    except ConfigurationError as error:
        raise RecordError(error.place, error.cause, error.remedy or "correct it") from None
    except PackError as error:
        raise RecordError(path, str(error), "put the configuration right") from None
    errors = sum(1 for one in found if one.severity == "error")
    if errors:
        raise RecordError(path, "the specification has errors", f"run: hts check {path}")
    try:
        return compile_spec(spec)
    except CannotCompile as error:
        raise RecordError(path, str(error), "state these values") from None


@lru_cache(maxsize=256)
def _plan(path: str, today: str | None, config: str | None, joint: str, cycle: str) -> Plan:
    return plan(_job(path, today, config), joint or None, cycle or None)


def _runs(job: Job) -> tuple[Run, ...]:
    """Of a document that is released for work. Preheat is read by hand more often than recorded:
    nobody misses its record."""
    named = job.document
    if not named.for_work:
        return ()
    return tuple(
        Run(named.number, named.revision, sheet.joint.name, run.program.name)
        for sheet in job.joints
        for run in sheet.runs
        if run.program.kind != PREHEAT
    )


def _line(log: Found, asked: Plan, options: Options, today: str | None) -> ArchiveLine:
    record = read([log.path], asked.run.tags, options)
    found = faults.find(record, asked)
    named, own_labels = asked.job.document, log.labels
    judgement = judge(
        faults.apply(record, found), asked, found, today, against(log.name, own_labels, asked)
    )
    notes = ["simulated"] if record.simulated else []
    if own_labels.revision and own_labels.revision != named.revision:
        notes.append(f"of revision {own_labels.revision}")
    if own_labels.fingerprint and own_labels.fingerprint not in (named.fingerprint, named.digest):
        notes.append(f"made for the text {own_labels.fingerprint}")
    verdicts = {
        outcome: "; ".join(
            verdict.requirement
            for verdict in judgement.verdicts
            if not verdict.elsewhere and (verdict.guarded or verdict.verdict) == outcome
        )
        for outcome in (NOT_MET, NOT_SHOWN)
    }
    return ArchiveLine(
        named.number,
        named.revision,
        asked.joint,
        asked.name,
        log.name,
        record.clock(0.0),
        judgement.overall,
        verdicts[NOT_MET],
        verdicts[NOT_SHOWN],
        "; ".join(notes),
        grouped(record.digest),
    )


def _not_judged(log: Found, reason: str, job: Job | None = None) -> ArchiveLine:
    own_labels = log.labels
    revision = job.document.revision if job is not None else own_labels.revision
    return ArchiveLine(
        own_labels.document,
        revision,
        own_labels.joint,
        own_labels.cycle,
        log.name,
        "",
        NOT_JUDGED,
        "",
        "",
        reason,
        "",
    )
