"""Files go into a folder all together or not at all."""

import hashlib
import os
import signal
import sys
from collections.abc import Callable
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from hts.job.outputs import contents as outputs_contents
from hts.job.outputs import write
from hts.job.outputs.write import _PREFIX, _alone, finish, settle
from tests.rows import each_row
from tests.sampling import whose_turn

FILES = {"a.csv": b"new a", "b.md": b"new b", "c.json": b"new c"}


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_folder_is_made(tmp_path: Path) -> None:
    paths = write(str(tmp_path / "x" / "y"), FILES)
    assert contents(tmp_path / "x" / "y") == FILES
    assert [os.path.basename(path) for path in paths] == list(FILES)


def test_own_files_are_replaced_and_others_left(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_bytes(b"old a")
    (tmp_path / "stale.csv").write_bytes(b"old")
    (tmp_path / "notes.txt").write_bytes(b"mine")
    write(str(tmp_path), FILES, stale=("stale.csv", "a.csv"))
    assert contents(tmp_path) == {**FILES, "notes.txt": b"mine"}


@pytest.mark.parametrize("failing", range(1, 5))
def test_a_move_that_fails_leaves_all_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    old = {"a.csv": b"old a", "b.md": b"old b", "c.json": b"old c", "notes.txt": b"mine"}
    for name, data in old.items():
        (tmp_path / name).write_bytes(data)
    replace, calls = os.replace, [0]

    def fails_once(source: str, target: str) -> None:
        calls[0] += 1
        if calls[0] == failing:
            raise OSError(28, "No space left on device")
        replace(source, target)

    monkeypatch.setattr(os, "replace", fails_once)
    with pytest.raises(OSError, match="No space"):
        write(str(tmp_path), FILES)
    assert contents(tmp_path) == old


def test_where_the_disk_has_no_second_names_a_failed_move_is_put_back_from_copies(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on FAT: `link` fails. What was a link to another's file is a link again."""
    mine, folder = tmp_path / "mine.txt", tmp_path / "out"
    folder.mkdir()
    mine.write_bytes(b"mine")
    (folder / "a.csv").symlink_to(mine)
    (folder / "b.md").write_bytes(b"old b")
    replace = os.replace

    def refused(*_: object, **__: object) -> None:
        raise OSError(1, "Operation not permitted")

    def fails_at_the_last(source: str, target: str) -> None:
        if target.endswith("c.json"):
            raise OSError(28, "No space left on device")
        replace(source, target)

    monkeypatch.setattr(os, "link", refused)
    monkeypatch.setattr(os, "replace", fails_at_the_last)
    with pytest.raises(OSError, match="No space"):
        write(str(folder), FILES)
    assert (folder / "a.csv").is_symlink()
    assert contents(folder) == {"a.csv": b"mine", "b.md": b"old b"}


def test_a_write_that_fails_leaves_no_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write(str(tmp_path / "x" / "y"), FILES)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_the_place_of_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "c.json").mkdir()
    (tmp_path / "a.csv").write_bytes(b"old a")
    with pytest.raises(IsADirectoryError):
        write(str(tmp_path), FILES)
    assert (tmp_path / "a.csv").read_bytes() == b"old a"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.csv", "c.json"]


def test_a_link_is_replaced_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.csv"
    outside.write_bytes(b"not ours")
    folder = tmp_path / "out"
    folder.mkdir()
    (folder / "a.csv").symlink_to(outside)
    write(str(folder), FILES)
    assert outside.read_bytes() == b"not ours"
    assert not (folder / "a.csv").is_symlink()


def test_a_link_to_a_folder_in_the_place_of_a_file_is_replaced(tmp_path: Path) -> None:
    (outside := tmp_path / "elsewhere").mkdir()
    (folder := tmp_path / "out").mkdir()
    (folder / "a.csv").symlink_to(outside)
    write(str(folder), FILES)
    assert contents(folder) == FILES
    assert list(outside.iterdir()) == []


def test_where_nothing_can_be_moved_any_more_the_next_run_finishes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk fails for good after the first move: the journal stays, and what it says is done."""
    (tmp_path / "a.csv").write_bytes(b"old a")
    replace, calls = os.replace, [0]

    def fails_from_now_on(source: str, target: str) -> None:
        calls[0] += 1
        if calls[0] > 2:
            raise OSError(5, "Input/output error")
        replace(source, target)

    monkeypatch.setattr(os, "replace", fails_from_now_on)
    with pytest.raises(OSError, match="Input/output"):
        write(str(tmp_path), FILES)
    monkeypatch.setattr(os, "replace", replace)
    finish(str(tmp_path))
    assert contents(tmp_path) == FILES


# A run that is ended in the middle ---------------------------------------------------------------

OLD = {"a.csv": b"old a", "b.md": b"old b", "stale.csv": b"old", "notes.txt": b"mine"}


def ended_at(folder: Path, number: int, when: str, sign: signal.Signals) -> bool:
    """Writes in a process of its own that ends itself at the n-th move, or just after it, as from
    outside; whether it came to its end."""
    pid = os.fork()
    if pid:
        return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]) == 0
    code = 1
    try:
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))
        signal.signal(signal.SIGINT, signal.default_int_handler)
        calls = 0

        def ending(real: Callable[..., object]) -> Callable[..., object]:
            def move(*places: object, **more: object) -> object:
                nonlocal calls
                calls += 1
                mine = calls == number
                if mine and when == "before":
                    os.kill(os.getpid(), sign)
                done = real(*places, **more)
                if mine and when == "after":
                    os.kill(os.getpid(), sign)
                return done

            return move

        for name in ("replace", "unlink", "link", "fsync"):
            setattr(os, name, ending(getattr(os, name)))
        write(str(folder), FILES, stale=["stale.csv"])
        code = 0
    finally:
        os._exit(code)


@pytest.mark.parametrize(
    ("when", "sign"),
    whose_turn(product(["before", "after"], [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])),
)
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that fork")
def test_ended_at_any_step_the_next_run_finds_all_or_none(
    tmp_path: Path, sign: signal.Signals, when: str
) -> None:
    """After a kill at any step, and the look a next run takes first, the folder is that of before
    or that of after, and nothing else."""
    outcomes = set()
    for number in range(1, 16):
        folder = tmp_path / f"{number}"
        folder.mkdir()
        for name, data in OLD.items():
            (folder / name).write_bytes(data)
        done = ended_at(folder, number, when, sign)
        # No old file is ever away: it is the old one or the new one.
        assert all((folder / name).exists() for name in ("a.csv", "b.md", "notes.txt"))
        finish(str(folder))
        found = contents(folder)
        new = {**FILES, "notes.txt": b"mine"}
        assert found in (OLD, new), (number, found)
        outcomes.add(found == new)
        if done:
            break
    assert outcomes == {True, False}


def test_two_writers_never_mix(tmp_path: Path) -> None:
    with _alone(str(tmp_path)), pytest.raises(BlockingIOError, match="another run is writing"):
        write(str(tmp_path), FILES)
    assert contents(tmp_path) == {}
    write(str(tmp_path), FILES)
    assert contents(tmp_path) == FILES


@pytest.mark.parametrize(
    "journal",
    ['[[], ["../outside.txt"]]', "5", "[1, 2]", "{}", "[[]]", '[[5], ["a"]]', "[" * 100_000,
     "9" * 5000, '[[], ["a/b/notes.txt"]]', '[[], ["W1/.notes"]]', '[[], ["/notes.txt"]]'],
    ids=range(11),
)  # fmt: skip
def test_a_journal_of_strangers_moves_nothing(tmp_path: Path, journal: str) -> None:
    """A work folder may have come with a checkout: its names lead nowhere else."""
    outside = tmp_path / "outside.txt"
    outside.write_bytes(b"not ours")
    folder = tmp_path / "out"
    work = folder / ".hts-evil"
    work.mkdir(parents=True)
    (work / "journal").write_text(journal)
    within = [folder / "a/b/notes.txt", folder / "W1/.notes"]
    for path in within:
        path.parent.mkdir(parents=True)
        path.write_bytes(b"not ours")
    write(str(folder), FILES)
    assert [path.read_bytes() for path in (outside, *within)] == [b"not ours"] * 3
    assert {path.name for path in folder.iterdir()} == {*FILES, "a", "W1"}


# Folders of single joints -------------------------------------------------------------------------


def test_a_folder_of_a_joint_comes_and_goes_with_its_papers(tmp_path: Path) -> None:
    write(str(tmp_path), {"W1/a.md": b"1", "W2/a.md": b"2", "index.html": b"i"})
    assert (tmp_path / "W1" / "a.md").read_bytes() == b"1"
    write(str(tmp_path), {"W2/a.md": b"3", "index.html": b"j"}, stale=["W1/a.md"])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["W2", "index.html"]
    assert (tmp_path / "W2" / "a.md").read_bytes() == b"3"


def test_a_folder_that_is_a_link_is_not_written_into(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    folder = tmp_path / "out"
    folder.mkdir()
    (folder / "W1").symlink_to(outside)
    with pytest.raises(NotADirectoryError):
        write(str(folder), {"W1/a.md": b"1"})
    assert list(outside.iterdir()) == []


@pytest.mark.parametrize("reason", [OSError(5, "Input/output error"), SystemExit(143)])
def test_a_move_that_ends_takes_the_new_folders_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, reason: BaseException
) -> None:
    real = os.replace

    def failing(source: str, target: str) -> None:
        if str(target).endswith("W2/a.md"):
            raise reason
        real(source, target)

    monkeypatch.setattr(os, "replace", failing)
    with pytest.raises(type(reason)):
        write(str(tmp_path / "in" / "out"), {"W1/a.md": b"1", "W2/a.md": b"2"})
    assert list(tmp_path.iterdir()) == []


@each_row(
    ("listed", "own"),
    [
        ("{digest}  a.md\n", ["a.md"]), ("{digest}  a.md\n{digest}  b.md\n", ["a.md"]),
        ("{other}  a.md\n", []), ("", None), ("{digest}  a.md\nnotes of mine\n", None),
        ("notes of mine\n", None), (None, None),
    ],
)  # fmt: skip
def test_what_an_earlier_run_wrote(listed: str | None, own: list[str] | None) -> None:
    """Whatever is not in a whole list of ours is somebody's own: it is never written over."""
    with TemporaryDirectory() as folder:
        (Path(folder) / "a.md").write_bytes(b"as it was")
        (Path(folder) / "b.md").write_bytes(b"written into")
        digest, other = (hashlib.sha256(one).hexdigest() for one in (b"as it was", b"x"))
        if listed is not None:
            text = listed.format(digest=digest, other=other)
            (Path(folder) / outputs_contents.NAME).write_text(text)
        assert list(outputs_contents.unchanged(folder)) == (own or [])
        found = outputs_contents.of_others(folder, ["a.md", "b.md", "new.md"])
        names = ["a.md", "b.md", *([outputs_contents.NAME] if listed is not None else [])]
        ours = {*(own or []), *([outputs_contents.NAME] if own is not None else [])}
        assert [Path(each).name for each in found] == [each for each in names if each not in ours]


def test_what_a_killed_run_left_is_ended_where_there_is_a_folder_of_ours(tmp_path: Path) -> None:
    (tmp_path / "repository" / ".git").mkdir(parents=True)
    for name in ("repository/out", "elsewhere"):
        (tmp_path / name / f"{_PREFIX}1").mkdir(parents=True)
    (tmp_path / "repository" / "link").symlink_to(tmp_path / "elsewhere")
    for name, left in (("out", False), ("link", True), ("nowhere", False)):
        folder = tmp_path / "repository" / name
        settle(str(folder))
        assert (folder / f"{_PREFIX}1").exists() is left
