"""The templates for CI, their steps run by bash in a throwaway clone whose request is hostile."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from hts.generate import ROOT

yaml = pytest.importorskip("yaml")

LIBRARY = 'spec 1\nmaterial pipe-a {\n  grade "A106-B"\n  lower critical 720 degC\n}\n'
SPEC = (
    'spec 1\n\nuse "library.hts"\n\n'
    "joint W1 {\n  kind       girth butt\n  between    pipe-a and pipe-a\n"
    "  pipe       NPS 10 schedule 80\n  cap width  20 mm\n}\n"
)


def template(name: str) -> Any:
    return yaml.safe_load(Path(ROOT, "grammar", "ci", name).read_text(encoding="utf-8"))


@pytest.fixture
def request_of_a_stranger(tmp_path: Path) -> tuple[Path, dict[str, str]]:
    """A clone with a request on top of `main`: it spoils the library that a job uses, leaves the
    job alone, and brings settings and approvals that would hide it."""
    tools = tmp_path / "tools"
    tools.mkdir()
    (tools / "hts").write_text(f'#!/bin/sh\nexec "{sys.executable}" -m hts "$@"\n')
    for name in ("gh", "curl"):
        # What would be posted is kept.
        (tools / name).write_text(f'#!/bin/sh\nprintf "%s\\n" "$@" > "{tmp_path}/{name}.args"\n')
    for tool in tools.iterdir():
        tool.chmod(0o755)
    clone = tmp_path / "clone"
    clone.mkdir()
    surroundings = {
        **{k: v for k, v in os.environ.items() if not k.startswith(("GIT_", "CI_"))},
        "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": ROOT,
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_CONFIG_NOSYSTEM": "1",
        "RUNNER_TEMP": str(tmp_path / "runner"),
        "GITHUB_STEP_SUMMARY": str(tmp_path / "summary.md"),
        "FAIL_ON": "never",
        "NUMBER": "7",
        "CI_API_V4_URL": "https://forge.invalid/api/v4",
        "CI_PROJECT_ID": "1",
        "CI_MERGE_REQUEST_IID": "7",
        "HTS_TOKEN": "x",
    }

    def git(*words: str) -> str:
        named = ("-c", "user.name=x", "-c", "user.email=x@example.org")
        run = subprocess.run(
            ["git", *named, *words], cwd=clone, env=surroundings, capture_output=True, text=True,
            check=True,
        )  # fmt: skip
        return run.stdout.strip()

    git("init", "-q", "-b", "main", ".")
    (clone / "library.hts").write_text(LIBRARY)
    (clone / "job.hts").write_text(SPEC)
    git("add", "-A")
    git("commit", "-qm", "first")
    base = git("rev-parse", "HEAD")
    git("checkout", "-q", "-b", "request")
    (clone / "library.hts").write_text(
        LIBRARY.replace("720", "700").replace("pipe-a {", "pipe-b {")
    )
    (clone / "hts.toml").write_text('ignore = ["unknown-name"]\nrule-packs = ["evil"]\n')
    (clone / f"{base}:job.hts").write_text(SPEC)
    (clone / "approvals.json").write_text("not JSON")
    (clone / "known.json").write_text("not JSON")
    git("add", "-A")
    git("commit", "-qm", "request")
    return clone, {**surroundings, "BASE": base, "CI_MERGE_REQUEST_DIFF_BASE_SHA": base}


def bash(
    script: str, folder: Path, surroundings: dict[str, str]
) -> subprocess.CompletedProcess[str]:
    """Run as the services do: it stops where a command fails."""
    return subprocess.run(
        ["bash", "-eo", "pipefail", "-c", script],
        cwd=folder, env=surroundings, capture_output=True, text=True, check=False,
    )  # fmt: skip


@pytest.mark.skipif(shutil.which("bash") is None, reason="the services run bash")
def test_github(request_of_a_stranger: tuple[Path, dict[str, str]]) -> None:
    clone, surroundings = request_of_a_stranger
    posted = Path(surroundings["RUNNER_TEMP"]).parent / "gh.args"
    Path(surroundings["RUNNER_TEMP"]).mkdir()
    steps = {
        step.get("name"): step for step in template("github.yml")["jobs"]["specifications"]["steps"]
    }
    ran = {
        name: bash(step["run"], clone, surroundings)
        for name, step in steps.items()
        if name not in (None, "Install")
    }
    assert ran["What changes in meaning"].returncode == 0, ran["What changes in meaning"].stderr
    table = Path(surroundings["GITHUB_STEP_SUMMARY"]).read_text()
    assert "| re-approve | job.hts |" in table and "| uses library.hts |" in table
    assert "| review | hts.toml |" in table
    assert posted.read_text().split("\n")[:3] == ["pr", "comment", "7"]
    # The settings of the request would have left it out.
    assert ran["Check"].returncode == 1 and "unknown-name" in ran["Check"].stdout
    assert ran["Layout"].returncode in (0, 1)


@pytest.mark.skipif(shutil.which("bash") is None, reason="the services run bash")
def test_gitlab(request_of_a_stranger: tuple[Path, dict[str, str]]) -> None:
    clone, surroundings = request_of_a_stranger
    posted = Path(surroundings["RUNNER_TEMP"]).parent / "curl.args"
    run = bash("\n".join(template("gitlab.yml")["specifications"]["script"]), clone, surroundings)
    assert run.returncode == 1, run.stderr
    assert "| re-approve | job.hts |" in run.stdout and "| review | hts.toml |" in run.stdout
    assert (
        "body@changes.md" in posted.read_text() and "/merge_requests/7/notes" in posted.read_text()
    )
    assert "W111" in (clone / "quality.json").read_text()


def test_the_templates_are_described() -> None:
    page = Path(ROOT, "grammar", "CI.md").read_text(encoding="utf-8")
    assert "ci/github.yml" in page and "ci/gitlab.yml" in page
    text = Path(ROOT, "grammar", "ci", "github.yml").read_text(encoding="utf-8")
    # Never code of the request with a token that can write more than comments.
    assert "pull_request_target" not in text and "contents: read" in text
