"""`hts compile` as it is run."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.checking.rules.examples import BUTT
from hts.cli.compile import command
from hts.job.outputs.contents import NAME as CONTENTS
from hts.job.outputs.job_files import NAMES


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, list(arguments))


def spec(tmp_path: Path, text: str = BUTT) -> str:
    path = tmp_path / "job.hts"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_writes_all_and_names_them(tmp_path: Path) -> None:
    out = tmp_path / "out"
    result = run(spec(tmp_path), "-o", str(out))
    assert result.exit_code == 0, result.output
    assert [Path(line).name for line in result.stdout.splitlines()] == [*NAMES, CONTENTS]
    assert sorted(path.name for path in out.iterdir()) == sorted([*NAMES, CONTENTS])


def test_errors_are_told_and_nothing_is_written(tmp_path: Path) -> None:
    out = tmp_path / "out"
    result = run(spec(tmp_path, BUTT.replace("cap width  30 mm", "cap width  30")), "-o", str(out))
    assert result.exit_code == 1
    assert "Q101" in result.stderr and "nothing was written" in result.stderr
    assert not out.exists()


def test_open_values_are_told_and_nothing_is_written(tmp_path: Path) -> None:
    out = tmp_path / "out"
    text = BUTT.replace("rate margin         10 %", "rate margin         100 %")
    result = run(spec(tmp_path, text), "-o", str(out))
    assert result.exit_code == 1
    assert "rate margin" in result.stderr
    assert not out.exists()


def test_earlier_papers_stay_when_a_later_text_is_refused(tmp_path: Path) -> None:
    out = tmp_path / "out"
    run(spec(tmp_path), "-o", str(out))
    before = (out / "setpoints.md").read_bytes()
    run(spec(tmp_path, BUTT.replace("30 mm", "30")), "-o", str(out))
    assert (out / "setpoints.md").read_bytes() == before


@pytest.mark.parametrize("every", ["5", "0 min", "30 s", "5 mm", "-5 min", "soon"])
def test_interval_has_to_be_a_time(tmp_path: Path, every: str) -> None:
    result = run(spec(tmp_path), "-o", str(tmp_path / "out"), "--every", every)
    assert result.exit_code == 2
    assert not (tmp_path / "out").exists()


def test_interval_without_a_blank(tmp_path: Path) -> None:
    assert run(spec(tmp_path), "-o", str(tmp_path / "out"), "--every", "10min").exit_code == 0


def test_what_cannot_be_read_or_written(tmp_path: Path) -> None:
    missing = run(str(tmp_path / "none.hts"), "-o", str(tmp_path / "out"))
    assert missing.exit_code == 2 and "no such file" in missing.stderr
    blocked = tmp_path / "blocked"
    blocked.write_text("a file", encoding="utf-8")
    for folder in (blocked, blocked / "inside"):
        result = run(spec(tmp_path), "-o", str(folder))
        assert result.exit_code == 2
        assert "cannot write into" in result.stderr
    assert blocked.read_text(encoding="utf-8") == "a file"


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("kept")
    for folder in ("out", "out/below"):
        result = run(spec(tmp_path), "-o", str(tmp_path / folder))
        assert result.exit_code == 2
        assert "a file is in the way; name another folder" in result.stderr
    assert (tmp_path / "out").read_text() == "kept"


def test_what_somebody_wrote_into_is_not_written_over(tmp_path: Path) -> None:
    """A sheet with notes on it is a record: it goes only where somebody says so."""
    words = [spec(tmp_path), "-o", str(tmp_path / "out")]
    assert run(*words).exit_code == 0
    assert run(*words).exit_code == 0
    sheet = tmp_path / "out" / "setpoints.md"
    sheet.write_text(sheet.read_text("utf-8") + "T3 reads low, see log\n", "utf-8")
    before = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}
    refused = run(*words)
    assert refused.exit_code == 2 and "setpoints.md was changed by hand" in refused.output
    assert {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()} == before
    assert run(*words, "--replace").exit_code == 0
    assert "see log" not in sheet.read_text("utf-8")


def test_what_is_not_ours_is_not_written_over(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "job.json").write_text("{}", "utf-8")
    refused = run(spec(tmp_path), "-o", str(out))
    assert refused.exit_code == 2 and "job.json" in refused.output
    assert [path.name for path in out.iterdir()] == ["job.json"]
