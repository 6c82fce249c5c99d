"""The program as a library: functions that do what the commands do.

    >>> import hts
    >>> spec = hts.load("specs/p22-header.hts")
    >>> hts.check(spec)
    []
    >>> job = hts.compile(spec)
    >>> [(sheet.joint.name, len(sheet.tags)) for sheet in job.joints]
    [('W12', 16)]

A text needs no file. A finding has a kind, a severity, a message, places in the text, and an
address that stays when lines move:

    >>> text = spec.source.text.replace("for 2 h at most 6 h", "for 1 h at most 6 h")
    >>> shorter = hts.load(text, near=spec)
    >>> for finding in hts.check(shorter):
    ...     print(finding.severity, finding.kind.name, "at", finding.address)
    error hold-too-short at W12/stress-relief

Two revisions are compared by meaning:

    >>> for change in hts.diff(spec, shorter).changes:
    ...     print(change.verdict, change.kind, change.action)
    re-approve hold time loosened
    re-approve limit or rule added
    re-approve revision kept changed

A text is laid out, and its papers are known by a fingerprint that layout does not change:

    >>> hts.format("spec   1\\n")
    'spec 1\\n'
    >>> len(hts.fingerprint(spec))
    14

Tables are rows that `polars.DataFrame` and `pandas.DataFrame` take as they are:

    >>> hts.tables(job)["tags"][0]["tag"]
    'T1'

Whatever cannot be done is an exception whose message begins with the path: `Unreadable`,
`CannotCompile` with its reasons, `CannotFormat` with its findings, `ConfigurationError`,
`PackError`; all are here.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import TYPE_CHECKING

from hts import notebook
from hts.base.findings import Finding, Report
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable, root_of
from hts.checking.checker.results import PackError
from hts.checking.checker.run import check_spec
from hts.checking.checker.setting import Setting
from hts.checking.configuration import Configuration, ConfigurationError
from hts.checking.configuration import load as configuration_for
from hts.checking.govern.case import Case
from hts.job.comparison.compare import Comparison, compare
from hts.job.compiler import CannotCompile, Job, compile_spec, with_warnings
from hts.job.compiler.assumed import INTERVAL
from hts.job.compiler.fingerprint import fingerprint as digest
from hts.job.compiler.fingerprint import grouped
from hts.language.layout import settled
from hts.language.model import Loader, Spec
from hts.notebook import Findings, drawings, tables

if TYPE_CHECKING:
    from hts.record.judging import Judgement

__all__ = [
    "CannotCompile",
    "CannotFormat",
    "Comparison",
    "ConfigurationError",
    "Finding",
    "Findings",
    "Job",
    "PackError",
    "Spec",
    "Unreadable",
    "check",
    "compile",
    "diff",
    "drawings",
    "fingerprint",
    "format",
    "judge",
    "load",
    "tables",
]

#: What findings call a text that is no file.
UNNAMED = "<text>"


def load(source: str | os.PathLike[str], *, near: Spec | None = None) -> Spec:
    """The specification at a path, or in a text: a string with a line end in it.

    What a text uses is looked for beside the file of ``near``, else below the working folder. The
    nearest `hts.toml` counts for a file. What is wrong with the language is in the findings, not an
    exception. Raises Unreadable where there is no such file, and ConfigurationError.
    """
    if isinstance(source, str) and "\n" in source:
        root = near.loader.root if near is not None else os.getcwd()
        path = near.source.path if near is not None else None
        text = Source(source.removeprefix(BYTE_ORDER_MARK), UNNAMED, path)
        return Spec(text, Loader(root), _configuration(path).defaults)
    path = os.fspath(source)
    loader = Loader(root_of(path))
    try:
        text = loader.read(path)
    except Unreadable as error:
        raise Unreadable(f"{path}: {error}") from None
    return Spec(text, loader, _configuration(path).defaults)


def check(spec: Spec, *, today: str | None = None) -> Findings:
    """All findings, in their order; none for a good specification. A list, with `rows` for a table.

    ``today`` is the ISO date that waivers and calibrations are judged on; without it nothing that
    depends on the date is judged. Raises PackError and ConfigurationError.
    """
    return Findings(check_spec(spec, today, _configuration(spec.source.path).setting))


def compile(spec: Spec, *, today: str | None = None) -> Job:
    """The job with every value worked out, each with its reason; `hts.job.outputs.files` makes the
    tables and sheets of it.

    Raises CannotCompile where the specification has errors, or a value that neither the text nor a
    rule gives.
    """
    packs = _configuration(spec.source.path).rule_packs
    found = check_spec(spec, today, Setting(rule_packs=packs))
    errors = [finding for finding in found if finding.severity == "error"]
    if errors:
        reasons = [f"{f.kind.code} {f.kind.name}: {f.message}" for f in errors]
        raise CannotCompile(reasons, spec.source.name)
    try:
        return with_warnings(compile_spec(spec, INTERVAL), found)
    except CannotCompile as error:
        raise CannotCompile(error.reasons, spec.source.name) from None


def diff(old: Spec, new: Spec) -> Comparison:
    """What changed from one specification to the other by meaning, and what each change asks for:
    a new approval, a review, or a note."""
    return compare(old, new)


class CannotFormat(Exception):
    """A text that cannot be laid out; ``findings`` say why."""

    def __init__(self, findings: Findings) -> None:
        self.findings = findings
        first = findings[0]
        line, column = first.source.position(first.at.span.start)
        super().__init__(f"{first.source.name}:{line}:{column}: {first.message}")


def format(text: str) -> str:
    """The text in the one layout of the language; what it says stays. Raises CannotFormat."""
    report = Report()
    made = settled(Source(text.removeprefix(BYTE_ORDER_MARK), UNNAMED), report)
    if made is None:
        raise CannotFormat(Findings(report.findings))
    return made


def fingerprint(spec: Spec) -> str:
    """What stands on the papers of a specification, as `3f9a-01bc-77de`: it changes with what the
    text says and uses, never with layout or remarks."""
    return grouped(digest(spec, Case(spec).authorities))


def judge(
    job: Job,
    *logs: str | os.PathLike[str],
    joint: str | None = None,
    cycle: str | None = None,
    options: Mapping[str, str] | None = None,
    today: str | None = None,
) -> Judgement:
    """A recorded run, in one log or several that are joined, held against every requirement.

    ``joint`` and ``cycle`` name the run where the logs leave it open; ``options`` are those of
    hts.record.reading.Options. Results that lie beside the specification count. ``today`` (ISO
    date) stands for the day of a record that has none. Raises hts.record.errors.RecordError with
    place, cause and remedy, and ModuleNotFoundError without `hts[record]`.
    """
    from hts.record import faults, judging, results
    from hts.record.belonging import belonging
    from hts.record.reading import Options, read

    paths = [os.fspath(log) for log in logs]
    asked, notes, against = belonging(job, paths, joint, cycle)
    record = read(paths, asked.run.tags, Options(**(options or {})))
    found = faults.find(record, asked)
    judgement = judging.judge(faults.apply(record, found), asked, found, today, against)
    path = job.spec.source.path
    beside = results.beside(path) if path is not None else None
    names = [sheet.joint.name for sheet in job.joints]
    given = results.read(beside, names) if beside is not None else None
    more = results.verdicts(asked.sheet.joint, given, results.days(asked, record))
    notebook.show(type(judgement))
    return judgement._replace(
        assumed=(*notes, *judgement.assumed), verdicts=(*judgement.verdicts, *more)
    )


def _shown_in_notebooks() -> None:
    """Puts what notebooks show onto types of rooms that the tables come after."""
    Job._repr_html_ = notebook.job_html  # type: ignore[attr-defined]
    Comparison._repr_html_ = notebook.comparison_html  # type: ignore[attr-defined]


def _configuration(path: str | None) -> Configuration:
    """What is configured for a file; nothing for a text."""
    return configuration_for(path) if path is not None else Configuration()


_shown_in_notebooks()
