"""Units of work sent to workers, and what comes of them in order."""

from __future__ import annotations

import hashlib
import os
import sys
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from typing import Any, NamedTuple, TypeVar

import hts

T = TypeVar("T")

#: Units on the way for each worker, so that none waits and the scheduler holds little.
_AHEAD = 4
#: Workers that may die on one unit before the unit is taken for the cause.
_RETRIES = 3
_PATIENCE = "30s"
#: Packages whose versions bear on what comes of a unit, where it needs them.
_BEARING = ("numpy", "scipy", "polars", "typst", "pyyaml")

_CLIENT: ContextVar[Any] = ContextVar("client of a cluster", default=None)


class ClusterError(ChildProcessError):
    """The cluster cannot be used, or could not do a unit; the message says why."""


def is_connected() -> bool:
    """Whether units go to a cluster."""
    return _CLIENT.get() is not None


@contextmanager
def connected(address: str | None) -> Iterator[None]:
    """Within, units go to the workers of the scheduler at an address; None: they are done here.
    Raises ClusterError."""
    if address is None:
        yield
        return
    try:
        from distributed import Client
    except ModuleNotFoundError:
        raise ClusterError(
            'distributed is not installed; run: pip install "hts[cluster]"'
        ) from None
    try:
        client: Any = Client(address, timeout=_PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
    except Exception as error:
        raise ClusterError(f"no scheduler answers at {address}: {_said(error)}") from None
    before = _CLIENT.set(client)
    try:
        yield
    finally:
        _CLIENT.reset(before)
        client.close()


def each(work: Callable[..., T], units: Iterable[tuple[Any, ...]]) -> Iterator[T]:
    """What `work` gives for each unit, its arguments, in their order.

    `work` is a function at the top of a module. Raises ClusterError, and what `work` raises.
    """
    client = _CLIENT.get()
    if client is None:
        yield from (work(*unit) for unit in units)
        return
    try:
        client.wait_for_workers(1, timeout=_PATIENCE)
    except Exception:
        raise ClusterError("the scheduler has no worker") from None
    ahead = max(1, len(client.scheduler_info()["workers"])) * _AHEAD
    waiting: deque[Any] = deque()
    for unit in units:
        waiting.append(client.submit(_done, work, unit, content(), pure=False, retries=_RETRIES))
        if len(waiting) > ahead:
            yield _result(waiting.popleft())
    while waiting:
        yield _result(waiting.popleft())


class _Raised(NamedTuple):
    """What the work itself raised: the same wherever it is done, so that nobody tries again."""

    error: Exception


def _result(future: Any) -> Any:
    try:
        found = future.result()
    except Exception as error:
        raise ClusterError(f"the cluster could not do its work: {_said(error)}") from None
    if isinstance(found, _Raised):
        raise found.error
    return found


def _done(work: Callable[..., T], unit: tuple[Any, ...], program: str) -> T | _Raised:
    """What a worker does."""
    if content() != program:
        return _Raised(
            ClusterError(
                f"a worker runs another hts ({hts.__version__}) than this one, or other packages "
                "below it: install the same there"
            )
        )
    try:
        return work(*unit)
    except Exception as error:
        return _Raised(error)


@lru_cache(maxsize=1)
def content() -> str:
    """Digest of all files of the program and the versions of what it computes and prints with: the
    same on every machine that has the same."""
    package = os.path.dirname(os.path.abspath(hts.__file__))
    digest = hashlib.blake2b(f"{hts.__version__} {_versions()}".encode(), digest_size=16)
    for folder, folders, names in os.walk(package):
        folders[:] = sorted(name for name in folders if name != "__pycache__")
        for name in sorted(names):
            path = os.path.join(folder, name)
            with open(path, "rb") as file:
                digest.update(os.path.relpath(path, package).replace(os.sep, "/").encode())
                digest.update(file.read())
    return digest.hexdigest()


def _versions() -> str:
    from importlib.metadata import PackageNotFoundError, version

    found = [f"python {sys.version_info[0]}.{sys.version_info[1]}"]
    for name in _BEARING:
        try:
            found.append(f"{name} {version(name)}")
        except PackageNotFoundError:
            found.append(f"no {name}")
    return ", ".join(found)


def _said(error: BaseException) -> str:
    first = str(error).strip().split("\n")[0]
    return f"{type(error).__name__}: {first}" if first else type(error).__name__
