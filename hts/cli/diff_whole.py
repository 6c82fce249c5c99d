"""`hts diff REV`: every specification of a repository that changed, or uses something that did."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence

from hts.checking.configuration import Configuration
from hts.job.comparison.approvals import Approval, Judged
from hts.job.comparison.report.all_specs import Judgement, Report
from hts.job.comparison.revisions import CannotRead, Repository, where
from hts.job.comparison.whole import SUFFIX, Between, between, compare_all

#: A repository, the sides, and paths from its top.
Revisions = tuple[Repository, Between, list[str]]


def revisions_of(sides: Sequence[str]) -> Revisions | None:
    """The revisions that a command names and the paths after them, from the top of the repository;
    None where it names one specification or two. Raises CannotRead.

    A folder alone is compared with HEAD. Where git knows a revision, it is meant, whatever a file
    is called; ./NAME is the file.
    """
    first, rest = sides[0], sides[1:]
    repository = Repository(os.getcwd())
    folder = os.path.isdir(first)
    if first.lower().endswith(SUFFIX) or where(first).revision is not None:
        return None
    try:
        top = repository.root
    except CannotRead:
        return None
    found = None if first.startswith("./") else between(first, repository)
    if found is None and folder:
        found, rest = Between("HEAD", None), sides
    if found is None:
        return None
    below = [os.path.relpath(os.path.realpath(p), top).replace(os.sep, "/") for p in rest]
    for path, shown in zip(below, rest, strict=True):
        if path.startswith("../"):
            raise CannotRead(f"{shown} lies outside the repository")
    return repository, found, below


def judged_all(
    found: Revisions,
    approvals: Sequence[Approval],
    configured: Callable[[str], Configuration],
    today: str | None,
) -> Report:
    """All of them compared, with the approvals laid over. Raises CannotRead."""
    repository, sides, below = found
    judgements = []
    unused = list(approvals)
    for each in compare_all(
        repository,
        sides,
        below,
        defaults=lambda path: configured(path).defaults,
        today=today,
    ):
        judged = None
        if each.comparison is not None:
            own = [entry for entry in approvals if entry.spec == each.path]
            judged = Judged(each.comparison, own)
            unused = [e for e in unused if e not in own or e in judged.unused]
        judgements.append(Judgement(each, judged))
    return Report(sides, judgements, unused)
