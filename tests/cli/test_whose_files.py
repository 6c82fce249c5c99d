"""What commands write into a folder is theirs to replace; what others wrote there stays, or is
written over only with `--replace`."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from hts.checking.rules.examples import BUTT
from tests.cli.child import in_child
from tests.cli.test_writing import tree
from tests.fuzz.run import run

FOLDER = {
    "compile": ("compile", "a.hts", "-o", "out"),
    "plan": ("plan", "a.hts", "-o", "out"),
    "record": ("record", "check", "a.hts", "run.csv", "-o", "out"),
    "view": ("view", "a.hts", "--export", "out"),
}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    place = tmp_path / "place"
    (place / ".git").mkdir(parents=True)
    monkeypatch.chdir(place)
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "cache"))
    (place / "a.hts").write_text(BUTT)
    return place


def refused(*arguments: str) -> bool:
    ran = run(arguments)
    said = ran.out + ran.err
    return ran.code == 2 and "nothing was written" in said and "--replace" in said


@pytest.mark.parametrize("name", FOLDER)
def test_nothing_of_others_is_written_over(folder: Path, name: str) -> None:
    """A file changed by hand, one of somebody else, and a list that is none of ours."""
    command = FOLDER[name]
    run(("record", "simulate", "a.hts", "-o", "run.csv"))
    assert run(command).code in (0, 1)
    made = tree(folder / "out")
    assert run(command).code in (0, 1)
    assert tree(folder / "out") == made
    # That of a list itself tells nothing but that it is one.
    listed = next(each for each in made if each.endswith(".sha256"))
    for each in made:
        (folder / "out" / each).write_text("by hand")
        if each != listed:
            before = tree(folder)
            assert refused(*command), each
            assert tree(folder) == before
            assert run((*command, "--replace")).code in (0, 1)
        else:
            assert refused(*command), each
            assert run((*command, "--replace")).code in (0, 1)
        assert tree(folder / "out") == made


def test_no_command_takes_away_what_another_wrote(folder: Path) -> None:
    run(("record", "simulate", "a.hts", "-o", "out/run.csv"))
    together: dict[str, bytes | None] = tree(folder / "out")
    for name, command in FOLDER.items():
        run([*command[:3], "out/run.csv", *command[4:]] if name == "record" else command)  # type: ignore[arg-type]
        found = tree(folder / "out")
        assert together.items() <= found.items()
        together = found


def test_records_of_several_runs_and_pages_of_several_texts_lie_together(
    folder: Path,
) -> None:
    (folder / "b.hts").write_text(BUTT.replace("W12", "W13").replace("HT-0001", "HT-0002"))
    for text in "ab":
        assert run(("record", "simulate", f"{text}.hts", "-o", f"{text}.csv")).code == 0
        assert run(("record", "check", f"{text}.hts", f"{text}.csv", "-o", "r", "--svg")).code < 2
        assert run(("view", f"{text}.hts", "--export", "pages")).code == 0
    assert sorted(tree(folder / "r")) == [
        *(f"W{n}-stress-relief-record.{kind}" for n in (12, 13) for kind in ("json", "svg")),
        "records.sha256",
    ]
    assert len(tree(folder / "pages")) == 3
    # The chart of an earlier judgement goes with it, that of the other weld stays.
    assert run(("record", "check", "a.hts", "a.csv", "-o", "r")).code < 2
    assert "W12-stress-relief-record.svg" not in tree(folder / "r")
    listed = (folder / "r" / "records.sha256").read_text().split()[1::2]
    assert sorted([*listed, "records.sha256"]) == sorted(tree(folder / "r"))
    (folder / "r" / "W13-stress-relief-record.json").write_text("by hand")
    assert run(("record", "check", "a.hts", "a.csv", "-o", "r")).code < 2
    assert refused("record", "check", "b.hts", "b.csv", "-o", "r")


def once_some_are_in(_: int) -> None:
    new = list(Path("out").glob(".hts-*/*.csv"))
    journal = any(Path("out").glob(".hts-*/journal"))
    if journal and len(new) < len(list(Path("out").glob("*.csv"))):
        os.kill(os.getpid(), signal.SIGKILL)


@pytest.mark.parametrize("name", ["compile", "plan"])
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process of its own")
def test_half_of_the_papers_moved_in_is_no_work_of_others(folder: Path, name: str) -> None:
    """The next run finishes what was begun, and asks for no `--replace`."""
    assert run(FOLDER[name]).code == 0
    before = tree(folder / "out")
    (folder / "a.hts").write_text(BUTT.replace("HT-0001", "HT-0002"))

    assert in_child(FOLDER[name], once_some_are_in).code == -signal.SIGKILL
    ran = run(FOLDER[name])
    assert (ran.code, "by hand" in ran.err) == (0, False), ran
    after = tree(folder / "out")
    assert after.keys() == before.keys() and after != before
