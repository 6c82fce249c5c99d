"""A comparison of texts makes no predictions, and says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.govern import case
from hts.job.comparison import compare
from hts.job.comparison.approvals import Judged
from hts.job.comparison.report import document, markdown, text
from tests.job.comparison.texts import GOOD, spec, text_of

HEADER = next(path for path in GOOD if path.stem == "p22-header")
ASKED = text_of(HEADER).replace("  rate margin", "  predict soak band\n  rate margin", 1)


def test_it_says_what_was_not_compared(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object) -> None:
        raise AssertionError("a prediction was made")

    monkeypatch.setattr(case, "foreseen", never)
    found = Judged(compare(spec(HEADER, ASKED), spec(HEADER, ASKED.replace("for 2 h", "for 3 h"))))
    said = "predictions of W12/stress-relief are not compared: a check makes them"
    for write in (text.write, markdown.write):
        assert said in write(found)
    assert '"not_predicted": [\n  "W12/stress-relief"\n ]' in document.write(found)


def test_nothing_is_said_where_nobody_asks() -> None:
    path: Path = HEADER
    found = Judged(compare(spec(path), spec(path, text_of(path).replace("for 2 h", "for 3 h"))))
    assert "predictions" not in text.write(found)
