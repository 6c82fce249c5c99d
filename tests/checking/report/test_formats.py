"""Every format there is, and reports that go into files."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from hts.checking.report import save as saving
from hts.checking.report.formats import FORMATS, written
from hts.checking.report.save import save
from hts.checking.report.terminal import statistics
from hts.cli.check import command
from hts.generate import ROOT
from hts.language.model.defaults import Quieted
from tests.checking.report.findings import ADVICE, ERROR, WARNING, finding, results
from tests.rows import each_row


@each_row("form", FORMATS)
def test_a_report_says_rule_and_message(form: str) -> None:
    text = written(form, results(finding()))
    assert "X102" in text and "3:00" in text and text.endswith("\n")
    assert text == written(form, results(finding()))


@each_row(
    ("form", "told"),
    [
        ("text", "hts.toml:3:1 leaves out: zone-gap"),
        ("line", "hts.toml:3:1: note: leaves out: zone-gap"),
        ("json", '"origin": "hts.toml:3:1"'),
        ("sarif", "hts.toml:3:1 leaves out: zone-gap"),
        ("github", "::notice file=hts.toml,line=3,title=rules left out::leaves out: zone-gap"),
        ("gitlab", '"begin": 3'),
        ("junit", 'testcase name="hts.toml:3:1 leaves out: zone-gap"'),
    ],
)
def test_where_settings_leave_out_rules_is_told_in_every_format(form: str, told: str) -> None:
    made = results(finding())
    made.quieted.append(Quieted("hts.toml:3:1", "leaves out: zone-gap"))
    text = written(form, made)
    assert told in text and "leaves out: zone-gap" in text


def test_how_many_of_each_rule_there_are() -> None:
    """The most frequent first, then by code, then by how grave they count."""
    made = results(
        finding(ADVICE), finding(WARNING, severity="error"), finding(WARNING), finding(ERROR),
        finding(ADVICE), finding(ERROR),
    )  # fmt: skip
    assert statistics(made).splitlines() == [
        "    2  error    first-kind (X101)",
        "    2  advice   third-kind (X103)",
        "    1  error    second-kind (X102)",
        "    1  warning  second-kind (X102)",
    ]


def test_a_check_offers_every_format() -> None:
    (option,) = [p for p in command.params if p.name == "output_format"]
    assert list(option.type.choices) == list(FORMATS)  # type: ignore[attr-defined]


def test_only_the_format_asked_for_is_imported() -> None:
    program = (
        "import sys\n"
        "from hts.checking.checker.results import Results\n"
        "from hts.checking.report.formats import written\n"
        "written('github', Results())\n"
        "print([m for m in sys.modules if m.startswith('hts.checking.report.')])\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=ROOT, check=True
    )
    for other in ("sarif", "junit", "gitlab", "json_report"):
        assert other not in run.stdout


# Into files.


def test_files_are_written_and_folders_made(tmp_path: Path) -> None:
    (tmp_path / "b.xml").write_text("old")
    save({str(tmp_path / "new" / "a.json"): "a\n", str(tmp_path / "b.xml"): "b\n"})
    assert (tmp_path / "new" / "a.json").read_text() == "a\n"
    assert (tmp_path / "b.xml").read_text() == "b\n"
    assert sorted(os.listdir(tmp_path)) == ["b.xml", "new"]
    assert os.listdir(tmp_path / "new") == ["a.json"]


@pytest.mark.parametrize("broken", [0, 1, 2])
@pytest.mark.parametrize("linked", [True, False])
def test_all_or_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, linked: bool, broken: int
) -> None:
    paths = [tmp_path / name for name in ("a", "b", "c")]
    for path in paths[:2]:
        path.write_text("old")
    moves = []

    replace = os.replace

    def move(source: str, target: str) -> None:
        assert all(path.exists() for path in paths[:2])
        moves.append(target)
        if len(moves) == broken + 1:
            raise OSError(28, "No space left on device")
        replace(source, target)

    def no_link(source: str, target: str) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(saving.os, "replace", move)
    if not linked:
        monkeypatch.setattr(saving.os, "link", no_link)
    # The new file last, and first.
    for order in (paths, paths[::-1]):
        moves.clear()
        with pytest.raises(OSError, match="No space"):
            save({str(path): "new" for path in order})
        assert [path.read_text() for path in paths[:2]] == ["old", "old"]
        assert sorted(os.listdir(tmp_path)) == ["a", "b"]


def test_what_is_no_plain_file_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    for name in ("folder", "pipe"):
        with pytest.raises(OSError, match="not an ordinary file"):
            save({str(tmp_path / "a"): "new", str(tmp_path / name): "new"})
    assert sorted(os.listdir(tmp_path)) == ["folder", "pipe"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").write_text("old")
    os.symlink("real", tmp_path / "link")
    save({str(tmp_path / "link"): "new"})
    assert os.path.islink(tmp_path / "link") and (tmp_path / "real").read_text() == "new"
