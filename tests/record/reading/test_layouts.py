"""A layout that is known from another log is the one the log itself shows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.record.errors import RecordError
from hts.record.reading import layouts
from hts.record.reading.layouts import layout_of
from hts.record.reading.options import NOTHING
from hts.record.reading.sniff import Layout, sniff

HEADS = (
    *("", "Time,T1,T2\n", "Time;T1;T2\n", "simulated: yes\nTime,T1 [degC],T2\n"),
    *("joint W1\nTime,T1,T2\n", "joint: W2\nTime,T1,T2\n", "T1;T2\nTime,T1,T2\n"),
    *("joint,W3\nTime,T1,T2\n", "06:00,5\nTime,T1,T2\n", "T1,06:00,5\nTime,T1,T2\n"),
    *(",W3\nTime,T1,T2\n", "\nTime,T1,T2\n", "a,b,c\nTime,T1,T2\n", "unit=degF\nTime,T1,T2\n"),
)
CELLS = st.one_of(
    st.decimals(-99, 1999, places=1).map(str),
    st.integers(-99, 19999).map(str),
    st.sampled_from(["", "open", "NaN", "1.234", "21,5", "1,234", "-", "20.5 degC", '"20.5"', "."]),
)
LOGS = st.tuples(
    st.sampled_from(HEADS),
    st.sampled_from([",", ";", "\t"]),
    st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=6),
    st.sampled_from(["\n", "\r\n"]),
)


def log(parts: tuple[str, str, list[tuple[str, str]], str]) -> bytes:
    head, separator, rows, end = parts
    lines = [separator.join((f"12:{at:02}:00", *row)) for at, row in enumerate(rows)]
    return (head + "".join(line + end for line in lines)).encode()


def tried(data: bytes, find: object) -> Layout | str:
    try:
        return find(data, "log", NOTHING)  # type: ignore[operator]
    except RecordError as error:
        return str(error)


@given(st.lists(LOGS, min_size=1, max_size=4))
def test_it_is_as_without_the_logs_before(logs: list) -> None:
    for data in map(log, logs):
        assert tried(data, layout_of) == tried(data, sniff)


def test_logs_alike_are_looked_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    def made(degrees: float, joint: str) -> bytes:
        rows = [f"2026-11-21 06:{at:02}:00,{degrees + at:.1f},,5" for at in range(60)]
        return "\n".join([f"joint,{joint}", "Time,T1,T2,T3", *rows]).encode()

    first, other = made(20.0, "W1"), made(700.0, "W12 A")
    assert layout_of(first, "a", NOTHING) is layout_of(made(700.0, "W1"), "b", NOTHING)
    with monkeypatch.context() as only:
        only.setattr(layouts, "sniff", None)
        found = layout_of(other, "c", NOTHING)
    assert found == sniff(other, "c", NOTHING)
    assert found.preamble == {"joint": "W12 A"}
