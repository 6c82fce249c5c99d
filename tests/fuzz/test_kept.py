"""What `python -m tests.fuzz` has found, made small: each input once broke the program."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import NamedTuple

import pytest

from hts.checking.fixes.fixes import MOST_READ
from hts.checking.rules.examples import BUTT
from hts.language.model.resolve import MOST_LIKE
from hts.record.reading import yaml_text
from hts.record.reading.events import MOST
from hts.record.reading.sniff import MOST_COLUMNS
from hts.syntax.syntax_errors import MOST_ITEMS
from tests.fuzz.run import alarm, run

SETTINGS = "[severity]\nB101 = {}\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path.parent / "cache"))
    (tmp_path / "a.hts").write_text(BUTT)
    return tmp_path


class Done(NamedTuple):
    """How a command ended, and all it said."""

    exit_code: int
    output: str


def hts(*arguments: str) -> Done:
    code, out, err = run(arguments)[:3]
    assert "a fault of hts" not in out + err
    return Done(code, out + err)


def log(folder: Path, *stamps: str) -> None:
    rows = "".join(f"{stamp},20,20\n" for stamp in stamps)
    (folder / "log.csv").write_text(f"time,T1 [degC],T2 [degC]\n{rows}")


@pytest.mark.parametrize("content", ["220 %", "100.1 %"])
@pytest.mark.parametrize("command", ["check", "why", "fingerprint", "plan"])
def test_more_of_an_element_than_there_is(folder: Path, content: str, command: str) -> None:
    (folder / "a.hts").write_text(BUTT.replace("Cr 2.20 %", f"Cr {content}"))
    done = hts(command, "a.hts")
    if command == "check":
        assert done.exit_code == 1 and "is more than the whole" in done.output


def test_a_number_of_channels_that_cannot_be_read(folder: Path) -> None:
    text = re.sub(r"channels +\d+.*", "channels six", BUTT)
    text = re.sub(r" +(control )?channel \d+", "", text)
    (folder / "a.hts").write_text(text)
    assert hts("check", "a.hts").exit_code == 1


def test_a_pipe_without_a_bore_whose_zones_have_little_power(folder: Path) -> None:
    text = BUTT.replace("25.4 mm measured", "170 mm measured")
    text = text.replace("heated band    by rule", "heated band 400 mm total")
    (folder / "a.hts").write_text(re.sub(r"power +\S+ kW", "power 0.1 kW", text))
    assert "W12" in hts("check", "a.hts").output


@pytest.mark.parametrize("head", ["\ufeffWeld", "We\u200bld", "Weld\x1b[2J"])
def test_a_head_with_a_character_that_cannot_be_seen(folder: Path, head: str) -> None:
    (folder / "list.csv").write_text(f"\ufeff{head},Typical\nW1,a\n", "utf-8")
    done = hts("new", "--weld-list", "list.csv")
    assert done.exit_code == 2 and "U+" in done.output and done.output.isascii()


@pytest.mark.parametrize("size", ["1e999999999", "DN1e999999999", "1/0", "1.5.2", "9" * 400])
def test_a_pipe_size_that_is_none(folder: Path, size: str) -> None:
    (folder / "a.hts").write_text(BUTT.replace("NPS 12 ", f"NPS {size} "))
    with alarm():
        assert hts("check", "a.hts").exit_code == 1


def test_a_severity_that_is_no_word(folder: Path) -> None:
    (folder / "hts.toml").write_text(SETTINGS)
    done = hts("check", "a.hts")
    assert done.exit_code == 2 and "a severity cannot be {}" in done.output


@pytest.mark.parametrize("place", ["line", "column", "end_column"])
@pytest.mark.parametrize("value", [1.5, 0, -3, 10**9, "1", None])
def test_a_merged_report_with_a_place_that_is_none(folder: Path, place: str, value: object) -> None:
    (folder / "a.hts").write_text("spec 1\nfoo\n")
    hts("check", "a.hts", "--shard", "1/1", "--report", "json=part.json")
    report = json.loads((folder / "part.json").read_text())
    report["findings"][0]["at"][place] = value
    (folder / "part.json").write_text(json.dumps(report))
    done = hts("check", "--merge-reports", "part.json")
    assert done.exit_code == 2 and "is not a JSON report" in done.output


@pytest.mark.parametrize("value", ["Infinity", "-Infinity", "NaN", "1e999", "-1", "{}"])
def test_files_of_hts_with_a_number_that_is_none(folder: Path, value: str) -> None:
    """Seed 52711, trial 3800. Each number of each file that one run writes and another reads."""
    (folder / "a.hts").write_text("spec 1\nfoo\n")
    hts("check", "a.hts", "--shard", "1/1", "--report", "json=part.json")
    hts("check", "a.hts", "--baseline", "known.json", "--new-baseline")
    for name, arguments in (
        ("part.json", ("check", "--merge-reports", "part.json")),
        ("known.json", ("check", "a.hts", "--baseline", "known.json")),
    ):
        text = (folder / name).read_text()
        numbers = list(re.finditer(r"(?<=: )\d+(?=[,\n}])", text))
        assert numbers, name
        for found in numbers:
            (folder / name).write_text(text[: found.start()] + value + text[found.end() :])
            assert hts(*arguments).exit_code in (0, 1, 2)
        (folder / name).write_text(text)


@pytest.mark.parametrize("zone", [(), ("--zone", "Europe/Oslo")])
@pytest.mark.parametrize("stamp", ["0001-01-01 00:00:00", "9999-12-31 23:59:59",
                                   "2500-01-01 00:00:00"])  # fmt: skip
def test_a_date_no_recorder_shows(folder: Path, stamp: str, zone: tuple[str, ...]) -> None:
    log(folder, "2026-10-02 06:00:00", stamp, "2026-10-02 06:02:00")
    done = hts("record", "check", "a.hts", "log.csv", *zone)
    assert done.exit_code == 2 and "log.csv:3:1: this is no time from 1970 to 2170" in done.output


@pytest.mark.parametrize("at", ["2.026e+06-10-02 08:03", "9999-12-31", "99999:99", "nan"])
def test_an_event_at_no_time(folder: Path, at: str) -> None:
    log(folder, *(f"2026-10-02 06:0{minute}:00" for minute in range(9)))
    (folder / "log.events.yaml").write_text(f"- {{at: {at}, kind: power lost}}\n")
    done = hts("record", "check", "a.hts", "log.csv", "--zone", "Europe/Oslo")
    assert done.exit_code == 2 and "is not a time of this record" in done.output


def test_a_text_of_nothing_but_findings_is_mended_soon(folder: Path) -> None:
    """Each fix is tried on the whole text, so that only those asked for are."""
    spoiled = BUTT.encode("utf-16-le").decode("utf-8")
    (folder / "a.hts").write_text(spoiled)
    with alarm():
        assert hts("check", "--fix", "a.hts").exit_code == 1


@pytest.mark.parametrize("form", ["json", "sarif"])
def test_a_report_of_a_text_damaged_all_over(folder: Path, form: str) -> None:
    """Seed 20261, trials 643 and 935: the whole text was read anew for each of a thousand fixes."""
    slips = "".join(f"  expantion  free  # {n}\n" for n in range(900))
    (folder / "a.hts").write_text(BUTT.replace("  expansion  free\n", slips))
    assert len(BUTT) + len(slips) < MOST_READ < 900 * len(slips)
    with alarm(10):
        done = hts("check", "a.hts", "--format", form)
    assert done.exit_code == 1 and done.output.count("'expantion' is not an entry") == 900
    assert 0 < done.output.count('"write `expansion`"') < 100


# What has a limit, and is told when it is past it.


@pytest.mark.parametrize("backwards", [False, True])
def test_joints_each_like_the_next(folder: Path, backwards: bool) -> None:
    joints = ["joint J0 like W12 {\n}\n"]
    joints += [f"joint J{n} like J{n - 1} {{\n}}\n" for n in range(1, 2_000)]
    (folder / "a.hts").write_text(BUTT + "".join(joints[::-1] if backwards else joints))
    done = hts("check", "a.hts", "--quiet")
    assert done.exit_code == 1
    assert f"joint J{MOST_LIKE} is like a joint that is like another" in done.output
    assert f"joint J{MOST_LIKE - 1} is like" not in done.output


def test_an_entry_of_too_many_words(folder: Path) -> None:
    for more, code in ((0, "W"), (1, "S114")):
        text = f"spec 1\nfoo{' 1' * (MOST_ITEMS - 1 + more)}\n"
        (folder / "a.hts").write_text(text)
        done = hts("check", "a.hts")
        assert done.exit_code == 1 and f"({code}" in done.output
    assert hts("fmt", "a.hts").exit_code == 1
    assert (folder / "a.hts").read_text() == text


def test_a_log_of_too_many_columns(folder: Path) -> None:
    heads = ",".join(f"X{n} [degC]" for n in range(MOST_COLUMNS))
    row = ",".join(["20"] * MOST_COLUMNS)
    (folder / "log.csv").write_text(f"time,{heads}\n" + f"2026-10-02 06:00:00,{row}\n" * 5)
    done = hts("record", "check", "a.hts", "log.csv")
    assert done.exit_code == 2 and "log.csv:1: it has 1,001 columns" in done.output


def test_too_many_events(folder: Path) -> None:
    log(folder, *(f"2026-10-02 06:0{minute}:00" for minute in range(9)))
    line = "- {at: 2026-10-02 06:01, kind: note, text: wind}\n"
    (folder / "log.events.yaml").write_text(line * (MOST + 1))
    done = hts("record", "check", "a.hts", "log.csv")
    assert done.exit_code == 2 and f"log.events.yaml:{MOST + 1}:3: more than" in done.output


@pytest.mark.parametrize(
    ("line", "code"),
    [
        (f"  wall  {'9' * 41} mm", "Q1"),
        (f"  hold time at least {'1 h + ' * 90} 1 h", "Q108"),
        ("{\n" * 13 + "}\n" * 13, "S1"),
    ],
)
def test_other_limits_of_size(folder: Path, line: str, code: str) -> None:
    block = "procedure P-1" if "hold" in line else "joint W1"
    (folder / "a.hts").write_text(f'spec 1\n{block} "x" {{\n{line}\n}}\n')
    done = hts("check", "a.hts")
    assert done.exit_code == 1 and f"({code}" in done.output


def test_too_long_a_file_beside_a_log(folder: Path) -> None:
    log(folder, *(f"2026-10-02 06:0{minute}:00" for minute in range(9)))
    (folder / "log.yaml").write_text("#" * (yaml_text.LARGEST + 1))
    done = hts("record", "check", "a.hts", "log.csv")
    assert done.exit_code == 2 and "log.yaml" in done.output


@pytest.mark.parametrize("opens", ["[", "{a: ", "- "])
def test_brackets_without_end_beside_a_log(folder: Path, opens: str) -> None:
    log(folder, *(f"2026-10-02 06:0{minute}:00" for minute in range(9)))
    (folder / "log.yaml").write_text(opens * 200_000)
    assert hts("record", "check", "a.hts", "log.csv").exit_code == 2


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ('support    "rod hanger" 1.2 m', 'support    "rod hanger"01.2 m'),
        ("made in    field", "made in    field  # 01 mm"),
        ("interval    60 s", "interval    1.2e+06 s"),
        ("rate margin         10 %", "rate margin         010%"),
        ("range 0 .. 1200 degC", "range 0 ..01200degC"),
        ("error              +/- 1.0 degC", "error              +/-01.0 degC"),
    ],
)
def test_blanks_change_no_finding(folder: Path, before: str, after: str) -> None:
    """A nought before a figure is one whatever stands beside it."""
    assert before in BUTT
    (folder / "a.hts").write_text(BUTT.replace(before, after))
    found = _rules(hts("check", "a.hts", "--format", "json"))
    assert hts("fmt", "a.hts").exit_code in (0, 1)
    assert _rules(hts("check", "a.hts", "--format", "json")) == found
    assert ("leading-zero" in found) == ("#" not in after)


def _rules(done: Done) -> list[str]:
    return sorted(found["name"] for found in json.loads(done.output)["findings"])
