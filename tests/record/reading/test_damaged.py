"""Whatever is done to a log, it is read or refused in words; the program never falls over."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.record.errors import RecordError
from hts.record.faults import apply, find
from hts.record.reading import Options, read

LOGS = (
    "Unit: degC\n\nTime;T1;T2\n"
    + "".join(f"21/11/2026 10:{n:02d};2{n};20,{n}\n" for n in range(9)),
    "Time,T1,T2,Remarks\ns,degC,degF,\n" + "".join(f"{n},2{n}.5,{60 + n},\n" for n in range(9)),
    "Date\tTime\tT1 [C]\n" + "".join(f"2026-11-21\t10:00:{n:02d}\t{n}\n" for n in range(9)),
    "Elapsed T1(C) T2(C)\n" + "".join(f"00:00:{n:02d} {n} {2 * n}\n" for n in range(9)),
    "No.|Time|T1 [°C]\n" + "".join(f"{n}|2026-11-21T10:00:{n:02d}+01:00|{n}\n" for n in range(9)),
)  # fmt: skip
BITS = (
    *("", "\n", ",", ";", "\t", " ", '"', "'", "OPEN", "NaN", "-", "1e999", "0", "9" * 30, "é"),
    *("\0", ":", "/", "1.234,5", "2026-02-30", "24:61:00", "inf", "\ufeff", "=1+1", "K", "()"),
)

edits = st.lists(
    st.tuples(st.floats(0, 1), st.integers(0, 12), st.sampled_from(BITS)), min_size=1, max_size=6
)


@given(
    log=st.sampled_from(LOGS),
    edits=edits,
    options=st.builds(
        Options,
        unit=st.sampled_from([None, "degC", "degF", "K"]),
        time_unit=st.sampled_from([None, "s", "serial", "unix", "mm:ss"]),
        day_order=st.sampled_from([None, "day", "month"]),
        zone=st.sampled_from([None, "Europe/Oslo", "+01:00"]),
        time=st.sampled_from([None, "Time", "Date, Time"]),
        separator=st.sampled_from([None, ";", "tab", "blanks"]),
        decimal=st.sampled_from([None, ".", ","]),
        mapping=st.none(),
        events=st.none(),
    ),
)
def test_it_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory,
    log: str,
    edits: list[tuple[float, int, str]],
    options: Options,
) -> None:
    for where, length, bit in edits:
        at = int(where * len(log))
        log = log[:at] + bit + log[at + length :]
    path = tmp_path_factory.getbasetemp() / "damaged.csv"
    path.write_text(log, "utf-8")
    try:
        record = read([str(path)], None, options)
    except RecordError as error:
        assert error.cause and error.remedy
        return
    assert (record.elapsed[1:] > record.elapsed[:-1]).all()
    assert record.elapsed[0] == 0
    for series in record.series.values():
        assert len(series.values) == len(series.status) == len(record.elapsed)
    record.clock(record.end)
    apply(record, find(record))


@pytest.mark.parametrize(
    "text",
    [
        'Time,T1 [C],"T2 [C]"\n0,"1\r",2\n1,1\r,"2"\n',
        'Time,T1 [C],"T2\r[C]\n0,1,2\n1,1,2\n',
    ],
)
def test_carriage_returns_within_quoted_lines(tmp_path: Path, text: str) -> None:
    path = tmp_path / "log.csv"
    path.write_bytes(text.replace("\n", "\r\n").encode())
    try:
        read([str(path)], None, Options(time_unit="s", unit="degC"))
    except RecordError as error:
        assert error.remedy


def test_a_log_in_utf16_cut_within_a_letter(tmp_path: Path) -> None:
    text = "Time,T1 [C],T2 [C]\n" + "".join(f"00:00:{n:02d},{n},2\n" for n in range(9))
    path = tmp_path / "log.csv"
    for encoding in ("utf-16-le", "utf-16-be"):
        mark = "\ufeff".encode(encoding)
        for cut in (1, 3, 5):
            path.write_bytes(mark + text.encode(encoding)[:-cut])
            assert 8 <= len(read([str(path)]).elapsed) <= 9


def test_bytes_of_other_files(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    for data in (
        b"%PDF-1.7\n1 0 obj\n",
        b"PK\x03\x04" * 40,
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" * 40,
        bytes(range(256)) * 4,
        b"\xff\xfe\x00",
    ):
        path.write_bytes(data)
        with pytest.raises(RecordError):
            read([str(path)])
