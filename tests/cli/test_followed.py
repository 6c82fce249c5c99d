"""A log followed and pages served, with a log, a clock and a server that stand in: when something
is said, and what."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hts.checking.rules.examples import BASES
from hts.cli.record import watch
from hts.record.errors import NoRows, RecordError
from tests.cli.inside import hts


def view(clock: str, *alarms: str, elapsed: float = 60.0, readings: int = 3) -> Any:
    return SimpleNamespace(clock=clock, alarms=alarms, elapsed=elapsed, readings=readings)


class _Stopped(Exception):
    """No more looks are given."""


def followed(
    looks: list[Any], monkeypatch: pytest.MonkeyPatch, seconds: float = 10.0
) -> list[tuple[float, float]]:
    """Follows a log of which each look brings a view, an error, or nothing new (None); each sleep,
    and the time it begins at."""
    now, slept = [0.0], []
    given: Iterator[Any] = iter(looks)
    current: list[Any] = []

    def changed() -> bool:
        try:
            current[:] = [next(given)]
        except StopIteration:
            raise _Stopped from None
        return current[0] is not None

    def look() -> Any:
        if isinstance(current[0], Exception):
            raise current[0]
        return current[0]

    def sleep(length: float) -> None:
        slept.append((now[0], length))
        now[0] += length

    monkeypatch.setattr(watch, "time", SimpleNamespace(monotonic=lambda: now[0], sleep=sleep))
    growing: Any = SimpleNamespace(changed=changed, name="log.csv")
    asked: Any = SimpleNamespace(job=SimpleNamespace(units=None))
    with pytest.raises(_Stopped):
        watch._follow(growing, look, asked, "text", seconds)
    return slept


def test_alarms_are_said_once_and_when_they_are_gone(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    looks = [
        NoRows("log.csv", "no row", ""), RecordError("log.csv", "two heads", "keep one"),
        view("10:00"), view("10:01", "T1 open"), view("10:02", "T1 open", "T2 open"),
        view("10:03"), view("10:04"),
    ]  # fmt: skip
    slept = followed(looks, monkeypatch)
    told = capsys.readouterr()
    assert told.out.splitlines() == [
        "10:01 ALARM T1 open", "10:02 ALARM T2 open", "10:03 alarm cleared"
    ]  # fmt: skip
    first, *rest = told.err.splitlines()
    assert first == "log.csv has no row yet" and rest and "two heads" in rest[0]
    assert not told.err.endswith("\n\n")
    assert slept == [(10.0 * n, 10.0) for n in range(len(looks))]


@pytest.mark.parametrize(
    ("elapsed", "readings", "silent"),
    [
        # Three rows in a minute are 30 s apart: 90 s are waited for, and told when they are over.
        (60.0, 3, 10),
        # One row alone has no interval, and rows closer than the looks count as these.
        (0.0, 1, 4), (1.0, 1, 4), (20.0, 3, 4), (20.0, 21, 4),
    ],
)  # fmt: skip
def test_a_recorder_that_is_silent(
    elapsed: float, readings: int, silent: int, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    """Three intervals without a new row, from the look that brought the last; said once."""
    last = view("10:00", elapsed=elapsed, readings=readings)
    said = "no new row since 10:00: is the recorder writing?\n"
    followed([view("9:59"), last, *[None] * (silent - 1)], monkeypatch)
    assert capsys.readouterr().err == ""
    followed([view("9:59"), last, *[None] * silent], monkeypatch)
    assert capsys.readouterr().err == said
    followed([last, *[None] * 30, last, *[None] * 30], monkeypatch)
    assert capsys.readouterr().err == 2 * said
    # Of a log without a row nothing is known yet.
    followed([NoRows("log.csv", "no row", ""), *[None] * 30], monkeypatch)
    assert capsys.readouterr().err == "log.csv has no row yet\n"


def test_a_log_that_is_not_there_yet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "log.csv"
    slept: list[float] = []

    def sleep(length: float) -> None:
        slept.append(length)
        if len(slept) == 3:
            path.write_text("")

    monkeypatch.setattr(watch, "time", SimpleNamespace(sleep=sleep))
    for _ in range(2):
        watch._wait(str(path), 7.0)
    assert slept == [7.0] * 3
    assert capsys.readouterr().err == f"waiting for {path}: it is not there yet\n"


def test_ended_by_another_program() -> None:
    """As a shell tells it: 128 and the number of the signal (POSIX, exit status of a command)."""
    with pytest.raises(SystemExit) as ended:
        watch._ended(15, None)
    assert ended.value.code == 143


@pytest.fixture
def served(monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """The server of the pages, whose first user presses Ctrl-C."""
    heard: dict[str, Any] = {"opened": [], "runs": []}

    class _Server:
        address = "http://127.0.0.1:1/key/"

        def __init__(self, site: Any) -> None:
            heard["runs"] = list(site.runs)

        def __enter__(self) -> _Server:
            return self

        def __exit__(self, *_: object) -> None:
            heard["closed"] = True

        def serve_forever(self) -> None:
            raise KeyboardInterrupt

    monkeypatch.setattr("hts.view.server.Server", _Server)
    opened: Callable[[str], None] = heard["opened"].append
    monkeypatch.setattr("webbrowser.open", opened)
    return heard


def test_pages_until_they_are_ended(served: dict[str, Any], tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text(BASES["butt"], "utf-8")
    (tmp_path / "log.csv").write_text("time,T1\n", "utf-8")
    address = "http://127.0.0.1:1/key/"
    done = hts(tmp_path, "view", "a.hts", "--no-open")
    assert (done.returncode, done.stdout, served["opened"]) == (0, f"{address}\n", [])
    assert served["closed"] and served["runs"] == []
    done = hts(tmp_path, "view", "a.hts", "--record", "log.csv", "--watch", "log.csv")
    assert (done.returncode, done.stderr, served["opened"]) == (0, "", [address])
    assert len(served["runs"]) == 2
