"""Which tests fail with other data in place of a book. All run in this process, collected once."""

from __future__ import annotations

import contextlib
import io
from collections.abc import Callable
from typing import Any

import pytest
from _pytest.runner import runtestprotocol

import hts.base.data
from hts.limits.books import book


def in_place_of(id: str, changed: list[Any], tests: list[str]) -> list[bool]:
    """For each of these whether one of the tests fails with it instead of the book."""
    # What `load` gives is shared: a book changed in it is changed for every test.
    shared = hts.base.data.load(f"books/{id}")
    kept = dict(shared)

    def put(data: Any) -> None:
        shared.clear()
        shared.update(data)
        book.cache_clear()

    return _noticed(tests, [lambda data=data: put(data) for data in changed], lambda: put(kept))


def _noticed(
    tests: list[str], changes: list[Callable[[], None]], restore: Callable[[], None]
) -> list[bool]:
    """For each change whether one of these tests fails with it. All run in this process."""
    if not tests or not changes:
        return [False] * len(changes)
    runs = _Runs(changes, restore)
    options = ["-n", "0", "-p", "no:cacheprovider", "-W", "ignore", "--assert=plain"]
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        pytest.main([*options, *tests], plugins=[runs])
    assert runs.sound, f"these fail before anything is changed: {tests}"
    return runs.noticed


class _Runs:
    """A plugin that collects tests once, and runs them once for each change."""

    def __init__(self, changes: list[Callable[[], None]], restore: Callable[[], None]) -> None:
        self.changes, self.restore = changes, restore
        self.sound = False
        self.noticed: list[bool] = []

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.sound = bool(session.items) and not self._fails(session.items)
        for change in self.changes:
            change()
            try:
                self.noticed.append(self._fails(session.items))
            finally:
                self.restore()
        return True

    def _fails(self, items: list[pytest.Item]) -> bool:
        for number, item in enumerate(items):
            item._initrequest()  # type: ignore[attr-defined]
            if any(report.failed for report in runtestprotocol(item, log=False, nextitem=None)):
                # What noticed one change is the likeliest to notice the next.
                items.insert(0, items.pop(number))
                return True
        return False
