"""Checks texts one after another, and notes what each outcome rests on."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from functools import lru_cache

from hts.base.text import Source
from hts.base.text.reading import Unreadable, name_below
from hts.checking.checker.fault import fault
from hts.checking.checker.kept_joints import KeptJoints
from hts.checking.checker.program import digest_of
from hts.checking.checker.results import Basis, Outcome, PackError, UncheckedFile, Use
from hts.checking.checker.run import check_case
from hts.checking.checker.tasks import Task
from hts.checking.govern.case import Case
from hts.language.model import Loader, Spec
from hts.language.model.found_on import text_of
from hts.language.vocabulary.mistakes import UNUSABLE_FILE
from hts.language.vocabulary.spec import File


def outcomes(
    tasks: Iterable[Task | UncheckedFile],
    today: str | None,
    keep: bool = False,
    loader: Callable[[str], Loader] | None = None,
) -> list[Outcome | UncheckedFile]:
    """What comes of each text, in their order; a library that several use is read once.

    ``keep``: the outcomes are to be kept for another run, so that they carry what they rest on.
    ``loader`` gives what reads the files below a root; from the disk unless said.
    """
    loaders: dict[str, Loader] = {}
    found: list[Outcome | UncheckedFile] = []
    for task in tasks:
        if isinstance(task, UncheckedFile):
            found.append(task)
            continue
        if task.root not in loaders:
            loaders[task.root] = loader(task.root) if loader is not None else Loader(task.root)
        try:
            data = task.read()
            source = task.source(data)
        except Unreadable as error:
            found.append(task.failure(error))
            continue
        found.append(_outcome(task, source, loaders[task.root], data, today, keep))
    return found


def _outcome(
    task: Task, source: Source, loader: Loader, data: bytes, today: str | None, keep: bool
) -> Outcome | UncheckedFile:
    """What comes of one text. A fault of this program is a failure of that file alone."""
    try:
        case = Case(Spec(source, loader, task.setting.defaults), today)
        # What rules of others look at, nobody knows.
        kept = KeptJoints(case, task.joints or {}) if keep and not task.setting.rule_packs else None
        findings = check_case(case, task.setting, kept)
        faults = tuple(case.faults)
        basis = _basis(case, data) if keep and not faults else None
        joints = kept.now if kept is not None else {}
        return Outcome(source.name, findings, basis, faults, tuple(case.waived), joints)
    except PackError:
        raise
    except Exception as error:
        if os.environ.get("HTS_DEBUG"):
            raise
        return UncheckedFile(source.name, fault(error))


def _basis(case: Case, data: bytes) -> Basis | None:
    """What the outcome of a file rests on; None for a text that is no file, where a used file
    or the text results are of is missing or out of bounds, since it may turn up, and likewise a
    package."""
    spec = case.spec
    if case.waits_for_installation:
        return None
    if spec.source.path is None or any(f.kind is UNUSABLE_FILE for f in spec.findings):
        return None
    if spec.beside is None and text_of(spec.source.path) is not None:
        return None
    root = spec.loader.root
    sources: dict[str, Source] = {}
    named: dict[str, None] = {}
    for each in (spec, *([spec.beside] if spec.beside is not None else [])):
        sources |= {library.path: library.file.source for library in each.libraries}
        sources |= {loaded.path: loaded.source for loaded in each.books}
        sources |= {table.path: table for table in each.tables if table.path is not None}
        named |= dict.fromkeys(_used(each.file, *(library.file for library in each.libraries)))
    if spec.beside is not None and spec.beside.source.path is not None:
        sources[os.path.realpath(spec.beside.source.path)] = spec.beside.source
        named[spec.beside.source.path] = None
    uses = []
    for used_file in named:
        real = os.path.realpath(used_file)
        if real not in sources:
            return None
        uses.append(
            Use(name_below(used_file, root), name_below(real, root), _digest(sources[real]))
        )
    return Basis(digest_of(data), tuple(uses), tuple(sorted(case.days)))


@lru_cache(maxsize=256)
def _digest(source: Source) -> str:
    return digest_of(source.text.encode("utf-8"))


def _used(*files: File) -> Iterable[str]:
    """The paths of the files that these say they use."""
    for file in files:
        folder = os.path.dirname(file.source.path or "")
        paths = [use.path for use in file.uses] + [book.path for book in file.books]
        for path in [*paths, *(listed.path for listed in file.weld_lists)]:
            if path is not None:
                yield os.path.normpath(os.path.join(folder, path))
