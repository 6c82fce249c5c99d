"""Some logs of one specification, judged by one process."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from hts.base.findings import Finding
from hts.checking.checker.results import PackError
from hts.checking.checker.run import check_spec
from hts.checking.configuration import ConfigurationError, load
from hts.job.compiler import CannotCompile, Job, compile_spec
from hts.job.compiler.fingerprint import grouped
from hts.job.compiler.program import PREHEAT
from hts.language.model import Loader, Spec
from hts.language.model.load import Unreadable, root_of
from hts.record import faults, results, wrong_sheet
from hts.record.archive.find import Found
from hts.record.archive.line import (
    ERRORS,
    FOREIGN,
    INCOMPLETE,
    READINGS,
    RESULTS,
    UNREADABLE,
    ArchiveLine,
)
from hts.record.archive.parts import Extent, extent
from hts.record.archive.texts import content
from hts.record.belonging import against
from hts.record.errors import RecordError
from hts.record.judging import (
    NOT_MET,
    NOT_SHOWN,
    Evidence,
    Judgement,
    Verdict,
    judged_together,
)
from hts.record.plan import Plan, plan
from hts.record.reading import Options, Wished, read_each
from hts.record.record import Record

#: Readings that are searched and judged together at the least; more of them take no less time each.
_TOGETHER = 220_000


class Portion(NamedTuple):
    """`spec` is the path of the specification; `runs` the logs of each run, one or more parts of
    it. There may be none."""

    spec: str
    runs: tuple[tuple[Found, ...], ...]


class Run(NamedTuple):
    """A run that a record is due for."""

    document: str
    revision: str
    joint: str
    cycle: str


class Judged(NamedTuple):
    """`runs` are those a record is due for, `seen` the (joint, cycle) of the records judged, and
    `extents` what tells whether the log of a line goes on with that of another."""

    lines: tuple[ArchiveLine, ...]
    runs: tuple[Run, ...]
    seen: tuple[tuple[str, str], ...]
    extents: tuple[Extent | None, ...]
    lost: ArchiveLine | None = None


class _Lost(Exception):
    """Something that could not be judged: why, in a word and in a sentence."""

    def __init__(self, why: str, reason: object) -> None:
        self.why = why
        super().__init__(str(reason))


def judged(
    portion: Portion, options: Options, today: str | None, config: str | None = None
) -> Judged:
    """The lines of a portion, in the order of its runs; `lost` is the line of a specification that
    nothing can be judged by."""
    texts = _Texts(portion.spec, today, config, content(portion.spec, config))
    try:
        job, errors = _job(texts)
    except _Lost as lost:
        lines = tuple(_not_judged(logs, lost) for logs in portion.runs)
        spec = ArchiveLine(why=lost.why, note=str(lost))
        return Judged(lines, (), (), tuple(None for _ in lines), spec)
    made: list[ArchiveLine] = []
    seen: list[tuple[str, str]] = []
    extents: list[Extent | None] = []
    waiting: list[_Read | ArchiveLine] = []
    readings = 0
    plans = [_asked(texts, logs) for logs in portion.runs]
    records = read_each(
        (
            Wished([log.path for log in logs], asked.run.tags)
            for logs, asked in zip(portion.runs, plans, strict=True)
            if not isinstance(asked, _Lost)
        ),
        options,
    )
    for logs, asked in zip(portion.runs, plans, strict=True):
        if isinstance(asked, _Lost):
            waiting.append(_not_judged(logs, asked, job))
            continue
        seen.append((asked.joint, asked.name))
        record = next(records)
        if isinstance(record, RecordError):
            waiting.append(_not_judged(logs, _Lost(READINGS, record), job))
        else:
            waiting.append(_Read(logs, asked, record))
            readings += len(record.elapsed) * len(record.series)
        if readings >= _TOGETHER:
            _judge_all(texts, waiting, errors, made, extents)
            waiting, readings = [], 0
    _judge_all(texts, waiting, errors, made, extents)
    return Judged(tuple(made), _runs(job), tuple(seen), tuple(extents))


class _Read(NamedTuple):
    """The logs of a run, read."""

    logs: tuple[Found, ...]
    plan: Plan
    record: Record


def _judge_all(
    texts: _Texts,
    waiting: list[_Read | ArchiveLine],
    errors: tuple[Finding, ...],
    made: list[ArchiveLine],
    extents: list[Extent | None],
) -> None:
    """Adds a line and an extent for each run that waits."""
    read = [run for run in waiting if isinstance(run, _Read)]
    foreign = [
        tuple(said for log in run.logs for said in against(log.name, log.labels, run.plan))
        for run in read
    ]
    judgements = judged_together(_searched(read), texts.today, foreign)
    for run in waiting:
        extents.append(None)
        if isinstance(run, ArchiveLine):
            made.append(run)
            continue
        judgement = next(judgements)
        try:
            made.append(_line(texts, run, judgement, errors))
            extents[-1] = extent(run.record, (run.plan.joint, run.plan.name))
        except _Lost as lost:
            made.append(_not_judged(run.logs, lost, run.plan.job))


class _Texts(NamedTuple):
    """What a job is made of: `content` tells one state of the files from another."""

    spec: str
    today: str | None
    config: str | None
    content: str


def _asked(texts: _Texts, logs: tuple[Found, ...]) -> Plan | _Lost:
    """What the run of these logs was to be, or why that cannot be told."""
    own = logs[0].labels
    try:
        return _plan(texts, own.joint, own.cycle)
    except RecordError as error:
        return _Lost(FOREIGN, error)


@lru_cache(maxsize=8)
def _job(texts: _Texts) -> tuple[Job, tuple[Finding, ...]]:
    """The job a run was made to, and the errors its specification has but for those of the
    language, with which nothing can be made out."""
    path, today, config, _ = texts
    loader = Loader(root_of(path))
    try:
        configured = load(path, config)
        spec = Spec(loader.read(path), loader, configured.defaults)
        found = check_spec(spec, today, configured.setting)
    except Unreadable as error:
        raise _lost(UNREADABLE, path, str(error), "make sure that it can be read") from None
    except ConfigurationError as error:
        remedy = error.remedy or "correct it"
        raise _lost(UNREADABLE, error.place, error.cause, remedy) from None
    except PackError as error:
        raise _lost(UNREADABLE, path, str(error), "put the configuration right") from None
    if any(one.severity == "error" for one in spec.findings):
        raise _lost(ERRORS, path, "the specification has errors", f"run: hts check {path}")
    try:
        return compile_spec(spec), tuple(one for one in found if one.severity == "error")
    except CannotCompile as error:
        raise _lost(INCOMPLETE, path, str(error), "state these values") from None


def _lost(why: str, place: str, cause: str, remedy: str) -> _Lost:
    return _Lost(why, RecordError(place, cause, remedy))


@lru_cache(maxsize=256)
def _plan(texts: _Texts, joint: str, cycle: str) -> Plan:
    return plan(_job(texts)[0], joint or None, cycle or None)


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


@lru_cache(maxsize=256)
def _results(texts: _Texts, asked: Plan, days: results.Days | None) -> tuple[Verdict, ...]:
    """The verdicts on what was found after the heat, by the results file beside a specification."""
    names = [sheet.joint.name for sheet in asked.job.joints]
    beside = results.beside(texts.spec)
    try:
        given = results.read(beside, names) if beside is not None else None
    except RecordError as error:
        raise _Lost(RESULTS, error) from None
    return tuple(results.verdicts(asked.sheet.joint, given, days))


def _searched(runs: list[_Read]) -> list[Evidence]:
    """Their records without what faults leave out; those of one plan are searched together."""
    found: dict[int, Evidence] = {}
    for asked in dict.fromkeys(run.plan for run in runs):
        its = [at for at, run in enumerate(runs) if run.plan is asked]
        records = [runs[at].record for at in its]
        for at, record, some in zip(its, records, faults.find_each(records, asked), strict=True):
            found[at] = Evidence(faults.apply(record, some), asked, some)
    return [found[at] for at in range(len(runs))]


def _line(
    texts: _Texts, run: _Read, judgement: Judgement, errors: tuple[Finding, ...]
) -> ArchiveLine:
    logs, asked, record = run.logs, run.plan, run.record
    after = _results(texts, asked, results.days(asked, record))
    judgement = judgement._replace(verdicts=(*judgement.verdicts, *after))
    judgement = wrong_sheet.judged(judgement, errors)
    named = asked.job.document
    notes = ["simulated"] if record.simulated else []
    notes += [verdict.actual for verdict in judgement.verdicts[: bool(errors)]]
    if elsewhere := sum(verdict.elsewhere for verdict in after):
        notes.append(f"no results file: {elsewhere} results to be shown elsewhere")
    for own in dict.fromkeys(log.labels for log in logs):
        if own.revision and own.revision != named.revision:
            notes.append(f"of revision {own.revision}")
        if own.fingerprint and own.fingerprint not in (named.fingerprint, named.digest):
            notes.append(f"made for the text {own.fingerprint}")
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
        _names(logs),
        record.clock(0.0),
        judgement.overall,
        "",
        verdicts[NOT_MET],
        verdicts[NOT_SHOWN],
        "; ".join(notes),
        grouped(record.digest),
    )


def _not_judged(logs: tuple[Found, ...], lost: _Lost, job: Job | None = None) -> ArchiveLine:
    own = logs[0].labels
    return ArchiveLine(
        own.document,
        job.document.revision if job is not None else own.revision,
        own.joint,
        own.cycle,
        _names(logs),
        why=lost.why,
        note=str(lost),
    )


def _names(logs: tuple[Found, ...]) -> str:
    return " + ".join(log.name for log in logs)
