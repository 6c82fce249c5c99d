"""Many small cases in one test: all are tried, and those that fail are told together.

A test of its own costs some three milliseconds before it does anything. `@each_row` stands where
`@pytest.mark.parametrize` would, takes the same, and makes one test of all rows; what a row needs
of its own, as a folder, no two rows can have.
"""

from __future__ import annotations

import inspect
import textwrap
from collections.abc import Callable, Iterable, Sequence
from typing import Any

import pytest

#: What a test gets for itself alone, so that rows would find what the row before them left.
_FOR_ONE = frozenset({"tmp_path", "monkeypatch", "capsys", "capfd", "caplog", "request"})
_FAILED = (Exception, pytest.fail.Exception, pytest.skip.Exception)
_Ids = Callable[[Any], object] | Iterable[object] | None


def each_row(
    names: str | Sequence[str], cases: Iterable[Any], ids: _Ids = None
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """A test of all `cases`: values of the arguments with these `names`, a tuple where there are
    several. Other arguments are fixtures, the same for all rows. `ids` name the rows that fail.
    What is tried stands in `rows` of the test, by names."""
    taken = [name.strip() for name in names.split(",")] if isinstance(names, str) else list(names)
    cases = list(cases)
    told = [_values(case, len(taken)) for case in cases]
    named = [
        getattr(case, "id", None) or name
        for case, name in zip(cases, _named(told, ids), strict=True)
    ]
    assert told, "a test without a row"

    def tried(test: Callable[..., None]) -> Callable[..., None]:
        asked = inspect.signature(test).parameters
        fixtures = [asked[name] for name in asked if name not in taken]
        alone = _FOR_ONE.intersection(asked)
        assert not alone and set(taken) <= set(asked), (test.__name__, alone)

        def every(**shared: Any) -> None:
            failed = []
            for name, values in zip(named, told, strict=True):
                try:
                    test(**dict(zip(taken, values, strict=True)), **shared)
                except _FAILED as error:
                    failed.append((name, error))
            if failed:
                lines = [
                    f"{name}:\n{textwrap.indent(f'{type(error).__name__}: {error}', '  ')}"
                    for name, error in failed
                ]
                head = f"{len(failed)} of {len(told)} rows fail"
                raise AssertionError("\n".join([head, *lines])) from failed[0][1]

        every.__name__, every.__doc__ = test.__name__, test.__doc__
        every.__module__, every.__qualname__ = test.__module__, test.__qualname__
        every.rows = {**getattr(test, "rows", {}), tuple(taken): told}  # type: ignore[attr-defined]
        every.__signature__ = inspect.Signature(fixtures)  # type: ignore[attr-defined]
        return every

    return tried


def _values(case: Any, count: int) -> tuple[Any, ...]:
    if hasattr(case, "marks"):
        assert not case.marks, "of the rows of one test none is marked"
        return tuple(case.values)
    return tuple(case) if count > 1 else (case,)


def _named(told: list[tuple[Any, ...]], ids: _Ids) -> list[str]:
    if callable(ids):
        return [" - ".join(str(ids(value) or value) for value in values) for values in told]
    if ids is not None:
        return [str(id) for id in ids]
    return [", ".join(map(repr, values)) for values in told]
