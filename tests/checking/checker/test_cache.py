"""Outcomes kept between runs: the same bytes as without, and nothing stale, whatever changes."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from hts.checking.checker import cache as caching
from hts.checking.checker import sealed_file
from hts.checking.checker.check_paths import cache_folder, check_paths
from hts.checking.checker.setting import Setting
from hts.checking.rules.examples import BUTT, PREHEAT
from hts.language.model.defaults import DefaultBook, Defaults
from tests.checking.checker.kept_runs import COUNT, everything, run

pytestmark = pytest.mark.usefixtures("same_program")


def test_cold_and_warm_runs_report_the_same_bytes(paths: list[str], kept: str) -> None:
    without = everything(check_paths(paths, jobs=1))
    for jobs in (1, 1, 2, None):
        assert everything(check_paths(paths, jobs=jobs, cache=kept)) == without


def test_processes_keep_what_one_process_does(paths: list[str], tmp_path: Path) -> None:
    for jobs in (1, 2):
        check_paths(paths, jobs=jobs, cache=str(tmp_path / f"by{jobs}"))
    one, two = (next((tmp_path / f"by{jobs}").iterdir()).read_bytes() for jobs in (1, 2))
    assert one == two


def test_a_warm_run_checks_nothing(repository: Path, kept: str, checked: list[str]) -> None:
    before = everything(run(repository, kept))
    assert len(checked) == COUNT + 1
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert checked == []


def test_a_warm_run_reads_no_rules(repository: Path, kept: str) -> None:
    run(repository, kept)
    program = (
        "import sys\n"
        "from hts.checking.checker import cache\n"
        "from hts.checking.checker.check_paths import check_paths\n"
        "cache.program = lambda: 'this one'\n"
        f"print(len(check_paths([{str(repository)!r}], cache={kept!r}).findings))\n"
        "heavy = ('hts.checking.rules', 'hts.syntax', 'hts.limits')\n"
        "print([n for n in sys.modules if n.startswith(heavy)])"
    )
    said = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    count, modules = said.stdout.splitlines()
    assert int(count) >= COUNT and modules == "[]"


def test_only_what_changed_is_checked_again(
    repository: Path, kept: str, checked: list[str]
) -> None:
    run(repository, kept)
    checked.clear()
    path = repository / "s07.hts"
    path.write_text(path.read_text().replace("60 degF", "600 degF"))
    # A run of fewer files keeps what is known of the others.
    some = [str(file) for file in repository.glob("*.hts") if file.name != "s01.hts"]
    check_paths(some, jobs=1, cache=kept)
    after = run(repository, kept)
    assert checked == ["s07.hts"]
    assert everything(after) == everything(run(repository, None))


def test_a_changed_library_counts_for_all_that_use_it(
    repository: Path, kept: str, checked: list[str]
) -> None:
    run(repository, kept)
    checked.clear()
    library = repository / "library.hts"
    library.write_text(library.read_text().replace("A106-B", "A335 P22"))
    after = run(repository, kept)
    assert len(checked) == COUNT + 1
    assert everything(after) == everything(run(repository, None))


def test_a_used_file_that_goes_and_comes(repository: Path, kept: str) -> None:
    library = repository / "library.hts"
    text = library.read_text()
    for step in (lambda: None, library.unlink, lambda: library.write_text(text)):
        step()
        for _ in range(2):
            assert everything(run(repository, kept)) == everything(run(repository, None))


def test_results_rest_on_the_text_beside_them(tmp_path: Path, kept: str) -> None:
    results, text = tmp_path / "a.results.hts", tmp_path / "a.hts"
    results.write_text('spec 1\nresults W1 {\n  examined "MT" accepted\n}\n')
    for joints, findings in ((None, 0), ("W1", 0), ("W2", 1), (None, 0), ("W2", 1)):
        text.unlink(missing_ok=True)
        if joints is not None:
            text.write_text(f"spec 1\njoint {joints} {{\n  kind girth butt\n}}\n")
        for _ in range(2):
            found = check_paths([str(results)], jobs=1, cache=kept)
            assert len(found.findings) == findings


@pytest.mark.skipif(os.name == "nt", reason="links need a right of their own there")
def test_a_link_that_leads_elsewhere(repository: Path, kept: str) -> None:
    library, other = repository / "library.hts", repository / "other.hts"
    shutil.move(library, other)
    library.symlink_to(other)
    outside = repository.parent / "outside.hts"
    shutil.copy(other, outside)
    within = everything(run(repository, kept))
    assert everything(run(repository, kept)) == within
    library.unlink()
    library.symlink_to(outside)
    assert "leads outside the repository" in everything(run(repository, kept))["text"]


def test_the_day_counts_only_between_the_dates_it_is_compared_with(
    tmp_path: Path, kept: str, checked: list[str]
) -> None:
    root = tmp_path / "dated"
    root.mkdir()
    (root / "hts.toml").write_text("")
    for number in range(COUNT):
        # The calibrations of BUTT end on 2027-03-01.
        (root / f"s{number:02}.hts").write_text(BUTT if number else PREHEAT)
    for day, texts in (
        (None, COUNT),
        ("2026-12-01", 0),
        ("2027-03-01", 0),
        ("2027-03-02", COUNT - 1),
        ("2028-01-01", 0),
        (None, COUNT - 1),
    ):
        checked.clear()
        assert everything(run(root, kept, today=day)) == everything(run(root, None, today=day)), day
        assert len(checked) == texts + COUNT, day


def test_another_configuration_is_another_matter(
    repository: Path, kept: str, checked: list[str]
) -> None:
    run(repository, kept)
    checked.clear()
    changed = Setting(ignored=frozenset({"P102"}), digest="1")
    run(repository, kept, settings=lambda path: changed)
    assert len(checked) == COUNT + 1


def test_rules_of_others_are_asked_every_time(
    repository: Path, kept: str, monkeypatch: pytest.MonkeyPatch, checked: list[str]
) -> None:
    monkeypatch.setattr("hts.checking.checker.packs._load", lambda pack: ())
    setting = Setting(rule_packs=("theirs",), digest="1")
    for _ in range(2):
        checked.clear()
        run(repository, kept, settings=lambda path: setting)
        assert len(checked) == COUNT + 1
    assert not os.path.exists(kept)


@pytest.mark.parametrize(
    "damage",
    [
        b"",
        b"{}",
        b'{"format": 3}\n{}\n',
        b"\xff\xfe",
        b'{"format": 3, "seal": "0"}\n{"names": {}, "uses": [], "kinds": {}}\n',
        "a byte",
        "cut",
        "another format",
    ],
)
def test_what_is_damaged_counts_as_empty(
    repository: Path, kept: str, damage: bytes | str, checked: list[str]
) -> None:
    before = everything(run(repository, kept))
    (file,) = Path(kept).iterdir()
    data = bytearray(file.read_bytes())
    if damage == "a byte":
        data[len(data) // 2] ^= 1
    elif damage == "cut":
        del data[len(data) // 2 :]
    elif damage == "another format":
        data = bytearray(bytes(data).replace(b'"format": 3', b'"format": 999', 1))
    else:
        data = bytearray(damage)  # type: ignore[arg-type]
    file.write_bytes(data)
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert len(checked) == COUNT + 1
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert checked == []


def test_another_program_keeps_another_file(
    repository: Path, kept: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    run(repository, kept)
    monkeypatch.setattr(caching, "program", lambda: "another")
    run(repository, kept)
    assert len(os.listdir(kept)) == 2


def test_a_folder_that_cannot_be_made_bothers_nobody(repository: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    kept = str(tmp_path / "file" / "hts")
    assert everything(run(repository, kept)) == everything(run(repository, None))


def test_one_file_is_kept_like_many(tmp_path: Path, kept: str) -> None:
    (tmp_path / "s.hts").write_text(PREHEAT)
    first = check_paths([str(tmp_path / "s.hts")], cache=kept)
    assert len(os.listdir(kept)) == 1
    again = check_paths([str(tmp_path / "s.hts")], cache=kept)
    assert everything(again) == everything(first)


def test_it_does_not_grow_without_end(
    repository: Path, kept: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(caching, "MOST_NAMES", COUNT)
    monkeypatch.setattr(sealed_file, "MOST_FILES", 3)
    run(repository, kept)
    for number in range(COUNT):
        os.rename(repository / f"s{number:02}.hts", repository / f"t{number:02}.hts")
    run(repository, kept)
    (file,) = Path(kept).iterdir()
    names = json.loads(file.read_text().splitlines()[1])["names"]
    assert sorted(names) == ["library.hts", *(f"t{number:02}.hts" for number in range(COUNT))]
    for number in range(5):
        setting = Setting(digest=str(number))
        run(repository, kept, settings=lambda path, setting=setting: setting)
    assert len(os.listdir(kept)) == 3


def test_another_working_folder(
    repository: Path, kept: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = everything(run(repository, kept))
    monkeypatch.chdir(repository)
    assert everything(check_paths(["."], cache=kept)) == before
    (repository / "below").mkdir()
    monkeypatch.chdir(repository / "below")
    assert everything(check_paths([".."], cache=kept)) == before


@pytest.mark.skipif(sys.platform != "linux", reason="needs file names of any bytes")
def test_names_that_are_no_text(repository: Path, kept: str, checked: list[str]) -> None:
    os.rename(repository / "s00.hts", os.path.join(os.fsencode(repository), b"s\xff.hts"))
    before = everything(run(repository, kept))
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert checked == []


def test_where_a_default_stands_may_be_told(repository: Path, kept: str) -> None:
    text = (repository / "s00.hts").read_text()
    lines = [line for line in text.splitlines() if "governed by" not in line]
    (repository / "s00.hts").write_text("\n".join(lines))
    for origin in ("hts.toml:1:1", "hts.toml:2:1"):
        books = (DefaultBook("asme-b31.3", "2018", origin),)
        setting = Setting(Defaults(books), digest="1")
        for _ in range(2):
            settings = {"settings": lambda path, setting=setting: setting}
            assert everything(run(repository, kept, **settings)) == everything(
                run(repository, None, **settings)
            )


def test_where_it_is(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # XDG Base Directory Specification 0.8: a path that is not absolute is to be ignored.
    monkeypatch.delenv("HTS_CACHE_DIR", raising=False)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert cache_folder() == str(tmp_path / "hts")
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert cache_folder() == str(tmp_path / ".cache" / "hts")
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "own"))
    assert cache_folder() == str(tmp_path / "own")


def test_no_rule_looks_at_the_day_itself() -> None:
    """`Case.past` notes the dates an outcome rests on; the bare day would make it stale unseen."""
    folder = Path(caching.__file__).parents[1]
    lookers = [
        str(path.relative_to(folder))
        for path in folder.rglob("*.py")
        if re.search(r"\bcase\.today\b", path.read_text("utf-8"))
    ]
    assert lookers == []
