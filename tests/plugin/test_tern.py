"""The example pack, installed as a package of its own, and who may let it run."""

from __future__ import annotations

import inspect
import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

import hts.plugin
from hts.checking.checker import packs
from hts.checking.configuration import ConfigurationError, allowed, load
from hts.checking.rules.examples import PREHEAT
from hts.cli.check import command as check
from hts.cli.rules import command as rules
from hts.generate import ROOT

HERE = Path(__file__).parent / "tern"


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of installed packages with the pack in it, as its pyproject.toml says, and a user
    who has allowed nothing."""
    # Python Packaging User Guide, "Recording installed projects" and "Entry points specification".
    project = tomllib.loads((HERE / "pyproject.toml").read_text())["project"]
    folder = tmp_path / "site"
    about = folder / f"tern_rules-{project['version']}.dist-info"
    about.mkdir(parents=True)
    (about / "METADATA").write_text(
        f"Metadata-Version: 2.1\nName: {project['name']}\nVersion: {project['version']}\n"
    )
    points = project["entry-points"]["hts.rules"]
    lines = [f"{name} = {target}\n" for name, target in points.items()]
    (about / "entry_points.txt").write_text(f"[hts.rules]\n{''.join(lines)}")
    (folder / "tern_rules").symlink_to(HERE / "tern_rules")
    monkeypatch.syspath_prepend(str(folder))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "kept"))
    monkeypatch.setattr(allowed, "_named", set())
    monkeypatch.setattr(allowed, "_without", [])
    packs._rules.cache_clear()
    packs.checks.cache_clear()
    return folder


@pytest.fixture
def stranger(tmp_path: Path, site: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository that names the pack."""
    folder = tmp_path / "repository"
    (folder / ".git").mkdir(parents=True)
    (folder / "hts.toml").write_text('rule-packs = ["tern"]\n')
    (folder / "a.hts").write_text(PREHEAT.replace('job "Tern Island', 'job "Island'))
    monkeypatch.chdir(folder)
    return folder


def test_its_own_tests_pass(site: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-n", "0", "tests"],
        cwd=HERE,
        env={**os.environ, "PYTHONPATH": os.pathsep.join((str(site), ROOT))},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout


def test_no_code_of_a_pack_runs_because_a_repository_names_it(stranger: Path) -> None:
    run = CliRunner().invoke(check, ["."])
    assert run.exit_code != 0 and "hts.toml:1:15: rule pack tern may not run" in run.output
    assert "--allow-pack tern" in run.output
    assert "tern_rules" not in sys.modules
    # Nor where the file of settings is named, nor for a settings key that would look it up.
    assert CliRunner().invoke(check, ["--config", "hts.toml", "."]).exit_code != 0
    (stranger / "hts.toml").write_text('ignore = ["TI001"]\nrule-packs = ["tern"]\n')
    with pytest.raises(ConfigurationError, match="tern may not run"):
        load(str(stranger))
    assert "tern_rules" not in sys.modules


def test_a_home_folder_in_the_repository_is_no_consent(
    stranger: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(stranger / ".config"))
    (stranger / ".config" / "hts").mkdir(parents=True)
    (stranger / ".config" / "hts" / "hts.toml").write_text('allow-packs = ["tern"]\n')
    with pytest.raises(ConfigurationError, match="tern may not run"):
        load(str(stranger))


def test_the_user_allows_it_by_name(stranger: Path, tmp_path: Path) -> None:
    own = tmp_path / "own" / "hts"
    own.mkdir(parents=True)
    (own / "hts.toml").write_text('allow-packs = ["other"]\n')
    assert "tern may not run" in CliRunner().invoke(check, ["."]).output
    (own / "hts.toml").write_text('allow-packs = ["tern"]\n')
    run = CliRunner().invoke(check, ["."])
    assert run.exit_code == 1 and "title-without-plant (TI001)" in run.output
    listed = CliRunner().invoke(rules, []).output
    assert "TI003  warning  hold-beyond-a-shift                  tern" in listed
    told = CliRunner().invoke(rules, ["viewed-against-flow"]).output
    assert "TI002 viewed-against-flow (advice, tern)" in told and "viewed     against flow" in told
    (own / "hts.toml").write_text("allow-packs = 5\n")
    assert "hold one key" in CliRunner().invoke(check, ["."]).output


def test_the_user_allows_it_for_one_command(stranger: Path) -> None:
    run = CliRunner().invoke(check, ["--allow-pack", "tern", "."])
    assert run.exit_code == 1 and "TI001" in run.output


def test_the_user_goes_on_without(stranger: Path) -> None:
    run = CliRunner().invoke(check, ["--no-packs", "."])
    assert run.exit_code == 0, run.output
    assert "names rule packs that did not run: tern" in run.output
    assert "TI001" not in CliRunner().invoke(rules, ["--no-packs"]).output


def test_everything_public_is_documented_and_typed() -> None:
    assert (Path(ROOT) / "hts" / "py.typed").exists()
    for name in hts.plugin.__all__:
        thing = getattr(hts.plugin, name)
        if inspect.isclass(thing) or inspect.isfunction(thing):
            assert inspect.getdoc(thing), name
    assert "Stability" in (hts.plugin.__doc__ or "")
