"""The program as a library: what its page shows is what it does."""

from __future__ import annotations

import doctest
import os
from pathlib import Path

import pytest

from hts import api
from hts.checking.rules.examples import BUTT, PREHEAT

ROOT = Path(__file__).parent.parent


@pytest.fixture(autouse=True)
def in_the_repository(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def test_the_page_is_true() -> None:
    failed, tried = doctest.testmod(api)
    assert tried >= 8 and failed == 0


@pytest.mark.parametrize("name", ["p22-header.hts", "broken/zone-gap.hts"])
def test_a_path_may_be_text_or_path_and_says_what_the_command_says(name: str) -> None:
    import json

    from click.testing import CliRunner

    from hts.cli.main import cli

    path = ROOT / "specs" / name
    run = CliRunner().invoke(cli, ["check", "--format", "json", str(path)])
    told = [(f["code"], f["address"], f["message"]) for f in json.loads(run.output)["findings"]]
    for source in (path, str(path), os.path.relpath(path)):
        findings = api.check(api.load(source))
        assert [(f.kind.code, f.address, f.message) for f in findings] == told


def test_a_text() -> None:
    assert api.check(api.load(PREHEAT)) == []
    assert api.check(api.load("\ufeff" + PREHEAT)) == []
    (first, *_) = api.check(api.load("spec 1\n$\n"))
    assert first.kind.code == "S101" and first.source.name == "<text>"


def test_a_text_uses_what_lies_near(tmp_path: Path) -> None:
    (tmp_path / "hts.toml").write_text("")
    (tmp_path / "library.hts").write_text('spec 1\nmaterial shared {\n  grade "A106-B"\n}\n')
    (tmp_path / "a.hts").write_text(PREHEAT)
    spec = api.load(tmp_path / "a.hts")
    text = PREHEAT.replace("spec 1\n", 'spec 1\nuse "library.hts"\n')
    text = text.replace("pipe and pipe", "shared and pipe")
    assert api.check(api.load(text, near=spec)) == []
    assert api.check(api.load(text)) != []


def test_the_nearest_configuration_counts(tmp_path: Path) -> None:
    path = tmp_path / "a.hts"
    path.write_text(BUTT.replace("zone bottom    from 3:00", "zone bottom    from 4:00"))
    found = api.check(api.load(path))
    free = [f.kind.code for f in found if f.kind.lowest is None]
    assert free
    (tmp_path / "hts.toml").write_text(f"ignore = {free!r}\n".replace("'", '"'))
    assert [f.kind.code for f in api.check(api.load(path))] == [
        f.kind.code for f in found if f.kind.code not in free
    ]


def test_the_day_is_that_of_the_caller() -> None:
    # The calibrations end on 2027-03-01.
    spec = api.load(BUTT)
    assert api.check(spec) == api.check(spec, today="2027-03-01") == []
    assert {f.kind.name for f in api.check(spec, today="2027-03-02")} == {"expired-calibration"}


def test_what_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(api.Unreadable, match="no such file"):
        api.load(tmp_path / "nowhere.hts")
    (tmp_path / "a.hts").write_bytes(b"\xff")
    with pytest.raises(api.Unreadable, match="not UTF-8"):
        api.load(tmp_path / "a.hts")
    (tmp_path / "a.hts").write_text(PREHEAT)
    (tmp_path / "hts.toml").write_text("ignroe = []\n")
    with pytest.raises(api.ConfigurationError, match="ignroe"):
        api.load(tmp_path / "a.hts")


def test_what_cannot_be_compiled() -> None:
    with pytest.raises(api.CannotCompile) as caught:
        api.compile(
            api.load(BUTT.replace("hold  700 .. 730 degC for 2 h", "hold  600 .. 630 degC for 2 h"))
        )
    assert caught.value.reasons and all(reason[0].isupper() for reason in caught.value.reasons)


def test_no_change_is_no_change() -> None:
    assert api.diff(api.load(BUTT), api.load(BUTT)).changes == ()


def test_types_come_with_the_package() -> None:
    # PEP 561: a package with types of its own holds a file py.typed.
    assert (Path(api.__file__).parent / "py.typed").is_file()
