"""What `hts predict` makes of predictions: which it tells, for which joints alike, how it ends, and
what it writes. The predictions themselves are held in `tests/predict`; here others stand in."""

from __future__ import annotations

import json
import os
from contextlib import nullcontext
from pathlib import Path
from types import SimpleNamespace
from typing import Any
from unittest.mock import patch

import pytest

from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES
from hts.language.model.joint import Treatment
from hts.predict import document, foresee, report
from hts.predict.outlook import FAILS, HOLDS, Outlook
from hts.predict.setting import setting_of
from tests.cli.inside import hts

#: Three joints, of which the first two are alike.
MORE = "joint W13 like W12 {\n}\njoint W14 like W12 {\n  cap width 31 mm\n}\n"
TEXT = BASES["butt"].replace("preheat W12 {", f"{MORE}preheat W12, W13, W14 {{")
TEXT = TEXT.replace("for W12 {", "for W12, W13, W14 {")


def outlook(case: Case, treatment: Treatment, *verdicts: str) -> Outlook:
    """One that only says what it is of, and what became of what was asked."""
    empty: Any = Outlook._make([None] * len(Outlook._fields))
    answers = [SimpleNamespace(verdict=verdict) for verdict in verdicts]
    return empty._replace(setting=setting_of(case, treatment), answers=tuple(answers))  # type: ignore[no-any-return]


@pytest.fixture
def asked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """What the prediction was asked for; `found` is what it gives: a reason, or verdicts."""
    (tmp_path / "a.hts").write_text(TEXT, "utf-8")
    heard: dict[str, Any] = {"found": [(HOLDS,), (HOLDS, HOLDS), "the bore is filled"]}

    def stand_in(
        case: Case, chosen: list[Treatment], spread: float | None, jobs: int, tell: object
    ) -> list[Outlook | str]:
        heard.update(chosen=[each.address for each in chosen], spread=spread, jobs=jobs)
        return [
            one if isinstance(one, str) else outlook(case, treatment, *one)
            for treatment, one in zip(chosen, heard["found"], strict=False)
        ]

    monkeypatch.setattr(foresee, "foresee_all", stand_in)
    monkeypatch.setattr(
        report, "report",
        lambda one, version, title, alike: f"{one.setting.joint} of {title}: as {alike}\n",
    )  # fmt: skip
    monkeypatch.setattr(
        document, "document",
        lambda found, version, named: {"found": len(found), **named},
    )  # fmt: skip
    monkeypatch.setattr("hts.paper.predicted.files", lambda found, named: {
        f"{one.setting.joint}.svg": b"<svg/>" for one in found
    })  # fmt: skip
    return heard


def test_what_is_told(asked: dict[str, Any], tmp_path: Path) -> None:
    done = hts(tmp_path, "predict", "a.hts", "-j", "3", "--spread", "5")
    first, second = done.stdout.split("\n\n")
    assert first.startswith("W12 of a.hts, fingerprint ")
    assert first.endswith(": as ['W13, stress-relief']")
    assert second == "W14/stress-relief: not predicted: the bore is filled\n"
    assert (done.returncode, done.stderr) == (1, "")
    assert asked["chosen"] == [f"W{n}/stress-relief" for n in (12, 13, 14)]
    assert (asked["spread"], asked["jobs"]) == (5.0, 3)
    # Other machines do the work then, and this one waits.
    with patch("hts.base.cluster.connected", lambda on: nullcontext()):
        assert hts(tmp_path, "predict", "a.hts", "--on", "tcp://a:1").stdout == done.stdout
    assert asked["jobs"] == 1


@pytest.mark.parametrize(
    ("found", "code"),
    [
        ([(), (), ()], 0),
        ([(HOLDS,), (), (HOLDS, HOLDS)], 0),
        ([(HOLDS,), (HOLDS, FAILS), ()], 1),
        ([(), "not covered", ()], 1),
    ],
)
def test_how_it_ends(
    asked: dict[str, Any], tmp_path: Path, found: list[tuple[str, ...] | str], code: int
) -> None:
    asked["found"] = found
    assert hts(tmp_path, "predict", "a.hts").returncode == code
    assert (asked["spread"], asked["jobs"]) == (None, os.cpu_count())


def test_data_and_files(asked: dict[str, Any], tmp_path: Path) -> None:
    done = hts(tmp_path, "predict", "a.hts", "--format", "json", "-o", "out")
    text = done.stdout[done.stdout.index("{") :]
    told = json.loads(text)
    assert (told["found"], told["name"]) == (3, "a.hts")
    assert (told["number"], told["revision"]) == ("HT-0001", "A")
    out = tmp_path / "out"
    # Of joints alike there is one picture.
    assert sorted(os.listdir(out)) == [
        "W12.svg", "prediction.json", "prediction.sha256", "prediction.txt"
    ]  # fmt: skip
    assert (out / "prediction.json").read_text("utf-8") == text
    assert (out / "prediction.txt").read_text("utf-8").startswith("W12 of a.hts")


def test_without_a_job_there_is_no_picture(asked: dict[str, Any], tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text(f"spec 1\n{TEXT[TEXT.index('material') :]}", "utf-8")
    asked["found"] = ["the soak band is not known"] * 3
    done = hts(tmp_path, "predict", "a.hts", "--format", "json", "-o", "out")
    assert done.stderr.startswith("no picture: the file has no `job`") and done.returncode == 1
    told = json.loads(done.stdout[done.stdout.index("{") :])
    assert (told["number"], told["revision"]) == (None, None)
    assert not list((tmp_path / "out").glob("*.svg"))
