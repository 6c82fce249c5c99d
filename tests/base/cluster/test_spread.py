"""Units of work in their order, by a scheduler that stands in for one; `tests/cli` tries a real
one."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest

import hts
from hts.base.cluster import ClusterError, connected, each, is_connected, spread


class Client:
    """Does each unit when it is asked for, and notes how many wait."""

    def __init__(self, address: str, **asked: Any) -> None:
        if address != "tcp://known":
            raise OSError(" no route \n to host")
        self.asked, self.workers, self.most, self.waiting = asked, 1, 0, 0
        self.closed = False
        self.submitted: list[dict[str, Any]] = []

    def wait_for_workers(self, number: int, timeout: str) -> None:
        if self.workers < number:
            raise TimeoutError

    def scheduler_info(self) -> dict[str, Any]:
        return {"workers": dict.fromkeys(range(self.workers))}

    def submit(self, done: Any, work: Any, unit: Any, program: str, **how: Any) -> Any:
        self.submitted.append(how)
        self.waiting += 1
        self.most = max(self.most, self.waiting)

        def result() -> Any:
            self.waiting -= 1
            if unit == (99,):
                raise MemoryError
            return done(work, unit, program)

        return SimpleNamespace(result=result)

    def close(self) -> None:
        self.closed = True


@pytest.fixture
def client(monkeypatch: pytest.MonkeyPatch) -> Iterator[Client]:
    monkeypatch.setitem(sys.modules, "distributed", SimpleNamespace(Client=Client))
    with connected("tcp://known"):
        known = spread._CLIENT.get()
        yield known
    assert known.closed
    assert not is_connected()


def twice(number: int) -> int:
    if number < 0:
        raise ValueError("below zero")
    return 2 * number


UNITS = [(n,) for n in range(40)]


def test_without_a_scheduler_they_are_done_here() -> None:
    with connected(None):
        assert not is_connected()
        assert list(each(twice, UNITS)) == [2 * n for (n,) in UNITS]


@pytest.mark.parametrize("workers", [1, 3])
def test_they_come_in_their_order_and_few_wait(client: Client, workers: int) -> None:
    assert is_connected()
    assert client.asked == {"timeout": "30s", "set_as_default": False}
    client.workers = workers
    assert list(each(twice, UNITS)) == [2 * n for (n,) in UNITS]
    assert client.most == 4 * workers + 1
    assert all(how == {"pure": False, "retries": 3} for how in client.submitted)


def test_what_the_work_raises_is_raised_here(client: Client) -> None:
    done = each(twice, [(1,), (-1,)])
    assert next(done) == 2
    with pytest.raises(ValueError, match=r"^below zero$"):
        next(done)


def test_what_the_cluster_cannot_do(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(ClusterError, match=r"^the cluster could not do its work: MemoryError$"):
        list(each(twice, [(99,)]))
    with pytest.raises(ClusterError) as caught:
        raise spread._done(twice, (1,), "another program").error  # type: ignore[union-attr]
    assert str(caught.value) == (
        f"a worker runs another hts ({hts.__version__}) than this one, or other packages below it: "
        "install the same there"
    )
    client.workers = 0
    with pytest.raises(ClusterError, match=r"^the scheduler has no worker$"):
        list(each(twice, [(1,)]))
    with (
        pytest.raises(ClusterError) as caught,
        connected("tcp://nobody"),
    ):
        pass
    assert str(caught.value) == "no scheduler answers at tcp://nobody: OSError: no route "


def test_without_the_package(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with (
        pytest.raises(ClusterError, match=r'^distributed is not .*"hts\[cluster\]"$'),
        connected("x"),
    ):
        pass


def test_the_content_names_what_bears_on_the_outcome() -> None:
    python = f"python {sys.version_info[0]}.{sys.version_info[1]}"
    assert spread._versions().startswith(f"{python}, numpy ")
    assert spread._versions().count(",") == 5
    assert len(spread.content()) == 32
