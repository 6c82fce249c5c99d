"""What cannot be compiled is told by all that is missing, and nothing is made of it."""

from __future__ import annotations

import re

import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import CannotCompile, compile_spec
from tests.texts import spec_of

_JOB = re.search(r"job .*?\n}\n", BUTT, re.S)
assert _JOB is not None
_HOLD = "  hold  700 .. 730 degC for 2 h"
_PREHEAT = "  at least          150 degC\n"
_MOST = "  interpass         at most 315 degC\n"
_GOVERNED = "  governed by  asme-b31.3 edition 2018, local-heating\n"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        (((_JOB.group(), ""),), ["the file has no `job`, so its papers would have no number"]),
        (((_GOVERNED, "  governed by  local-heating\n"),
          (_HOLD, "  hold by rule for by rule"),
          (_PREHEAT, "  at least          by rule\n"), (_MOST, "")),
         ["W12/preheat: no rule gives the minimum preheat",
          "W12/preheat: no rule gives the maximum interpass temperature",
          "W12/stress-relief, step 3: no rule gives the hold temperature",
          "W12/stress-relief, step 3: no rule gives the hold time"]),
    ],
)  # fmt: skip
def test_all_that_is_missing(changes: tuple[tuple[str, str], ...], words: list[str]) -> None:
    text = BUTT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    with pytest.raises(CannotCompile) as error:
        compile_spec(spec_of(text))
    for each in words:
        assert any(each in reason for reason in error.value.reasons), error.value.reasons


def test_a_text_without_a_joint() -> None:
    with pytest.raises(CannotCompile, match="there is no joint to compile"):
        compile_spec(spec_of(f"spec 1\n{_JOB.group() if _JOB else ''}"))
