"""The program as a library: four functions, the same that the commands use.

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

Whatever cannot be done is an exception: `Unreadable`, `CannotCompile` with its reasons,
`ConfigurationError`, `PackError`; all are here.
"""

from __future__ import annotations

import os

from hts.base.findings import Finding
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable, root_of
from hts.checking.checker.results import PackError
from hts.checking.checker.run import check_spec
from hts.checking.checker.setting import Setting
from hts.checking.configuration import Configuration, ConfigurationError
from hts.checking.configuration import load as configuration_for
from hts.job.comparison.compare import Comparison, compare
from hts.job.compiler import CannotCompile, Job, compile_spec, with_warnings
from hts.job.compiler.assumed import INTERVAL
from hts.language.model import Loader, Spec

__all__ = [
    "CannotCompile",
    "Comparison",
    "ConfigurationError",
    "Finding",
    "Job",
    "PackError",
    "Spec",
    "Unreadable",
    "check",
    "compile",
    "diff",
    "load",
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
    return Spec(loader.read(path), loader, _configuration(path).defaults)


def check(spec: Spec, *, today: str | None = None) -> list[Finding]:
    """All findings, in their order; none for a good specification.

    ``today`` is the ISO date that waivers and calibrations are judged on; without it nothing that
    depends on the date is judged. Raises PackError and ConfigurationError.
    """
    return check_spec(spec, today, _configuration(spec.source.path).setting)


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
        raise CannotCompile(f"{f.kind.code} {f.kind.name}: {f.message}" for f in errors)
    return with_warnings(compile_spec(spec, INTERVAL), found)


def diff(old: Spec, new: Spec) -> Comparison:
    """What changed from one specification to the other by meaning, and what each change asks for:
    a new approval, a review, or a note."""
    return compare(old, new)


def _configuration(path: str | None) -> Configuration:
    """What is configured for a file; nothing for a text."""
    return configuration_for(path) if path is not None else Configuration()
