"""A slice of `python -m tests.fuzz`: damaged texts give findings, never a fault of the program."""

import re

import pytest

from hts.base.findings import Finding, Label
from hts.base.text import Source
from hts.checking.checker.all_kinds import all_kinds
from hts.checking.rules.examples import BASES
from tests.fuzz import trial
from tests.fuzz.trial import Broken, good_texts, trial_of, try_text
from tests.syntax.test_recovery import CASES

GOOD = good_texts()


_MORE = [pytest.param(hundred, marks=pytest.mark.long) for hundred in range(1, 10)]


@pytest.mark.parametrize("hundred", [0, *_MORE])
def test_damaged_texts_are_handled(hundred: int) -> None:
    for number in range(100 * hundred, 100 * hundred + 100):
        try_text(*trial_of(20260, number, GOOD))


@pytest.mark.parametrize(("text", "code", "_place"), CASES)
def test_known_damage_is_handled(text: str, code: str, _place: str) -> None:
    path, base = GOOD[0]
    assert code in {finding.kind.code for finding in try_text(path, f"{base}\n{text}")}


def test_a_number_gives_one_trial() -> None:
    assert trial_of(1, 7, GOOD) == trial_of(1, 7, GOOD)
    assert len({trial_of(1, number, GOOD)[1] for number in range(50)}) > 40


# That a fault would be seen.


def test_a_place_outside_the_text_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    kind = all_kinds()[0]
    stray = Finding(kind, "message", Label(Source("ab", "base.hts").span(1, 3)))
    monkeypatch.setattr(trial, "check_spec", lambda spec, today: [stray])
    with pytest.raises(Broken, match="outside the text"):
        try_text(*GOOD[0])


def test_runs_that_differ_are_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    kind = all_kinds()[0]
    messages = iter(["one", "other"])
    monkeypatch.setattr(
        trial,
        "check_spec",
        lambda spec, today: [Finding(kind, next(messages), Label(spec.source.span(0, 1)))],
    )
    with pytest.raises(Broken, match="differ"):
        try_text(*GOOD[0])


def test_a_text_without_end_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(trial, "PATIENCE", 1)

    def hang(spec: object, today: object) -> list[Finding]:
        while True:
            pass

    monkeypatch.setattr(trial, "check_spec", hang)
    with pytest.raises(Broken, match="still running"):
        try_text(GOOD[0][0], next(iter(BASES.values())))


@pytest.mark.parametrize("channels", ["x", "", "six channels"])
def test_a_controller_whose_channels_cannot_be_read(channels: str) -> None:
    """Seed 19, trials 245 and 851: the least of several numbers of channels, one unread."""
    for path, text in GOOD:
        at = re.search(r"^(\s*channels\s+)\d.*$", text, re.M)
        if at:
            try_text(path, text[: at.start()] + at[1] + channels + text[at.end() :])
