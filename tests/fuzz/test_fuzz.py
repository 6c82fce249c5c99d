"""A slice of `python -m tests.fuzz`: damaged input gives findings, never a fault of the program."""

import re
from collections.abc import Iterator

import pytest

from hts.base.findings import Finding, Label
from hts.base.text import Source
from hts.checking.checker.all_kinds import all_kinds
from hts.checking.rules.examples import BASES
from tests.fuzz import trial
from tests.fuzz.areas import Trial
from tests.fuzz.looks import look, whole
from tests.fuzz.run import Broken, Ran, alarm
from tests.fuzz.trial import good_texts, trial_of, try_text
from tests.fuzz.trials import trial_of as command_of
from tests.fuzz.trials import try_one
from tests.fuzz.workplace import Workplace
from tests.rows import each_row
from tests.sampling import in_turn
from tests.syntax.test_recovery import CASES

GOOD = good_texts()


#: Each of fifty trials.
_PARTS = [0, *in_turn(range(1, 20), 3)]


@pytest.mark.parametrize("part", _PARTS)
def test_damaged_texts_are_handled(part: int) -> None:
    for number in range(50 * part, 50 * part + 50):
        try_text(*trial_of(20260, number, GOOD))


@pytest.fixture(scope="module")
def place() -> Iterator[Workplace]:
    with pytest.MonkeyPatch.context() as kept:
        for name in ("HTS_CACHE_DIR", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "HTS_CACHE_KEY",
                     "HTS_DEBUG"):  # fmt: skip
            kept.setenv(name, "")
        made = Workplace()
        yield made
        made.close()


@pytest.mark.parametrize("part", _PARTS)
def test_every_command_takes_what_it_is_given(place: Workplace, part: int) -> None:
    """Inputs of any area."""
    broken = []
    for each in range(50 * part, 50 * part + 50):
        area, trial = command_of(20261, each, place)
        outcome = try_one(area, each, trial, place)
        if outcome.failure:
            broken.append(outcome)
    assert not broken


def test_what_a_trial_leaves_is_put_back(place: Workplace) -> None:
    trial = Trial({"base-butt.hts": b"spoiled"}, ("check", "base-butt.hts"))
    place.write({**trial.files, "new.hts": b""})
    assert place.changed(trial.files) == ["new.hts"]
    place.put_back()
    assert place.changed({}) == []


@pytest.mark.parametrize(
    ("ran", "said"),
    [
        (Ran(3, "", "", 0), "exit code 3"),
        (Ran(2, "", " ", 0), "does not say why"),
        (Ran(1, "", "", 0), "nothing is said"),
        (Ran(2, "a fault of hts 1 (ValueError)", "", 0), "a fault of hts"),
        (Ran(1, "\x1b[2J", "", 0), "steers a terminal"),
        (Ran(0, "", "", 0, frozenset({"4711"})), "still runs"),
    ],
)
def test_a_wrong_end_of_a_command_is_seen(place: Workplace, ran: Ran, said: str) -> None:
    with pytest.raises(Broken, match=said):
        look(Trial({}, ("check", "base-butt.hts")), ran, place)


def test_files_half_written_are_seen(place: Workplace) -> None:
    trial = Trial({}, ("compile", "base-butt.hts", "-o", "out"), ("out",))
    for name, content in (("a.json", b'{"a": '), ("a.svg", b"<svg>"), ("a.pdf", b"%PDF-1.7\n"),
                          ("a.xlsx", b"PK"), ("a.csv", b"\xff")):  # fmt: skip
        place.write({name: content})
        with pytest.raises(Broken, match="not whole"):
            whole(name)
        with pytest.raises(Broken, match="changed what it should not"):
            look(trial, Ran(0, "", "", 0), place)
        place.put_back()


@each_row(("text", "code", "_place"), CASES)
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
    def hang(spec: object, today: object) -> list[Finding]:
        while True:
            pass

    monkeypatch.setattr(trial, "check_spec", hang)
    with pytest.raises(Broken, match="still running"), alarm(0.05):
        try_text(GOOD[0][0], next(iter(BASES.values())))


@pytest.mark.parametrize("channels", ["x", "", "six channels"])
def test_a_controller_whose_channels_cannot_be_read(channels: str) -> None:
    """Seed 19, trials 245 and 851: the least of several numbers of channels, one unread."""
    for path, text in GOOD:
        at = re.search(r"^(\s*channels\s+)\d.*$", text, re.M)
        if at:
            try_text(path, text[: at.start()] + at[1] + channels + text[at.end() :])
