"""A growing log: followed through what recorders do to it, and told in words."""

import json
import os
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from hts.job.compiler import compile_spec
from hts.language.model import Spec
from hts.record.errors import NoRows, RecordError
from hts.record.faults import apply, find
from hts.record.plan import Plan, plan
from hts.record.reading import Options, read
from hts.record.simulation import Ask, simulate
from hts.record.watch import Growing, View, look, screen
from tests.texts import examples

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def header() -> Plan:
    path = str(ROOT / "specs" / "p22-header.hts")
    loader = examples()
    return plan(compile_spec(Spec(loader.read(path), loader)))


def lines(of: Plan, *departures: str) -> list[str]:
    return simulate(of, Ask(seed=1, departures=departures)).splitlines(keepends=True)


def seen(of: Plan, rows: list[str], folder: Path) -> View:
    path = folder / "log.csv"
    path.write_text("".join(rows))
    return look(read([str(path)], of.run.tags, Options()), of, ())


# A file that grows ------------------------------------------------------------------------------


def content(growing: Growing) -> bytes:
    return b"".join(Path(path).read_bytes() for path in growing.parts)


def test_a_row_is_taken_when_it_is_whole(tmp_path: Path) -> None:
    log = tmp_path / "log.csv"
    log.write_bytes(b"time,T1\n0,20\n60,2")
    with Growing([], str(log)) as growing:
        assert growing.changed() and content(growing) == b"time,T1\n0,20\n"
        assert not growing.changed()
        log.write_bytes(b"time,T1\n0,20\n60,25\n")
        assert growing.changed() and content(growing) == b"time,T1\n0,20\n60,25\n"


def test_an_emptied_log_keeps_what_it_held(tmp_path: Path) -> None:
    log = tmp_path / "log.csv"
    log.write_bytes(b"time,T1\n0,20\n60,25\n")
    with Growing([], str(log)) as growing:
        assert growing.changed()
        log.write_bytes(b"")
        assert not growing.changed()
        log.write_bytes(b"time,T1\n120,30\n")
        assert growing.changed()
        assert content(growing) == b"time,T1\n0,20\n60,25\ntime,T1\n120,30\n"
        assert len({os.path.basename(path) for path in growing.parts}) == 2


def test_a_log_moved_away_and_begun_anew_is_followed(tmp_path: Path) -> None:
    log = tmp_path / "log.csv"
    log.write_bytes(b"time,T1\n0,20\n60,25\n")
    with Growing([], str(log)) as growing:
        assert growing.changed()
        log.rename(tmp_path / "log.csv.1")
        assert not growing.changed()
        log.write_bytes(b"time,T1\n120,30\n180,35\n")
        assert growing.changed() and content(growing).count(b"\n") == 6


def test_a_log_written_anew_with_the_same_rows_is_no_second_part(tmp_path: Path) -> None:
    log = tmp_path / "log.csv"
    log.write_bytes(b"time,T1\n0,20\n60,25\n")
    with Growing([], str(log)) as growing:
        assert growing.changed()
        log.write_bytes(b"exported 14:05\ntime,T1\n0,20\n60,25\n120,30\n")
        assert growing.changed() and len(growing.parts) == 1


def test_a_watch_started_again_shows_the_same(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    half = len(rows) // 2
    (tmp_path / "first.csv").write_text("".join(rows[:half]))
    (tmp_path / "log.csv").write_text("".join([*rows[:8], *rows[half:]]))
    with Growing([str(tmp_path / "first.csv")], str(tmp_path / "log.csv")) as growing:
        growing.changed()
        joined = look(read(growing.parts, header.run.tags, Options()), header, ())
    whole = seen(header, rows, tmp_path)
    assert joined.rows == whole.rows and joined.counted == pytest.approx(whole.counted)


def test_no_file_is_told(tmp_path: Path) -> None:
    with Growing([], str(tmp_path / "none.csv")) as growing, pytest.raises(RecordError):
        growing.changed()


# What is shown ----------------------------------------------------------------------------------


def at_minute(rows: list[str], minute: int) -> list[str]:
    return rows[: 8 + minute + 1]


def test_the_phases_of_a_run_are_told_in_their_order(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    told = []
    for minute in [*range(10, len(rows) - 8, 30), len(rows) - 9]:
        phase = seen(header, at_minute(rows, minute), tmp_path).phase
        if not told or told[-1] != phase:
            told.append(phase)
    assert told == [
        "before the start of control",
        "heating to step 3",
        "hold, step 3: the clock runs",
        "held long enough",
        "cooling",
        "below the end of control",
    ]


def test_figures_agree_with_the_rows_of_the_log(header: Plan, tmp_path: Path) -> None:
    """Against arithmetic on the text of the log: reading, rate over 15 min, distance to 720."""
    rows = at_minute(lines(header), 150)
    view = seen(header, rows, tmp_path)
    last, before = rows[-1].split(","), rows[-1 - 15].split(",")
    for index, tag in enumerate(cell.split(" ")[0] for cell in rows[7].split(",")[1:]):
        row = next(row for row in view.rows if row.tag == tag)
        now, then = float(last[index + 1]), float(before[index + 1])
        assert row.reading == pytest.approx(now)
        assert row.rate == pytest.approx((now - then) * 4, abs=1e-6)
        if row.below_top is not None:
            assert row.below_top == pytest.approx(720 - now)


def test_the_hold_clock_runs_down(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    left = [seen(header, at_minute(rows, minute), tmp_path).left for minute in (300, 330, 360)]
    assert None not in left
    assert np.diff(np.array(left)) == pytest.approx([-1800, -1800], abs=1)


def test_a_rate_beyond_its_limit_is_an_alarm_in_words(header: Plan, tmp_path: Path) -> None:
    view = seen(header, at_minute(lines(header, "over-rate"), 120), tmp_path)
    alarm = next(one for one in view.alarms if one.startswith("T3 "))
    assert alarm.startswith("T3 rises 1") and alarm.endswith("limit 120 degC/h above 300 degC")
    assert seen(header, at_minute(lines(header), 120), tmp_path).alarms == ()


def test_a_hold_left_is_an_alarm_and_the_clock_stands(header: Plan, tmp_path: Path) -> None:
    rows = lines(header, "too-cold")
    views = [seen(header, at_minute(rows, minute), tmp_path) for minute in range(300, 420, 10)]
    out = [view for view in views if "interrupted" in view.phase]
    assert out and all(not view.counting for view in out)
    assert any("below the range of the hold" in alarm for alarm in out[0].alarms)


def test_power_that_is_away_is_an_alarm(header: Plan, tmp_path: Path) -> None:
    rows = lines(header, "power-loss")
    lost = next(index for index, row in enumerate(rows) if "power lost" in row)
    view = seen(header, rows[: lost + 10], tmp_path)
    assert any(alarm.startswith("no power since") for alarm in view.alarms)


def test_a_clean_run_raises_no_alarm_at_any_time(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    for minute in range(5, len(rows) - 8, 45):
        assert seen(header, at_minute(rows, minute), tmp_path).alarms == (), minute


def test_it_can_be_printed_and_read_by_programs(header: Plan, tmp_path: Path) -> None:
    view = seen(header, at_minute(lines(header, "over-rate"), 120), tmp_path)
    text = screen.text(view, header.job.units)
    assert "SIMULATED" in text and all(row.tag in text for row in view.rows)
    assert "ALARM  T1 rises" in text
    document = json.loads(screen.line(view))
    assert document["rows"][0]["tag"] == "T1" and document["alarms"] == list(view.alarms)


def test_a_thermocouple_that_is_lost_does_not_stop_the_phases(header: Plan, tmp_path: Path) -> None:
    """What goes on is told by those that read now, not by when all last did."""
    rows = lines(header)
    index = rows[7].rstrip("\n").split(",").index("T3 [degC]")
    lost = rows[:60]
    for row in rows[60:]:
        cells = row.rstrip("\n").split(",")
        cells[index] = ""
        lost.append(",".join(cells) + "\n")
    assert seen(header, at_minute(lost, 40), tmp_path).phase == "before the start of control"
    assert seen(header, at_minute(lost, 200), tmp_path).phase == "heating to step 3"
    ended = seen(header, lost, tmp_path)
    assert ended.phase == "below the end of control" and "was not shown" in ended.next


def changed(rows: list[str], tag: str, change: Callable[[int, float], str]) -> list[str]:
    index = [cell.split(" ")[0] for cell in rows[7].split(",")].index(tag)
    made = rows[:8]
    for number, row in enumerate(rows[8:]):
        cells = row.rstrip("\n").split(",")
        cells[index] = change(number, float(cells[index]))
        made.append(",".join(cells) + "\n")
    return made


def searched(of: Plan, rows: list[str], folder: Path) -> View:
    """As the command shows it: searched for faults first."""
    path = folder / "log.csv"
    path.write_text("".join(rows))
    record = read([str(path)], of.run.tags, Options())
    found = find(record, of)
    return look(apply(record, found), of, found)


def test_why_the_clock_stands_and_when_the_hold_ends(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    counting = searched(header, at_minute(rows, 320), tmp_path)
    assert counting.counting and counting.stands == "" and counting.left is not None
    assert counting.ends > counting.clock
    assert counting.step.startswith("hold in 690 .. 720 degC")
    lost = changed(rows, "T3", lambda number, value: "" if number > 300 else f"{value}")
    view = searched(header, at_minute(lost, 320), tmp_path)
    assert not view.counting and view.stands.startswith("T3 has no reading") and view.ends == ""
    # The others are judged all the same.
    t4 = next(row for row in view.rows if row.tag == "T4")
    assert t4.reading is not None and t4.rate is not None and t4.below_top is not None
    assert (t4.zone, t4.place) == ("left", "weld 9:00")
    assert any("T3" in alarm and "to do:" in alarm for alarm in view.alarms)


def test_with_one_lost_the_hold_goes_on_before_the_eyes(header: Plan, tmp_path: Path) -> None:
    """A control opens while heating and nobody notes that its spare took over: the clock stands
    and says why, and all else is told as it is."""
    rows = lines(header, "heater-loss")
    rows = changed(rows, "T2", lambda number, value: "" if number > 200 else f"{value}")
    view = searched(header, at_minute(rows, 320), tmp_path)
    assert view.phase == "hold, step 3: in range, but the clock stands"
    assert view.step.startswith("hold in 690")
    assert not view.counting and view.counted == 0
    assert view.stands == "T2 has no reading (go over to T2S and note it as an event)"
    # Now zone top loses its heat, too.
    t1 = [float(row.split(",")[1]) for row in rows[8:]]
    fallen = next(number for number in range(331, len(t1)) if t1[number] < 672)
    view = searched(header, at_minute(rows, fallen), tmp_path)
    assert view.phase == "hold, step 3: interrupted"
    assert any("below the range of the hold" in one and "T1" in one for one in view.alarms)
    assert any(one.startswith("zone top:") and "to do:" in one for one in view.alarms)
    notes = {row.tag: row.note for row in view.rows}
    assert notes["T1"] == "heater lost" and notes["T3"] == "" and notes["T2"]
    assert any("the clock stands at 0 s" in one for one in view.alarms)
    ended = searched(header, rows, tmp_path)
    assert ended.stands == "" and not any("below the range" in one for one in ended.alarms)
    assert (ended.phase, ended.next) == (
        "below the end of control",
        "the hold of step 3 was not shown",
    )


def test_words_are_broken_at_the_width_of_the_terminal(header: Plan, tmp_path: Path) -> None:
    rows = lines(header, "over-rate")
    rows = changed(rows, "T2", lambda number, value: "" if number > 90 else f"{value}")
    view = searched(header, at_minute(rows, 120), tmp_path)
    text = screen.text(view, header.job.units, width=60)
    after = text[text.index("ALARM") :].splitlines()
    assert max(map(len, after)) <= 60 and any(one.startswith("       ") for one in after)
    assert " ".join(" ".join(after).split()) == " ".join(
        " ".join(f"ALARM {one}" for one in view.alarms).split()
    )


def test_a_log_that_has_only_its_head_has_no_rows_yet(header: Plan, tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("".join(lines(header)[:8]))
    with pytest.raises(NoRows):
        read([str(path)], header.run.tags, Options())


def test_the_alarms_of_the_sheet(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    hot = changed(rows, "T2", lambda number, value: f"{719.2 if number > 310 else value}")
    view = searched(header, at_minute(hot, 318), tmp_path)
    assert any("T2" in one and "above the alarm of 718 degC" in one for one in view.alarms)
    off = changed(rows, "T2", lambda number, value: f"{value - (13 if number > 310 else 0)}")
    view = seen(header, at_minute(off, 318), tmp_path)
    assert any("T2 is" in one and "below its setpoint" in one for one in view.alarms) or any(
        one.startswith("T2 69") and "below the alarm of 692 degC" in one for one in view.alarms
    )


def test_a_spare_that_disagrees_and_a_recorder_that_hangs(header: Plan, tmp_path: Path) -> None:
    rows = lines(header)
    apart = changed(rows, "T2S", lambda number, value: f"{value + 30}")
    view = searched(header, at_minute(apart, 200), tmp_path)
    assert any(one.startswith("T2 and T2S") and "to do:" in one for one in view.alarms)
    head, hung = rows[:200], rows[200].split(",", 1)[1]
    stamps = [row.split(",", 1)[0] for row in rows[200:230]]
    view = searched(header, [*head, *(f"{stamp},{hung}" for stamp in stamps)], tmp_path)
    assert any("the recorder or its link hung" in one for one in view.alarms)


def test_an_alarm_that_goes_on_is_told_once() -> None:
    said = (
        "T1, T3 below the range of the hold (690 .. 720 degC), the farthest at {} degC: the clock "
    )
    said += "stands at {}"
    known = (said.format("672.0", "14 min 31 s"),)
    assert list(screen.new((said.format("601.5", "15 min 2 s"),), known)) == []
    other = said.format("601.5", "15 min 2 s").replace("T3", "T4")
    assert list(screen.new((*known, other), known)) == [other]


def test_all_that_are_too_cold_are_one_alarm(header: Plan, tmp_path: Path) -> None:
    rows = lines(header, "short-hold")
    view = seen(header, at_minute(rows, len(rows) - 200), tmp_path)
    cold = [one for one in view.alarms if "below the range of the hold" in one]
    assert len(cold) <= 1
