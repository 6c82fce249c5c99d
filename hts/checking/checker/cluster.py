"""Spreads a check over the machines of a Dask cluster.

A unit of work is a portion of files with the texts they use, all of it sent along: workers need
this program and no file of the repository, and what comes of a unit hangs on nothing but what was
sent.
A unit whose worker dies is done again by another one. A scheduler and its workers run what they are
sent, and what they answer is taken: both have to be trusted.
"""

from __future__ import annotations

import hashlib
import os
import posixpath
from collections import deque
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple

import hts
from hts.base.text.reading import Unreadable, decoded, read_bytes
from hts.checking.checker.outcome import outcomes
from hts.checking.checker.results import Outcome, UncheckedFile
from hts.checking.checker.tasks import Task
from hts.language.model import Loader
from hts.language.model.uses import used_by

#: Files in a unit: what a unit costs on the way (some ms) counts little beside them.
PORTION = 32
#: Units on the way for each worker, so that none waits and the scheduler holds little.
_AHEAD = 4
#: Workers that may die on one unit before the unit is taken for the cause.
_RETRIES = 3
_PATIENCE = "30s"


class ClusterError(ChildProcessError):
    """The cluster cannot be used, or could not do a unit; the message says why."""


class Sent(NamedTuple):
    """Files as they are here: where a path leads, links followed, and by real path the text, or why
    there is none."""

    real: dict[str, str]
    texts: dict[str, str | Unreadable]


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
    try:
        from distributed import Client
    except ModuleNotFoundError:
        raise ClusterError(
            'distributed is not installed; run: pip install "hts[cluster]"'
        ) from None
    if any(isinstance(task, Task) and task.setting.rule_packs for task in tasks):
        raise ClusterError("rule packs are code of yours and are not sent: leave --on out")
    try:
        client: Any = Client(address, timeout=_PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
    except Exception as error:
        raise ClusterError(f"no scheduler answers at {address}: {_said(error)}") from None
    try:
        yield from _in_order(client, tasks, today)
    finally:
        client.close()


def _in_order(
    client: Any, tasks: list[Task | UncheckedFile], today: str | None
) -> Iterator[Outcome | UncheckedFile]:
    try:
        client.wait_for_workers(1, timeout=_PATIENCE)
    except Exception:
        raise ClusterError("the scheduler has no worker") from None
    ahead = max(1, len(client.scheduler_info()["workers"])) * _AHEAD
    reader = _Reader()
    waiting: deque[Any] = deque()
    for start in range(0, len(tasks), PORTION):
        portion = [reader.filled(task) for task in tasks[start : start + PORTION]]
        waiting.append(
            client.submit(
                _portion,
                portion,
                reader.sent(portion),
                today,
                content(),
                pure=False,
                retries=_RETRIES,
            )
        )
        if len(waiting) > ahead:
            yield from _result(waiting.popleft())
    while waiting:
        yield from _result(waiting.popleft())


def _result(future: Any) -> list[Outcome | UncheckedFile]:
    try:
        found: list[Outcome | UncheckedFile] = future.result()
    except ClusterError:
        raise
    except Exception as error:
        raise ClusterError(f"the cluster could not do its work: {_said(error)}") from None
    return found


def _portion(
    portion: list[Task | UncheckedFile], sent: Sent, today: str | None, program: str
) -> list[Outcome | UncheckedFile]:
    """What a worker does. Raises ClusterError where it runs another program."""
    if content() != program:
        raise ClusterError(
            f"a worker runs another hts ({hts.__version__}) than this one: install the same there"
        )
    return outcomes(portion, today, loader=lambda root: SentLoader(root, sent))


@lru_cache(maxsize=1)
def content() -> str:
    """Digest of all files of the program: the same on every machine that has the same."""
    package = os.path.dirname(os.path.abspath(hts.__file__))
    digest = hashlib.blake2b(hts.__version__.encode(), digest_size=16)
    for folder, folders, names in os.walk(package):
        folders[:] = sorted(name for name in folders if name != "__pycache__")
        for name in sorted(names):
            path = os.path.join(folder, name)
            with open(path, "rb") as file:
                digest.update(os.path.relpath(path, package).replace(os.sep, "/").encode())
                digest.update(file.read())
    return digest.hexdigest()


class _Reader:
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
            if isinstance(task, Task) and task.data is not None:
                text = task.data.decode("utf-8", "replace")
                where = task.path or posixpath.join(task.root, "standard input")
                self._follow(text, where, os.path.realpath(task.root), found)
        return found

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


def _said(error: BaseException) -> str:
    first = str(error).strip().split("\n")[0]
    return f"{type(error).__name__}: {first}" if first else type(error).__name__
