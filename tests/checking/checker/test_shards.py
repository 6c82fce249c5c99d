"""A check dealt out to several machines and joined again is the check in one piece."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from hts.checking.checker.check_paths import check_paths
from hts.checking.checker.results import Shard, UncheckedFile
from hts.checking.checker.setting import Setting
from hts.checking.checker.shards import CannotJoin, files_of_shard, joined
from hts.checking.checker.tasks import Task
from hts.checking.report import json_report
from hts.checking.report.formats import FORMATS, written
from hts.cli.main import cli


def reports(paths: list[str], of: int, **more: Any) -> dict[str, bytes]:
    """The JSON reports of all shards, by a name."""
    made = {}
    for number in range(1, of + 1):
        results = check_paths(paths, shard=Shard(number, of), **more)
        made[f"{number}.json"] = json_report.write(results).encode()
    return made


def changed(report: bytes, **keys: Any) -> bytes:
    document = json.loads(report)
    for path, value in keys.items():
        *way, last = path.split("__")
        inner = document
        for step in way:
            inner = inner[step]
        inner[last] = value
    return json.dumps(document).encode()


@pytest.mark.parametrize("of", [1, 2, 3, 7, 200])
def test_the_shards_joined_are_the_whole(paths: list[str], of: int) -> None:
    whole = check_paths(paths, jobs=1)
    again = joined(reports(paths, of, jobs=1))
    assert again.checked == whole.checked
    assert again.failures == whole.failures
    assert again.exit_code == whole.exit_code
    for form in FORMATS:
        assert written(form, again) == written(form, whole), form


def test_the_order_of_the_reports_does_not_matter(paths: list[str]) -> None:
    made = reports(paths, 3)
    backwards = dict(reversed(made.items()))
    assert json_report.write(joined(backwards)) == json_report.write(joined(made))


names = st.lists(st.text("abc/._-0123456789", min_size=1), unique=True, max_size=60)


@given(names, st.integers(1, 9))
def test_each_file_is_in_one_shard_and_the_shards_are_even(names: list[str], of: int) -> None:
    tasks: list[Task | UncheckedFile] = [Task("/", name, name) for name in names]
    shares = [files_of_shard(tasks, Shard(number, of)) for number in range(1, of + 1)]
    assert sorted(t.name for share in shares for t in share) == sorted(names)
    sizes = [len(share) for share in shares]
    assert max(sizes) - min(sizes) <= 1
    for share in shares:
        places = [tasks.index(task) for task in share]
        assert places == sorted(places)


@given(names.filter(len), st.integers(1, 9), st.randoms())
def test_what_is_in_the_files_and_their_order_does_not_matter(names, of, random) -> None:
    tasks: list[Task | UncheckedFile] = [Task("/", name, name) for name in names]
    other: list[Task | UncheckedFile] = [Task("/elsewhere", name, name, b"text") for name in names]
    random.shuffle(other)
    shard = Shard(1, of)
    assert {t.name for t in files_of_shard(tasks, shard)} == {
        t.name for t in files_of_shard(other, shard)
    }


def test_neighbours_do_not_all_go_to_one_shard() -> None:
    """Every job with a large and a small file: dealt by name alone, one of two shards had all the
    large ones."""
    tasks: list[Task | UncheckedFile] = [
        Task("/", f"job{number:03}/{name}", None)
        for number in range(200)
        for name in ("large.hts", "small.hts")
    ]
    large = sum("large" in task.name for task in files_of_shard(tasks, Shard(1, 2)))
    assert 70 < large < 130


def test_what_does_not_belong_together(paths: list[str], folder: str) -> None:
    made = reports(paths, 3)
    one, two, three = made.values()
    other = reports([folder], 3)["2.json"]
    later = reports(paths, 3, today="2030-01-01")["2.json"]
    configured = reports(paths, 3, settings=lambda path: Setting(digest="1"))["2.json"]
    plain = json_report.write(check_paths(paths)).encode()
    for given_, said in (
        ((one, three), "shard 2 of 3 is missing"),
        ((one,), "shard 2, 3 of 3 is missing"),
        ((one, two, two), "2.json and 3.json are both of shard 2"),
        ((one, other, three), "other files"),
        ((one, later, three), "another configuration or day"),
        ((one, configured, three), "another configuration or day"),
        ((one, reports(paths, 4)["2.json"], three), "not of the same check"),
        ((plain, two, three), "1.json is not the report of a shard"),
        ((one, changed(two, tool__version="9.9"), three), "was written by hts 9.9"),
        ((one, changed(two, checked=[]), three), "do not name every file"),
        ((one, b"", three), "2.json is not a JSON report"),
        ((one, b"[]", three), "2.json is not a JSON report"),
        ((one, b'"text"', three), "2.json is not a JSON report"),
        ((one, changed(two, shard__lines={"a.hts": {"99999999999": ""}}), three), "not a JSON"),
        ((one, changed(two, shard__files="text"), three), "not of the same check"),
    ):
        named = {f"{number}.json": report for number, report in enumerate(given_, 1)}
        with pytest.raises(CannotJoin, match=said):
            joined(named)


def test_findings_no_check_could_have_made(paths: list[str]) -> None:
    made = reports(paths, 1)["1.json"]
    for key, value in (
        ("code", "Z999"),
        ("code", 1),
        ("severity", "fatal"),
        ("message", None),
        ("at", {}),
        ("others", [1]),
        ("notes", [1]),
    ):
        document = json.loads(made)
        document["findings"][0][key] = value
        with pytest.raises(CannotJoin):
            joined({"1.json": json.dumps(document).encode()})
            pytest.fail(f"{key}: {value!r} is taken")


def test_on_the_command_line(paths: list[str], tmp_path: Path) -> None:
    def hts(*arguments: str) -> tuple[int, str]:
        run = CliRunner().invoke(cli, ["check", *arguments])
        return run.exit_code, run.output

    files = []
    for number in "12":
        code, report = hts("--shard", f"{number}/2", "--format", "json", *paths)
        assert code in (1, 2)
        files.append(str(tmp_path / f"{number}.json"))
        Path(files[-1]).write_text(report)
    assert hts("--merge-reports", *files) == hts(*paths)
    assert hts("--merge-reports", "--format", "json", *files) == hts("--format", "json", *paths)
    code, said = hts("--merge-reports", files[0])
    assert code and "shard 2 of 2 is missing" in said


@pytest.mark.parametrize("shard", ["0/2", "3/2", "1", "a/b", "1/0", "-1/2", "1/2/3", "¹/²", ""])
def test_no_shard(shard: str, paths: list[str]) -> None:
    run = CliRunner().invoke(cli, ["check", "--shard", shard, *paths])
    assert run.exit_code == 2
    assert "is not a shard; write 2/4" in run.output
