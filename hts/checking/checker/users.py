"""The specifications that use files to be checked: a change of a library breaks them, not it."""

from __future__ import annotations

import os

from hts.base.text.reading import Unreadable, decoded, name_below, read_bytes
from hts.checking.checker.left_out import Ignored
from hts.checking.checker.results import UncheckedFile
from hts.checking.checker.setting import Setting
from hts.checking.checker.tasks import Settings, Task, files_below, is_table
from hts.language.model.uses import reached, used_by


def with_users(tasks: list[Task | UncheckedFile], settings: Settings) -> list[Task | UncheckedFile]:
    """The tasks, and after them every specification of their repositories that uses one of them,
    by way of others, too. A table is checked by way of these alone."""
    there = {
        os.path.realpath(task.path): task
        for task in tasks
        if isinstance(task, Task) and task.path is not None
    }
    more: list[Task | UncheckedFile] = []
    for root in dict.fromkeys(task.root for task in there.values()):
        named = {real for real, task in there.items() if task.root == root}
        more += _users(root, named, set(there), settings)
    return [*(task for task in tasks if not is_table(task)), *more]


def _users(
    root: str, named: set[str], known: set[str], settings: Settings
) -> list[Task | UncheckedFile]:
    uses: dict[str, list[str]] = {}
    paths: dict[str, str] = {}
    unread: list[Task | UncheckedFile] = []
    for file in files_below(root, Ignored(root)):
        if isinstance(file, UncheckedFile):
            unread.append(UncheckedFile(name_below(file.name, root), file.reason))
            continue
        try:
            text = decoded(read_bytes(file))
        except Unreadable as error:
            # Whether it uses one of them cannot be told.
            unread.append(UncheckedFile(name_below(file, root), str(error)))
            continue
        real = os.path.realpath(file)
        paths[real] = file
        uses[real] = [os.path.realpath(used) for used in used_by(text, os.path.abspath(file))]
    found: dict[str, Setting] = {}
    made: list[Task | UncheckedFile] = []
    for real in sorted(reached(uses, named)):
        if real in known:
            continue
        path = paths[real]
        folder = os.path.dirname(path)
        if folder not in found:
            found[folder] = settings(folder)
        if found[folder].excludes(path):
            continue
        made.append(Task(root, name_below(path, root), path, None, found[folder]))
    return made + unread
