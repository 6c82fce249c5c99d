"""`hts compile --since REV`: what changed in meaning since a revision of the repository."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import click

from hts.checking.report.terminal import printable

if TYPE_CHECKING:
    from hts.job.compiler.changes import Changes
    from hts.job.compiler.job import Job
    from hts.language.model.defaults import Defaults


#: Digits that tell a commit apart.
_SHORT = 8


def changes_since(revision: str, path: str, job: Job, defaults: Defaults) -> Changes:
    """The changes of a compiled job since the file of that revision.

    Raises click.ClickException where git has no such revision, or no such file in it.
    """
    from hts.job.comparison import compare
    from hts.job.comparison.report.told import kind, texts
    from hts.job.comparison.revisions import CannotRead, Repository, RevisionLoader
    from hts.job.compiler.changes import ChangeLine, Changes
    from hts.language.model import Spec
    from hts.language.model.load import Unreadable

    full = os.path.realpath(path)
    try:
        repository = Repository(os.path.dirname(full))
        loader = RevisionLoader(repository, revision)
        commit = repository.commit(revision)[:_SHORT]
        if not loader.has(full):
            raise CannotRead(f"{os.path.basename(path)} is not in {revision}")
        old = Spec(loader.read(full), loader, defaults)
    except (CannotRead, Unreadable) as error:
        raise click.ClickException(printable(str(error))) from None
    comparison = compare(old, job.spec)
    rows = frozenset((row.joint, row.treatment, row.part, row.name) for row in comparison.rows)
    lines = tuple(
        ChangeLine(change.address, kind(change), *texts(change), change.verdict)
        for change in comparison.changes
    )
    # A branch moves on; on paper the commit tells for good what is meant.
    since = revision if revision.startswith(commit) else f"{revision} ({commit})"
    return Changes(since, job.document.revision, rows, lines)
