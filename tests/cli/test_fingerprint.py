"""`hts fingerprint` as it is run, with the paper in hand and without."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.checking.rules.examples import BUTT
from hts.cli.compile import command as compile_command
from hts.cli.fingerprint import command


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, list(arguments))


@pytest.fixture
def spec(tmp_path: Path) -> str:
    path = tmp_path / "job.hts"
    path.write_text(BUTT, encoding="utf-8")
    return str(path)


def printed(spec: str) -> str:
    result = run(spec)
    assert result.exit_code == 0
    return result.stdout.strip()


def test_it_is_the_one_on_the_papers(tmp_path: Path, spec: str) -> None:
    CliRunner().invoke(compile_command, [spec, "-o", str(tmp_path / "out")])
    mark = printed(spec)
    assert re.fullmatch(r"[0-9a-f]{4}(-[0-9a-f]{4}){2}", mark)
    assert mark in (tmp_path / "out" / "tags.md").read_text("utf-8")
    document = json.loads((tmp_path / "out" / "job.json").read_text("utf-8"))
    told = json.loads(run(spec, "--format", "json").stdout)
    assert told == {
        "fingerprint": document["fingerprint"],
        "algorithm": "SHA-256",
        "digest": document["digest"]["value"],
    }


@pytest.mark.parametrize("form", [str, str.upper, lambda f: f.replace("-", ""), lambda f: f" {f} "])
def test_however_it_was_typed(spec: str, form) -> None:  # type: ignore[no-untyped-def]
    result = run(spec, "--expect", form(printed(spec)))
    assert result.exit_code == 0
    assert "the paper is current" in result.stdout


def test_the_whole_digest_or_more_of_it(spec: str) -> None:
    digest = json.loads(run(spec, "--format", "json").stdout)["digest"]
    assert run(spec, "--expect", digest).exit_code == 0
    assert run(spec, "--expect", digest[:20]).exit_code == 0
    other = f"{digest[:-1]}{'0' if digest[-1] != '0' else '1'}"
    result = run(spec, "--expect", other)
    # Alike as far as they are printed on paper: both are told whole.
    assert result.exit_code == 1 and other in result.stdout and digest in result.stdout


def test_a_changed_text_says_both(spec: str) -> None:
    before = printed(spec)
    Path(spec).write_text(BUTT.replace("10 %", "12 %"), encoding="utf-8")
    result = run(spec, "--expect", before)
    assert result.exit_code == 1
    assert before in result.stdout and printed(spec) in result.stdout != before
    told = json.loads(run(spec, "--expect", before, "--format", "json").stdout)
    assert told["current"] is False and told["expected"] == before.replace("-", "")


@pytest.mark.parametrize("text", ["", "3f9a", "3f9a-01bc-77d", "g" * 12, "0" * 65, "–" * 12])
def test_too_short_too_long_or_none_at_all(spec: str, text: str) -> None:
    result = run(spec, "--expect", text)
    assert result.exit_code == 2
    assert "fingerprint has" in result.stderr


def test_could_not_run(tmp_path: Path) -> None:
    result = run(str(tmp_path / "none.hts"), "--expect", "0" * 12)
    assert result.exit_code == 2 and "cannot read" in result.stderr


def test_a_text_with_errors_is_said_so(spec: str) -> None:
    before = printed(spec)
    Path(spec).write_text(BUTT.replace("cap width  30 mm", "cap width  30"), encoding="utf-8")
    result = run(spec, "--expect", before)
    assert result.exit_code == 1 and "has errors" in result.stderr
