"""Outcomes kept between runs: the same bytes as without, and nothing stale, whatever changes."""

from __future__ import annotations

import json
import os
import re
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from hts.checking.checker import cache as caching
from hts.checking.checker import outcome, sealed_file
from hts.checking.checker import seal as sealing
from hts.checking.checker.check_paths import cache_folder, check_paths
from hts.checking.checker.results import Results
from hts.checking.checker.seal import seal
from hts.checking.checker.setting import Setting
from hts.checking.report.formats import FORMATS, written
from hts.checking.rules.examples import BUTT, PREHEAT
from hts.language.model.defaults import DefaultBook, Defaults

COUNT = 30


def everything(results: Results) -> dict[str, str | int]:
    """A run in every form it is compared by."""
    return {"exit code": results.exit_code, **{form: written(form, results) for form in FORMATS}}


@pytest.fixture(autouse=True)
def same_program(monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody who changes a file of the working copy meanwhile changes the program."""
    monkeypatch.setattr(caching, "program", lambda: "this one")


@pytest.fixture
def kept(tmp_path: Path) -> str:
    return str(tmp_path / "kept" / "hts")


@pytest.fixture
def checked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the texts that are really checked, as they are."""
    names: list[str] = []
    real = outcome.check_case

    def spy(case, *more):  # type: ignore[no-untyped-def]
        names.append(case.spec.source.name)
        return real(case, *more)

    monkeypatch.setattr(outcome, "check_case", spy)
    return names


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """Files enough for the cache, each with a finding that points into a library, too."""
    root = tmp_path / "repository"
    root.mkdir()
    (root / "hts.toml").write_text("")
    (root / "library.hts").write_text('spec 1\nmaterial shared {\n  grade "A106-B"\n}\n')
    for number in range(COUNT):
        text = PREHEAT.replace("D3", f"D{number}")
        text = text.replace("spec 1\n", 'spec 1\nuse "library.hts"\n')
        text = text.replace("pipe and pipe", "shared and pipe")
        (root / f"s{number:02}.hts").write_text(text.replace("600 degF", "60 degF"))
    return root


def run(root: Path, kept: str | None, **more: object) -> Results:
    return check_paths([str(root)], jobs=1, cache=kept, **more)  # type: ignore[arg-type]


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


@pytest.mark.skipif(os.name == "nt", reason="modes mean something else there")
def test_the_folder_is_the_users_alone(repository: Path, kept: str) -> None:
    run(repository, kept)
    assert stat.S_IMODE(os.stat(kept).st_mode) == 0o700
    (file,) = Path(kept).iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    json.loads(file.read_text().splitlines()[1])


@pytest.mark.skipif(os.name == "nt", reason="modes mean something else there")
@pytest.mark.parametrize("how", ["mode", "owner", "link", "pipe", "another's key"])
def test_what_somebody_else_may_have_written_is_not_read(
    repository: Path, kept: str, checked: list[str], how: str
) -> None:
    before = everything(run(repository, kept))
    (file,) = Path(kept).iterdir()
    if how == "mode":
        file.chmod(0o666)
    elif how == "owner":
        if os.getuid() != 0:
            pytest.skip("only root gives files away")
        os.chown(file, 12345, -1)
    elif how == "link":
        target = file.rename(file.with_name("elsewhere"))
        file.symlink_to(target)
    elif how == "pipe":
        file.unlink()
        os.mkfifo(file)
    else:
        run(repository, kept, settings=lambda path: Setting(digest="1"))
        (other,) = set(Path(kept).iterdir()) - {file}
        other.replace(file)
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert len(checked) == COUNT + 1


@pytest.mark.skipif(os.name == "nt", reason="modes mean something else there")
def test_a_folder_a_ci_service_opened_wide_still_serves(
    repository: Path, kept: str, checked: list[str]
) -> None:
    run(repository, kept)
    os.chmod(kept, 0o777)
    checked.clear()
    run(repository, kept)
    assert checked == []


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


@pytest.mark.parametrize("forged", ["no seal", "a digest for a seal", "another key"])
def test_what_another_wrote_counts_as_empty(
    repository: Path, kept: str, forged: str, checked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Outcomes without findings, brought along by whoever can write into a cache that is shared."""
    before = everything(run(repository, kept))
    (file,) = Path(kept).iterdir()
    head, text = file.read_bytes().split(b"\n", 1)
    said, body = json.loads(head), json.loads(text)
    for entry in body["names"].values():
        entry[4:] = [[], []]
    if forged == "another key":
        monkeypatch.setenv("HTS_CACHE_KEY", "a key of somebody else")
        proof = seal(sealed_file._sealed(said["key"], json.dumps(body).encode()))
        said["seal"] = proof
        monkeypatch.setenv("HTS_CACHE_KEY", "a key of the tests alone")
    elif forged == "no seal":
        del said["seal"]
    else:
        said["seal"] = caching.digest_of(json.dumps(body).encode())
    file.write_bytes(json.dumps(said).encode() + b"\n" + json.dumps(body).encode() + b"\n")
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert len(checked) == COUNT + 1


def test_the_key_is_the_users_own_and_lies_elsewhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("HTS_CACHE_KEY")
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    proof = seal(b"text")
    assert proof == seal(b"text") != seal(b"other text")
    key = tmp_path / "state" / "hts" / "cache.key"
    assert key.stat().st_mode & 0o077 == 0 and os.listdir(key.parent) == ["cache.key"]
    # One that others can read, a link, and one that came with the checkout.
    (tmp_path / ".git").mkdir()
    assert seal(b"text", str(tmp_path)) is None
    key.chmod(0o644)
    assert _fresh(b"text") is None
    key.unlink()
    (tmp_path / "elsewhere").write_bytes(b"k" * 32)
    key.symlink_to(tmp_path / "elsewhere")
    assert _fresh(b"text") is None
    monkeypatch.setenv("HTS_CACHE_KEY", "short")
    assert seal(b"text") is None


def _fresh(text: bytes) -> str | None:
    sealing._key.cache_clear()
    return seal(text)


def test_a_cache_among_its_own_files_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever can change a file of a checkout could put a forged outcome beside it."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "s.hts").write_text(PREHEAT)
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / ".hts-cache"))
    with pytest.raises(PermissionError, match="inside the repository"):
        check_paths([str(tmp_path / "s.hts")], cache=cache_folder())
    # The user's own cache, where the home folder is a repository: nothing is kept.
    monkeypatch.delenv("HTS_CACHE_DIR")
    check_paths([str(tmp_path / "s.hts")], cache=str(tmp_path / ".hts-cache"))
    assert not (tmp_path / ".hts-cache").exists()
