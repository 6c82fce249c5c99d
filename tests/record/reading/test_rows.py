"""Rows: cells without readings, order, repeats, clocks that are set, gaps, several files."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import numpy as np
import pytest

from hts.record.errors import RecordError
from hts.record.reading import Options, read
from hts.record.record import BLANK, OUTSIDE, READ, TEXT, Gap, Jump, Record

Log = Callable[..., str]


@pytest.fixture
def log(tmp_path: Path) -> Log:
    def write(*rows: str, name: str = "log.csv", head: str = "Time,T1 [C],T2 [C]") -> str:
        path = tmp_path / name
        path.write_text("\n".join((head, *rows)) + "\n")
        return str(path)

    return write


def said(record: Record, words: str) -> bool:
    return any(words in note for note in record.assumed)


def at(minute: int, hour: int = 10) -> str:
    return f"2026-11-21 {hour + minute // 60}:{minute % 60:02d}:00"


def test_what_stands_in_place_of_readings(log: Log) -> None:
    cells = ["20", "OPEN", "#DIV/0!", "****", "", "  ", "NaN", "1e9", "-999", "ERR", "20.5 C"]
    rows = [f"{at(n)},{cell},20" for n, cell in enumerate(cells)]
    record = read([log(*rows)])
    series = record.series["T1"]
    status = [READ, TEXT, TEXT, TEXT, BLANK, BLANK, TEXT, OUTSIDE, OUTSIDE, TEXT, READ]
    assert series.status.tolist() == status
    assert np.isnan(series.values[1:-1]).all()
    assert series.as_read[7:9].tolist() == [1e9, -999]
    assert series.values[-1] == 20.5
    assert said(record, "T1: 5 cells hold text")


def test_error_text_far_down_a_column_of_numbers(log: Log) -> None:
    rows = [f"{n},0.0,0,0,{n},20" for n in range(3000)]
    rows[2500] = "2500,0.0,0,0,OPEN,20"
    rows[2501] = "2501,0.0,0,0,  21.5 ,20"
    record = read([log(*rows, head="Time [s],a [%],b [%],c [%],T1 [C],T2 [C]")])
    series = record.series["T1"]
    assert np.flatnonzero(series.status == TEXT).tolist() == [2500]
    assert series.values[2501] == 21.5
    assert series.values[2999] == 2999 % 3000 or series.status[2999] == OUTSIDE


def test_a_number_with_the_other_decimal_mark_is_refused_where_it_stands(log: Log) -> None:
    rows = [f"{n};20,5;20" for n in range(400)]
    rows[300] = "300;1.020,5;20"
    with pytest.raises(RecordError) as error:
        read([log(*rows, head="Time [s];T1 [C];T2 [C]")])
    assert error.value.place == "log.csv:302:2"
    rows = [f"{n};20;20" for n in range(400)]
    rows[300] = "300;20;20,5"
    with pytest.raises(RecordError) as error:
        read([log(*rows, head="Time [s];T1 [C];T2 [C]")])
    assert error.value.place == "log.csv:302:3"


def test_a_row_with_too_many_cells_is_refused(log: Log) -> None:
    rows = [f"{n},20,20" for n in range(400)]
    rows[300] = "300,20,20,21"
    with pytest.raises(RecordError) as error:
        read([log(*rows, head="Time [s],T1 [C],T2 [C]")])
    assert error.value.place == "log.csv:302"


def test_a_time_that_cannot_be_read_is_refused(log: Log) -> None:
    with pytest.raises(RecordError) as error:
        read([log(f"{at(0)},20,20", f"{at(1)},20,20", "2026-13-45 10:02,20,20")])
    assert error.value.place == "log.csv:4:1"


def test_lines_that_are_no_rows(log: Log) -> None:
    rows = [f"{at(n)},20,20" for n in range(4)]
    record = read([log(*rows[:2], "", "Time,T1 [C],T2 [C]", *rows[2:], "End of record")])
    assert len(record.elapsed) == 4
    assert said(record, "2 lines that are no rows of readings are left out, line 5")


def test_unsorted_rows(log: Log) -> None:
    rows = [f"{at(n)},{n},20" for n in (0, 1, 3, 2, 4, 5, 6, 7)]
    record = read([log(*rows)])
    assert record.series["T1"].values.tolist() == [0, 1, 2, 3, 4, 5, 6, 7]
    assert said(record, "sorted")
    assert record.jumps == ()


def test_newest_first(log: Log) -> None:
    record = read([log(*(f"{at(n)},{n},20" for n in range(9, -1, -1)))])
    assert record.series["T1"].values.tolist() == list(range(10))
    assert said(record, "newest first")


def test_a_block_out_of_its_place(log: Log) -> None:
    rows = [f"{at(n)},{n},20" for n in (*range(20, 40), *range(20))]
    record = read([log(*rows)])
    assert record.series["T1"].values.tolist() == list(range(40))
    assert record.jumps == ()


def test_repeated_rows(log: Log) -> None:
    rows = [f"{at(n)},{n},20" for n in (0, 1, 1, 2, 3, 2, 3, 4)]
    record = read([log(*rows)])
    assert record.series["T1"].values.tolist() == [0, 1, 2, 3, 4]
    assert said(record, "3 repeated rows are dropped, the first at 2026-11-21 10:01:00")


def test_one_time_with_two_readings(log: Log) -> None:
    rows = [f"{at(n)},{n},20" for n in (0, 1, 2, 3, 4)]
    record = read([log(*rows[:3], f"{at(2)},9,20", *rows[3:])])
    assert record.series["T1"].values.tolist() == [0, 1, 2, 9, 3, 4]
    assert said(record, "other readings")


def test_a_clock_coarser_than_the_interval(log: Log) -> None:
    rows = [f"2026-11-21 10:{n // 6:02d},{n},20" for n in range(2, 34)]
    record = read([log(*rows)])
    assert record.elapsed.tolist() == [10.0 * n for n in range(32)]
    assert record.start == datetime(2026, 11, 21, 10, 0, 20)
    assert said(record, "spread evenly")


def test_a_clock_coarser_than_the_interval_loses_no_row(log: Log) -> None:
    """Two rows a minute, begun and ended in the midst of one; and every 40 s, now one, now two."""
    for every, first, last in ((30, 1, 20), (40, 0, 20)):
        times = [every * n for n in range(first, last)]
        record = read([log(*(f"2026-11-21 10:{s // 60:02d},{s},20" for s in times))])
        assert record.series["T1"].values.tolist() == times
        off = record.elapsed - record.elapsed[0] - (np.array(times) - times[0])
        assert np.abs(off).max() <= (0 if every == 30 else 20)


def test_a_clock_set_back(log: Log) -> None:
    stamps = [*(at(n) for n in range(30)), *(at(n) for n in range(10, 40))]
    record = read([log(*(f"{stamp},{n},20" for n, stamp in enumerate(stamps)))])
    assert record.elapsed.tolist() == [60.0 * n for n in range(60)]
    assert record.series["T1"].values.tolist() == list(range(60))
    assert record.jumps == (Jump(1800.0, -1200.0),)
    assert said(record, "The clock goes back by 00:20:00 after 2026-11-21 10:29:00")
    # The record's own clock shows what its rows say.
    assert [record.clock(60.0 * n) for n in range(60)] == stamps


def test_the_end_of_summer_time(log: Log) -> None:
    # Directive 2000/84/EC, art. 3: summer time ends at 1:00 UTC of the last Sunday of October.
    stamps = [f"2026-10-25 {h}:{m:02d}:00" for h in (1, 2, 2, 3) for m in range(0, 60, 10)]
    path = log(*(f"{stamp},{n},20" for n, stamp in enumerate(stamps)))
    record = read([path], None, Options(zone="Europe/Oslo"))
    assert record.elapsed.tolist() == [600.0 * n for n in range(24)]
    assert record.jumps == ()
    assert record.clock(0) == "2026-10-25 01:00:00"
    assert record.clock(3600) == "2026-10-25 02:00:00+0200"
    assert record.clock(7200) == "2026-10-25 02:00:00+0100"
    assert record.clock(3 * 3600) == "2026-10-25 03:00:00"
    # Without the zone the clock is seen to go back, and that is told.
    record = read([path])
    assert record.elapsed.tolist() == [600.0 * n for n in range(24)]
    assert record.jumps == (Jump(7200.0, -3600.0),)


def test_the_start_of_summer_time(log: Log) -> None:
    stamps = [f"2026-03-29 {h:02d}:{m:02d}:00" for h in (1, 3) for m in range(0, 60, 10)]
    path = log(*(f"{stamp},{n},20" for n, stamp in enumerate(stamps)))
    record = read([path], None, Options(zone="Europe/Oslo"))
    assert record.elapsed.tolist() == [600.0 * n for n in range(12)]
    assert record.gaps == ()
    assert read([path]).gaps == (Gap(3000.0, 7200.0),)


def test_stamps_with_an_offset(log: Log) -> None:
    stamps = ["2026-10-25T02:59:00+02:00", "2026-10-25T02:00:00+01:00", "2026-10-25T01:01:00Z"]
    record = read([log(*(f"{stamp},20,20" for stamp in stamps))])
    assert record.elapsed.tolist() == [0, 60, 120]
    assert record.clock(120) == "2026-10-25 03:01:00"


def test_midnight_on_a_clock_without_a_date(log: Log) -> None:
    record = read([log("23:59:30,20,20", "23:59:50,20,20", "00:00:10,20,20")])
    assert record.elapsed.tolist() == [0, 20, 40]
    assert record.clock(0) == "23:59:30"
    assert record.clock(40) == "24:00:10"
    assert said(record, "past midnight")


def test_midnight_without_a_time(log: Log) -> None:
    rows = ["20/11/2026 23:59,20,20", "21/11/2026,20,20", "21/11/2026 00:01,20,20"]
    assert read([log(*rows)]).elapsed.tolist() == [0, 60, 120]


def test_a_lead_in(log: Log) -> None:
    record = read([log("-1.5,20,20", "-0.5,20,20", "0.5,20,20", head="Time [s],T1 [C],T2 [C]")])
    assert record.elapsed.tolist() == [0, 1, 2]
    assert record.origin == -1.5
    assert record.clock(62.0) == "00:01:01"


def test_gaps_and_a_changed_interval(log: Log) -> None:
    times = [*range(0, 600, 60), *range(600, 700), *range(1000, 1300), *range(1300, 2500, 60)]
    rows = [f"{time},20,20" for time in times]
    record = read([log(*rows, head="Time [s],T1 [C],T2 [C]")])
    assert record.gaps == (Gap(699.0, 1000.0),)


def test_files_follow_in_any_order(log: Log) -> None:
    first = log(*(f"{at(n)},{n},20" for n in range(10)), name="a.csv")
    second = log(
        *(f"{at(n)};{n};20,5" for n in range(20, 30)), name="b.csv", head="Time;T1 [C];T2 [C]"
    )
    record = read([second, first])
    assert record.series["T1"].values.tolist() == [*range(10), *range(20, 30)]
    assert record.gaps == (Gap(540.0, 1200.0),)
    assert [file.name for file in record.files] == ["b.csv", "a.csv"]
    assert [file.rows for file in record.files] == [10, 10]


def test_files_that_overlap(log: Log) -> None:
    first = log(*(f"{at(n)},{n},20" for n in range(10)), name="a.csv")
    second = log(
        *(f"{at(n)},20,{n}" for n in range(6, 15)), name="b.csv", head="Time,T2 [C],T1 [C]"
    )
    record = read([first, second])
    assert record.series["T1"].values.tolist() == list(range(15))
    assert (record.series["T2"].values == 20).all()
    assert said(record, "4 rows of b.csv stand in a.csv too")


def test_files_that_contradict(log: Log) -> None:
    first = log(*(f"{at(n)},{n},20" for n in range(10)), name="a.csv")
    second = log(*(f"{at(n)},{n + 5},20" for n in range(6, 15)), name="b.csv")
    with pytest.raises(RecordError, match="different rows"):
        read([first, second])


def test_files_that_each_count_from_zero(log: Log) -> None:
    paths = [
        log(*(f"{n},20,{n}" for n in range(10)), name=name, head="Time [s],T1 [C],T2 [C]")
        for name in ("a.csv", "b.csv")
    ]
    record = read(paths)
    assert len(record.elapsed) == 10  # the same rows twice
    log(*(f"{n},20,{2 * n}" for n in range(10)), name="b.csv", head="Time [s],T1 [C],T2 [C]")
    with pytest.raises(RecordError, match="export clock times"):
        read(paths)


def test_two_recorders_side_by_side(log: Log) -> None:
    first = log(*(f"{at(n)},{n},20" for n in range(10)), name="a.csv")
    later = [f"2026-11-21 10:{n:02d}:20" for n in range(2, 12)]
    second = log(
        *(f"{stamp},{n}" for n, stamp in enumerate(later)), name="b.csv", head="Time,T3 [C]"
    )
    record = read([first, second])
    assert record.elapsed.tolist() == [60.0 * n for n in range(10)]
    np.testing.assert_array_equal(record.series["T3"].values, [np.nan, np.nan, *range(8)])
    assert record.series["T3"].status.tolist() == [BLANK, BLANK, *[READ] * 8]
    assert said(record, "nearest row, at most 20 s away")


def test_of_two_recorders_the_quicker_gives_the_times(log: Log) -> None:
    slow = log(*(f"{at(2 * n)},{n}" for n in range(5)), name="a.csv", head="Time,T3 [C]")
    quick = log(*(f"{at(n)},{n},20" for n in range(9)), name="b.csv")
    record = read([slow, quick])
    assert record.series["T1"].values.tolist() == list(range(9))
    assert record.series["T3"].values.tolist() == [0, 0, 1, 1, 2, 2, 3, 3, 4]
    assert record.series["T3"].measured.tolist() == [True, False] * 4 + [True]
    assert record.series["T1"].measured.all()


def test_files_that_share_some_columns(log: Log) -> None:
    """What stands in both is read once; what only one of them has is read from there."""
    first = log(*(f"{at(n)},{n},20" for n in range(10)), name="a.csv", head="Time,T1 [C],T2 [C]")
    rows = (f"{at(n)},20,{n + 50}" for n in range(4, 14))
    second = log(*rows, name="b.csv", head="Time,T2 [C],T3 [C]")
    record = read([first, second])
    assert record.elapsed.tolist() == [60.0 * n for n in range(14)]
    assert record.series["T2"].values.tolist() == [20] * 14
    np.testing.assert_array_equal(record.series["T3"].values, [*[np.nan] * 4, *range(54, 64)])
    np.testing.assert_array_equal(record.series["T1"].values, [*range(10), *[np.nan] * 4])
    assert said(record, "are dropped, but for T3")


def test_it_is_labelled_as_simulated(log: Log) -> None:
    rows = [f"{at(n)},{n},20" for n in range(3)]
    assert read([log("Time,T1 [C],T2 [C]", *rows, head="# simulated: yes")]).simulated
    assert read([log("Time,T1 [C],T2 [C]", *rows, head="Simulated record")]).simulated
    assert not read([log("Time,T1 [C],T2 [C]", *rows, head="Simulated: no")]).simulated
    assert not read([log(*rows)]).simulated


def test_the_digest_is_of_the_bytes(log: Log) -> None:
    rows = [f"{at(n)},{n},20" for n in range(3)]
    first = read([log(*rows)])
    assert read([log(*rows)]).digest == first.digest
    assert read([log(*rows, "")]).digest != first.digest


@pytest.mark.parametrize(
    "content", [b"", b"\n\n", b"Job: 12\nnothing here\n", b"\x00\x01\x02" * 50]
)
def test_no_log_at_all(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "log.csv"
    path.write_bytes(content)
    with pytest.raises(RecordError):
        read([str(path)])
    with pytest.raises(RecordError):
        read([str(tmp_path / "absent.csv")])


def test_latin_1(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_bytes("Time [s];T1 [°C]\n0;20\n1;21\n".encode("latin-1"))
    record = read([str(path)])
    assert record.series["T1"].unit == "°C"
    assert said(record, "read as Latin-1")


#: As recorders write times: common practice, no source.
FORMS = (
    ("2026-11-21T10:00:00.250Z", "2026-11-21T10:00:00.750Z"),
    ("11/21/2026 10:00:00:250", "11/21/2026 10:00:00:750"),
    ('"Nov 21, 2026 10:00:00.25"', '"Nov 21, 2026 10:00:00.75"'),
    ("20261121T100000", "2026-11-21 10:00:00.5"),
    ("2026/11/21 10:00:00.25", "2026/11/21 10:00:00.75"),
    ("1d 02:00:00", "1 d 02:00:00.5"),
    ("1.02:00:00", "1.02:00:00.5"),
    ("1 02:00:00", "1 02:00:00.5"),
    ("11:59:59.75 a.m.", "12:00:00.25 p.m."),
    ("-00:00:00.25", "00:00:00.25"),
)


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form[0])
def test_forms_of_time(log: Log, form: tuple[str, str]) -> None:
    record = read([log(*(f"{stamp},20,20" for stamp in form))])
    np.testing.assert_allclose(record.elapsed, [0, 0.5], rtol=0, atol=1e-6)


def test_names_of_the_time_in_another_language(log: Log) -> None:
    rows = [f"21.11.2026;10:{n:02d}:00;20,5;21" for n in range(4)]
    record = read([log("Datum;Uhrzeit;Kanal 1 [°C];Kanal 2 [°C]", *rows, head="sep=;")])
    assert record.elapsed.tolist() == [0, 60, 120, 180]
    assert record.start == datetime(2026, 11, 21, 10)
    assert list(record.series) == ["Kanal 1", "Kanal 2"]


def test_rows_that_do_not_advance(log: Log) -> None:
    with pytest.raises(RecordError, match="all its rows are at"):
        read([log(*(f"2026-11-21,{n},20" for n in range(5)))])


def test_cells_with_their_unit(log: Log) -> None:
    rows = [f"{at(n)},20.5 °C,68 °F" for n in range(3)]
    series = read([log(*rows, head="Time,T1,T2")]).series
    assert series["T1"].values.tolist() == [20.5] * 3
    assert series["T2"].values.tolist() == [20.0] * 3
