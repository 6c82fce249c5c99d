"""One check of a text as an editor holds it, told in plain data.

Everything here runs in a process of its own (`hts.editor.checking_process`), so that who writes
never waits for it.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from hts.base.findings import Finding
from hts.base.text import Source, Span
from hts.base.text.reading import root_of
from hts.checking.checker.fault import fault
from hts.checking.checker.results import PackError
from hts.checking.checker.run import check_case
from hts.checking.configuration import Configuration, ConfigurationError
from hts.checking.configuration import load as configuration_for
from hts.checking.configuration.allowed import run_none
from hts.checking.govern.case import Case
from hts.checking.report.documents import told
from hts.editor.buffer import Lines
from hts.language.model import Loader, Spec
from hts.language.vocabulary.job import OwnBook, Use
from hts.language.vocabulary.weld_list import WeldList

Data = dict[str, Any]


class Wanted(NamedTuple):
    """A text to check. ``open`` are the texts of all open files by real path, ``trusted`` whether
    code of rule packs may run, ``today`` the day where no configuration names one."""

    name: str
    text: str
    path: str | None
    folder: str
    open: Mapping[str, str]
    trusted: bool
    encoding: str
    today: str


class OpenTexts(Loader):
    """Reads what an editor holds before what lies on the disk."""

    def __init__(self, root: str, open: Mapping[str, str]) -> None:
        super().__init__(root)
        self.open = open
        #: Real paths of the files that were read or looked for.
        self.asked: dict[str, tuple[int, ...]] = {}

    def text(self, path: str) -> str:
        real = os.path.realpath(path)
        if real in self.open:
            return self.open[real]
        return super().text(path)

    def has(self, path: str) -> bool:
        self.asked[path] = stamp(path)
        return path in self.open or super().has(path)


def stamp(path: str) -> tuple[int, ...]:
    """What tells that a file was written: the same as long as nobody touched it."""
    try:
        state = os.stat(path)
    except (OSError, ValueError):
        return ()
    return (state.st_mtime_ns, state.st_size, state.st_ino)


class Looker:
    """Checks one text after another; files that did not change are read once."""

    def __init__(self) -> None:
        self._loaders: dict[str, OpenTexts] = {}

    def look(self, wanted: Wanted) -> tuple[Data, Case | None]:
        """The findings as data, and the case for what else is asked of the text."""
        configuration = Configuration()
        settings: Data = {}
        if not wanted.trusted:
            # For good: a process that may run them is another one.
            run_none()
        try:
            if wanted.path is not None:
                configuration = configuration_for(wanted.path)
                if configuration.path is not None:
                    path = os.path.abspath(configuration.path)
                    settings = {path: list(stamp(path))}
            loader = self._loader(wanted)
            source = Source(wanted.text, wanted.name, wanted.path)
            today = configuration.today or wanted.today
            case = Case(Spec(source, loader, configuration.defaults), today)
            found = check_case(case, configuration.setting)
        except (ConfigurationError, PackError) as error:
            return _unchecked(str(error), settings), None
        except Exception as error:
            if os.environ.get("HTS_DEBUG"):
                raise
            return _unchecked(fault(error), settings), None
        data: Data = {
            "findings": [_finding(each, case, wanted.encoding) for each in found],
            "read": _read(loader, settings),
            "faults": list(case.faults),
            "untrusted": "" if wanted.trusted else configuration.origin.get("rule-packs", ""),
        }
        return data, case

    def actions(self, wanted: Wanted, between: tuple[int, int] | None) -> list[Data]:
        """What can be done about the findings between two offsets, each proved on this text; with
        None, all that the layout alone got wrong, at once."""
        from hts.editor.actions import actions, mended

        configuration = Configuration()
        if not wanted.trusted:
            run_none()
        if wanted.path is not None:
            configuration = configuration_for(wanted.path)
        source = Source(wanted.text, wanted.name, wanted.path)
        spec = Spec(source, self._loader(wanted), configuration.defaults)
        setting = configuration.setting
        today = configuration.today or wanted.today
        if between is None:
            return mended(spec, setting, today)
        return actions(spec, setting, today, *between)

    def _loader(self, wanted: Wanted) -> OpenTexts:
        """The loader of a text's repository, a new one where a file it read has changed."""
        root = root_of(wanted.path) if wanted.path is not None else wanted.folder
        own = os.path.realpath(wanted.path) if wanted.path is not None else None
        others = {path: text for path, text in wanted.open.items() if path != own}
        known = self._loaders.get(root)
        if known is not None:
            same = all(
                stamp(path) == was and known.open.get(path) == others.get(path)
                for path, was in known.asked.items()
            )
            if same and own not in known.asked:
                known.open = others
                return known
        made = self._loaders[root] = OpenTexts(root, others)
        return made


def _read(loader: OpenTexts, settings: Data) -> Data:
    """The files an outcome rests on besides the text itself, each with its stamp when it was
    read."""
    return {path: list(was) for path, was in {**loader.asked, **settings}.items()}


def _unchecked(why: str, settings: Data) -> Data:
    return {"fault": why, "findings": [], "read": settings, "untrusted": ""}


def _finding(finding: Finding, case: Case, encoding: str) -> Data:
    source = case.spec.source
    others = [(label.span, label.text) for label in finding.others]
    at = finding.at.span
    if at.source is not source:
        # It lies in a file that is used: told at the line that uses it, with the place beside it.
        others.insert(0, (at, "here"))
        at = _use_of(case.spec, at.source)
    return {
        "code": finding.kind.code,
        "name": finding.kind.name,
        "severity": finding.severity,
        "message": told(finding),
        "why": finding.kind.why,
        "address": finding.address,
        "start": at.start,
        "end": at.end,
        "others": [_other(span, text, source, encoding) for span, text in others],
    }


def _use_of(spec: Spec, other: Source) -> Span:
    """Where a text names another file: a library, a book of its own, a table of welds."""
    folder = os.path.dirname(spec.source.path or "")
    file = spec.file
    naming: list[Use | OwnBook | WeldList] = [*file.uses, *file.books, *file.weld_lists]
    for entry in naming:
        if entry.path and other.path:
            named = os.path.realpath(os.path.join(folder, entry.path))
            if named == os.path.realpath(other.path):
                return entry.place("path")
    return file.uses[0].place("path") if file.uses else spec.source.span(0, 0)


def _other(span: Span, text: str, own: Source, encoding: str) -> Data:
    if span.source is own:
        return {"start": span.start, "end": span.end, "text": text}
    lines = Lines(span.source.text, encoding)
    return {
        "path": span.source.path,
        "from": lines.position(span.start),
        "to": lines.position(span.end),
        "text": text,
    }


def worked_out(case: Case, stop: Callable[[], bool]) -> Data:
    """The reason of every value the rules give, and what is shown behind the text; as far as it was
    worked out before it was to ``stop``."""
    from hts.editor.hints import hints
    from hts.editor.place import Text
    from hts.editor.reasons import Reason
    from hts.job.explain import why

    try:
        reasons = []
        for answer in why.every(case):
            shown_text = why.text([answer])
            reasons.append(Reason(answer.address, answer.quantity, answer.heading, shown_text))
            if stop():
                break
        shown = hints(Text(case.spec.source), case.spec.joints, reasons)
    except Exception:
        # Hints are a convenience; what cannot be worked out is told by the findings.
        if os.environ.get("HTS_DEBUG"):
            raise
        return {"reasons": [], "hints": []}
    return {"reasons": [list(each) for each in reasons], "hints": [list(each) for each in shown]}
