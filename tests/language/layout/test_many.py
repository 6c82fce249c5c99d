"""What must hold for every text: no change but of white space, no comment lost, one pass enough."""

from __future__ import annotations

from itertools import islice
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.findings import Report
from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.generate import ROOT
from hts.language.layout import settled
from hts.language.model import Spec
from tests.fuzz.texts import grammar_text
from tests.language.layout.many import main
from tests.language.layout.texts import disarranged, fragments, good_texts
from tests.language.layout.trial import try_text
from tests.sampling import whose_turn
from tests.texts import examples

GOOD = good_texts()


@given(st.randoms(use_true_random=False))
def test_texts_from_the_grammar(random: Random) -> None:
    try_text(disarranged(random, grammar_text(random)))


@given(st.randoms(use_true_random=False))
def test_pieces_of_tokens_in_any_order(random: Random) -> None:
    try_text(fragments(random))


@given(st.text(alphabet=st.sampled_from('ab1 2/-.,:%#"{}()<=+\t\n\r°C±…t'), max_size=40))
def test_any_characters(text: str) -> None:
    try_text(text)


@pytest.mark.parametrize("name", whose_turn(GOOD, 3))
def test_white_space_in_disorder_gives_the_one_layout(name: str) -> None:
    text = GOOD[name]
    laid_out = try_text(text)
    assert laid_out is not None
    # White space that would be read otherwise gives the text itself: drawn until three differ.
    drawn = (disarranged(Random(seed), text) for seed in range(40))
    others = list(islice((other for other in drawn if other != text), 3))
    assert len(others) == 3
    for other in others:
        assert try_text(other) == laid_out


#: A check of a hundred welds that are alike tells no more than one of a few.
CHECKED = [
    pytest.param(name, marks=[pytest.mark.long] if "turnaround" in name else []) for name in GOOD
]


@pytest.mark.parametrize("name", whose_turn(CHECKED, 3))
def test_a_check_finds_the_same_before_and_after(name: str) -> None:
    """The layout changes nothing a check, the model and the rules can see."""
    text = GOOD[name]
    path = f"{ROOT}/{name if name.endswith('.hts') else 'specs/base.hts'}"
    after = settled(Source(text, name), Report())
    assert after is not None
    assert told(text, path) == told(after, path)


def told(text: str, path: str) -> list[tuple[str, str, str]]:
    spec = Spec(Source(text, path, path), examples())
    found = check_spec(spec, "2026-12-01")
    return sorted((finding.kind.code, finding.address, finding.message) for finding in found)


def test_many_texts() -> None:
    assert main(["--count", "60", "--seed", "7"]) == 0
