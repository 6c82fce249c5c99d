"""What is said of a whole block that came or went, and of texts that cannot be read."""

from __future__ import annotations

import pytest

from hts.job.comparison import compare
from tests.job.comparison.texts import named, one, spec, text_of

P22 = named("p22-header")
TEXT = text_of(P22)
_START = TEXT.index("  history {")
HISTORY = TEXT[_START : TEXT.index("\n  }\n", _START) + 5]


@pytest.mark.parametrize(
    ("left_out", "words"),
    [
        # Each line tells revision, day and text; one an approval, the other a section.
        ((), "history { 8 facts }"),
        ((' section "Heating"',), "history { 7 facts }"),
        ((' section "Heating"', ' approved by "Owner\'s engineer"'), "6"),
    ],
)
def test_a_block_is_told_in_full_up_to_six_facts(left_out: tuple[str, ...], words: str) -> None:
    history = HISTORY
    for each in left_out:
        assert history.count(each) == 1, each
        history = history.replace(each, "")
    old, new = TEXT.replace(HISTORY, history), TEXT.replace(HISTORY, "")
    change = one(compare(spec(P22, old), spec(P22, new)), "document/history")
    assert change.old is not None and change.new is None
    told = change.old.text
    if words == "6":
        assert told.startswith("history { ") and told.count("; ") == 5, told
    else:
        assert told == words


@pytest.mark.parametrize(
    ("old", "new", "action"),
    [("good", "bad", "added"), ("bad", "good", "removed"), ("bad", "worse", "changed")],
)
def test_a_text_that_cannot_be_read(old: str, new: str, action: str) -> None:
    texts = {"good": TEXT, "bad": TEXT.replace("  kind                 girth butt\n", "")}
    texts["worse"] = texts["bad"].replace("  show         SI and US", "  show         SI und US")
    found = compare(spec(P22, texts[old]), spec(P22, texts[new]))
    change = one(found, "document/unreadable text")
    assert change.action == action
    assert (change.old is None, change.new is None) == (old == "good", new == "good")
    errors = {"bad": "1 error", "worse": "2 errors"}
    for name, side in ((old, change.old), (new, change.new)):
        assert side is None or side.text.startswith(errors[name]), side
