"""Spreads a check over the machines of a Dask cluster.

A unit of work is a portion of files with the texts they use, all of it sent along: workers need
this program and no file of the repository, and what comes of a unit hangs on nothing but what was
sent.
"""

from __future__ import annotations

import os
import posixpath
from collections.abc import Iterator
from typing import NamedTuple

from hts.base.cluster import ClusterError, connected, each
from hts.base.text.reading import TABLE_ENDINGS, Unreadable, decoded, read_bytes
from hts.checking.checker.outcome import outcomes
from hts.checking.checker.results import Outcome, UncheckedFile
from hts.checking.checker.tasks import Task
from hts.language.model import Loader
from hts.language.model.uses import used_by

#: Files in a unit: what a unit costs on the way (some ms) counts little beside them. A row of a
#: weld list takes as long as a file, so that the rows of the tables they use count, too.
PORTION = 32


class Sent(NamedTuple):
    """Files as they are here: where a path leads, links followed, and by real path the text, or why
    there is none."""

    real: dict[str, str]
    texts: dict[str, str | Unreadable]

    @property
    def rows(self) -> int:
        """Of the tables of weld lists."""
        return sum(
            text.count("\n")
            for path, text in self.texts.items()
            if isinstance(text, str) and path.lower().endswith(TABLE_ENDINGS)
        )


class SentLoader(Loader):
    """Reads the files that were sent, and no other."""

    def __init__(self, root: str, sent: Sent) -> None:
        super().__init__(root)
        self.root = root
        self._sent = sent

    def text(self, path: str) -> str:
        found = self._sent.texts.get(path)
        if found is None:
            raise Unreadable("the file was not sent")
        if isinstance(found, Unreadable):
            raise found
        return found

    def real(self, path: str) -> str:
        return self._sent.real.get(path, path)

    def has(self, path: str) -> bool:
        return path in self._sent.texts


def check_on_cluster(
    tasks: list[Task | UncheckedFile], today: str | None, address: str
) -> Iterator[Outcome | UncheckedFile]:
    """The outcomes of the tasks, in the order of the tasks. Raises ClusterError."""
    if any(isinstance(task, Task) and task.setting.rule_packs for task in tasks):
        raise ClusterError("rule packs are code of yours and are not sent: leave --on out")
    with connected(address):
        for portion in each(_portion, _units(tasks, today)):
            yield from portion


def _units(tasks: list[Task | UncheckedFile], today: str | None) -> Iterator[tuple[object, ...]]:
    reader = Reader()
    portion: list[Task | UncheckedFile] = []
    sent = Sent({}, {})
    for task in map(reader.filled, tasks):
        portion.append(task)
        reader.add(task, sent)
        if len(portion) + sent.rows >= PORTION:
            yield portion, sent, today
            portion, sent = [], Sent({}, {})
    if portion:
        yield portion, sent, today


def _portion(
    portion: list[Task | UncheckedFile], sent: Sent, today: str | None
) -> list[Outcome | UncheckedFile]:
    """What a worker does."""
    return outcomes(portion, today, loader=lambda root: SentLoader(root, sent))


class Reader:
    """Reads files once for all units that use them."""

    def __init__(self) -> None:
        self._texts: dict[str, str | Unreadable] = {}

    def filled(self, task: Task | UncheckedFile) -> Task | UncheckedFile:
        """The task with its bytes, so that nobody has to read them elsewhere."""
        if isinstance(task, UncheckedFile):
            return task
        try:
            where = os.path.abspath(task.path) if task.path is not None else None
            return task._replace(data=task.read(), path=where)
        except Unreadable as error:
            return task.failure(error)

    def sent(self, portion: list[Task | UncheckedFile]) -> Sent:
        """All files that the texts of a portion use, by way of others, too."""
        found = Sent({}, {})
        for task in portion:
            self.add(task, found)
        return found

    def add(self, task: Task | UncheckedFile, found: Sent) -> None:
        """What the text of a task uses, beside what is there already."""
        if isinstance(task, Task) and task.data is not None:
            text = task.data.decode("utf-8", "replace")
            where = task.path or posixpath.join(task.root, "standard input")
            self._follow(text, where, os.path.realpath(task.root), found)

    def _follow(self, text: str, path: str, root: str, found: Sent) -> None:
        for named in used_by(text, path):
            if named in found.real:
                continue
            real = found.real[named] = os.path.realpath(named)
            inside = real.startswith(os.path.join(root, ""))
            # What lies outside is nobody's to read; that it does is told there.
            if not inside or real in found.texts or not os.path.isfile(real):
                continue
            used = found.texts[real] = self._text(real)
            if isinstance(used, str):
                self._follow(used, real, root, found)

    def _text(self, real: str) -> str | Unreadable:
        if real not in self._texts:
            try:
                self._texts[real] = decoded(read_bytes(real))
            except Unreadable as error:
                self._texts[real] = error
        return self._texts[real]
