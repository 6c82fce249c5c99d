"""Files of several repositories in one run: no two are called alike."""

from __future__ import annotations

import os
from collections.abc import Sequence

from hts.base.text import Source
from hts.checking.checker.results import Outcome, UncheckedFile
from hts.checking.checker.tasks import Task


def telling_apart(tasks: Sequence[Task | UncheckedFile]) -> dict[str, str]:
    """What is put before the names of each root's files; nothing where the names of different roots
    are different as they are."""
    roots: dict[str, set[str]] = {}
    for task in tasks:
        if isinstance(task, Task):
            roots.setdefault(task.root, set()).add(task.name)
    names = [name for each in roots.values() for name in each]
    if len(roots) < 2 or len(set(names)) == len(names):
        return {}
    try:
        above = os.path.commonpath(list(roots))
    except ValueError:  # on different drives
        return {root: f"{root}/".replace(os.sep, "/") for root in roots}
    prefixes = {root: os.path.relpath(root, above).replace(os.sep, "/") for root in roots}
    return {root: "" if prefix == "." else f"{prefix}/" for root, prefix in prefixes.items()}


def renamed(outcome: Outcome | UncheckedFile, prefix: str) -> Outcome | UncheckedFile:
    """The outcome with the prefix before the name of every text it points into."""
    if not prefix:
        return outcome
    if isinstance(outcome, UncheckedFile):
        return outcome._replace(name=prefix + outcome.name)
    for finding in (*outcome.findings, *(each for each, _ in outcome.waived)):
        for label in (finding.at, *finding.others):
            _rename(label.span.source, prefix)
    return outcome._replace(name=prefix + outcome.name)


def _rename(source: Source, prefix: str) -> None:
    # A library is shared by the findings of many.
    if not source.name.startswith(prefix):
        source.name = prefix + source.name
