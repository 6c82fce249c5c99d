"""`hts check` with reports, configuration and baseline."""

import json
import os
from pathlib import Path
from typing import Any

import pytest

from hts.checking.rules.examples import BUTT
from tests.cli.inside import hts


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    (tmp_path / "part").mkdir()
    return tmp_path


def found(folder: Path, *arguments: str) -> list[Any]:
    run = hts(folder, "check", "--format", "json", *arguments)
    assert run.returncode < 2, run.stderr
    return json.loads(run.stdout)["findings"]


def codes(folder: Path, *arguments: str) -> set[str]:
    return {finding["code"] for finding in found(folder, *arguments)}


GAP = BUTT.replace("from 3:00 to 9:00", "from 4:00 to 9:00", 1)


def test_several_reports_of_one_run(root: Path) -> None:
    (root / "part" / "a.hts").write_text("spec 1\nfoo\n")
    run = hts(
        root,
        *("check", "part", "--format", "github"),
        *("--report", "sarif=out/a.sarif", "--report", "junit=out/b.xml"),
        *("--report", "gitlab=c.json", "--report", "text=d.txt"),
    )
    assert run.returncode == 1
    assert run.stdout.startswith("::error file=part/a.hts,line=2,")
    log = json.loads((root / "out" / "a.sarif").read_text())
    place = log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "part/a.hts"
    assert (root / "out" / "b.xml").read_text().startswith("<?xml")
    assert json.loads((root / "c.json").read_text())[0]["location"]["path"] == "part/a.hts"
    assert "part/a.hts:2:1" in (root / "d.txt").read_text()


def test_files_are_named_from_the_repository_wherever_the_check_runs(root: Path) -> None:
    (root / "part" / "a.hts").write_text("spec 1\nfoo\n")
    (root / "part" / "hts.toml").write_text("")
    for folder, path in ((root, "part"), (root / "part", "."), (root / "part", "a.hts")):
        assert [f["at"]["file"] for f in found(folder, path)] == ["part/a.hts"]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (["sarif"], "does not name a file"),
        (["sarif="], "does not name a file"),
        (["pdf=a.pdf"], "there are: text, line, json, sarif, junit, github, gitlab"),
        (["sarif=a", "junit=./a"], "two reports go into"),
        (["sarif=a.hts"], "is a specification"),
    ],
)
def test_a_wrong_report_is_refused(root: Path, given: list[str], said: str) -> None:
    (root / "a.hts").write_text("spec 1\n")
    run = hts(root, "check", "a.hts", *(word for each in given for word in ("--report", each)))
    assert run.returncode == 2
    assert said in " ".join(run.stderr.split())
    assert sorted(os.listdir(root)) == [".git", "a.hts", "part"]


def test_none_is_written_when_one_cannot_be(root: Path) -> None:
    (root / "a.hts").write_text("spec 1\n")
    run = hts(root, "check", "a.hts", "--report", "sarif=a.sarif", "--report", "junit=part")
    assert run.returncode == 2
    assert "nothing was written" in run.stderr and "part is not an ordinary file" in run.stderr
    assert run.stdout == ""
    assert not (root / "a.sarif").exists()


def test_the_file_asked_for_is_named_when_it_cannot_be_written(root: Path) -> None:
    (root / "a.hts").write_text("spec 1\n")
    run = hts(root, "check", "a.hts", "--report", "json=a.hts/x.json")
    assert run.returncode == 2
    assert run.stderr == "Error: nothing was written: a.hts/x.json: file exists\n"


# Configuration.


def test_rules_left_out_and_made_graver(root: Path) -> None:
    (root / "part" / "a.hts").write_text(GAP)
    before = found(root, "part")
    assert "Z113" in {f["code"] for f in before}
    (root / "hts.toml").write_text("ignore = ['zone-gap']\n")
    assert "Z113" not in codes(root, "part")
    (root / "hts.toml").write_text("severity.zone-gap = 'error'\n")
    assert {f["severity"] for f in found(root, "part") if f["code"] == "Z113"} == {"error"}
    # A nearer file counts alone.
    (root / "part" / "hts.toml").write_text("ignore = ['Z']\n")
    assert not {code for code in codes(root, "part") if code == "Z113"}
    # One that is named counts instead of both.
    (root / "other.toml").write_text("")
    assert found(root, "part", "--config", "other.toml") == before


def test_files_of_one_run_have_their_own_configuration(root: Path) -> None:
    (root / "a.hts").write_text(GAP)
    (root / "part" / "a.hts").write_text(GAP)
    (root / "part" / "hts.toml").write_text("ignore = ['zone-gap']\n")
    places = [f["at"]["file"] for f in found(root, ".") if f["code"] == "Z113"]
    assert places == ["a.hts"]


def test_a_waiver_of_what_is_ignored_is_not_unused(root: Path) -> None:
    (finding,) = [f for f in _with(root, GAP) if f["code"] == "Z113"]
    text = f"""{GAP}
waive zone-gap on {finding["address"]} {{
  reason "Agreed for this weld"
  by     "Owner's engineer"
  until  2099-01-01
}}
"""
    left = {f["code"] for f in _with(root, text)}
    assert not left & {"Z113", "V102"}
    (root / "hts.toml").write_text("ignore = ['zone-gap']\n")
    assert not {f["code"] for f in _with(root, text)} & {"Z113", "V102"}


def _with(root: Path, text: str) -> list[Any]:
    (root / "part" / "a.hts").write_text(text)
    return found(root, "part/a.hts")


def test_a_mistake_in_the_configuration_ends_with_2(root: Path) -> None:
    (root / "a.hts").write_text("spec 1\n")
    (root / "hts.toml").write_text("ignore = ['W103']\n")
    for command in (["check", "a.hts"], ["why", "a.hts"], ["config"]):
        run = hts(root, *command)
        assert run.returncode == 2, command
        assert "hts.toml:1:11: W103 missing-entry cannot be ignored" in run.stderr


NO_BOOK = "\n".join(line for line in BUTT.splitlines() if "governed by" not in line) + "\n"


def test_books_by_default(root: Path) -> None:
    assert NO_BOOK != BUTT
    assert any("governed by" in f["message"] for f in _with(root, NO_BOOK))
    (root / "hts.toml").write_text("\nbooks = ['asme-b31.3 edition 2018', 'local-heating']\n")
    configured = _with(root, NO_BOOK)
    assert not any("governed by" in f["message"] for f in configured)
    assert {f["code"] for f in configured} == {f["code"] for f in _with(root, BUTT)}
    # The text comes first.
    assert "L101" in {
        f["code"] for f in _with(root, BUTT.replace("asme-b31.3 edition 2018", "nothing", 1))
    }


def test_where_a_book_is_named_is_told(root: Path) -> None:
    (root / "hts.toml").write_text("\nbooks = ['asme-b31.3 edition 2018', 'local-heating']\n")
    for text, said in ((NO_BOOK, True), (BUTT, False)):
        (root / "a.hts").write_text(text)
        run = hts(root, "why", "a.hts")
        assert ("in force by configuration: hts.toml:2:10" in run.stdout) == said
        claims = [
            c
            for a in json.loads(hts(root, "why", "a.hts", "--format", "json").stdout)
            for c in a["demands"]
        ]
        places = {c["configured"] for c in claims if c["source"] == "asme-b31.3"}
        assert places == {"hts.toml:2:10" if said else None}


# Baseline.


def test_a_baseline_is_made_kept_and_only_shrinks(root: Path) -> None:
    (root / "a.hts").write_text(GAP)
    (root / "part" / "b.hts").write_text(GAP)
    whole = len(found(root, "."))
    assert whole > 0
    missing = hts(root, "check", ".", "--baseline", "base.json")
    assert missing.returncode == 2 and "--new-baseline makes it" in missing.stderr
    made = hts(root, "check", ".", "--baseline", "base.json", "--new-baseline")
    assert made.returncode == 0 and f"{whole} known to the baseline" in made.stdout
    first = (root / "base.json").read_bytes()

    # Lines move: all is still known, and writing changes nothing.
    (root / "a.hts").write_text("# a remark\n\n" + GAP)
    again = hts(root, "check", ".", "--baseline", "base.json", "--write-baseline")
    assert again.returncode == 0 and f"{whole} known" in again.stdout
    assert (root / "base.json").read_bytes() == first

    # Something new is found and not added.
    (root / "c.hts").write_text(GAP)
    new = hts(root, "check", ".", "--baseline", "base.json", "--write-baseline")
    assert new.returncode == 1 and "c.hts" in new.stdout and "a.hts:" not in new.stdout
    assert (root / "base.json").read_bytes() == first
    os.unlink(root / "c.hts")

    # Something is mended: told, and removed on writing only.
    (root / "a.hts").write_text(BUTT)
    told = hts(root, "check", ".", "--baseline", "base.json")
    assert "no longer found: a.hts: Z113" in told.stdout
    assert (root / "base.json").read_bytes() == first
    hts(root, "check", ".", "--baseline", "base.json", "--write-baseline")
    entries = json.loads((root / "base.json").read_text())["findings"]
    assert entries and {entry["file"] for entry in entries} == {"part/b.hts"}

    # What comes back is new.
    (root / "a.hts").write_text(GAP)
    assert "Z113" in hts(root, "check", ".", "--baseline", "base.json").stdout


def test_what_the_run_does_not_look_at_stays_in_the_baseline(root: Path) -> None:
    (root / "a.hts").write_text(GAP)
    (root / "part" / "b.hts").write_text(GAP)
    hts(root, "check", ".", "--baseline", "base.json", "--new-baseline")
    first = (root / "base.json").read_bytes()
    (root / "a.hts").write_text(BUTT)
    run = hts(root, "check", "part", "--baseline", "base.json", "--write-baseline")
    assert "no longer" not in run.stdout and (root / "base.json").read_bytes() == first
    os.unlink(root / "a.hts")
    hts(root, "check", "part", "--baseline", "base.json", "--write-baseline")
    entries = json.loads((root / "base.json").read_text())["findings"]
    assert {entry["file"] for entry in entries} == {"part/b.hts"}


def test_a_baseline_is_not_made_by_a_run_that_was_to_use_it(root: Path) -> None:
    (root / "a.hts").write_text(GAP)
    run = hts(root, "check", ".", "--baseline", "other.json", "--write-baseline")
    assert run.returncode == 2 and not (root / "other.json").exists()
    assert hts(root, "check", ".", "--baseline", "base.json", "--new-baseline").returncode == 0
    first = (root / "base.json").read_bytes()
    # An error of reading hides what rules would find: that is not mended.
    (root / "a.hts").write_text(GAP.replace("joint", "jiont", 1))
    run = hts(root, "check", ".", "--baseline", "base.json", "--write-baseline")
    assert run.returncode == 1 and (root / "base.json").read_bytes() == first
    again = hts(root, "check", ".", "--baseline", "base.json", "--new-baseline")
    assert again.returncode == 2 and "is there" in again.stderr
    assert (root / "base.json").read_bytes() == first
    assert not [name for name in os.listdir(root) if name.startswith(".base")]


def test_what_may_not_be_set_aside_is_never_known(root: Path) -> None:
    (root / "a.hts").write_text("spec 1\nfoo\n")
    run = hts(root, "check", ".", "--baseline", "base.json", "--new-baseline")
    assert run.returncode == 1 and "unknown" in run.stdout
    assert json.loads((root / "base.json").read_text())["findings"] == []


@pytest.mark.parametrize(
    "arguments",
    [
        ["--write-baseline"],
        ["--baseline", "base.json", "--write-baseline", "--shard", "1/2"],
        ["--baseline", "base.json", "--write-baseline", "--report", "json=base.json"],
    ],
)
def test_what_a_baseline_cannot_do(root: Path, arguments: list[str]) -> None:
    (root / "a.hts").write_text("spec 1\n")
    assert hts(root, "check", ".", *arguments).returncode == 2
    assert not (root / "base.json").exists()
