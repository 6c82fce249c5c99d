"""The document of a judgement: every figure of it, and nothing else."""

from __future__ import annotations

import json

import pytest

from hts.record.judging import NOT_MET, document, judge
from hts.record.record import NOTE, Event
from tests.record.judging.made import (
    run,
    spec_plan,
)
from tests.record.judging.test_papers import level


def test_the_document_says_what_was_judged() -> None:
    """Every figure of a judgement, and whether its times are of a day."""
    hot = run(spec_plan(), points=level(725.0), events=[Event(NOTE, 60.25, text="a word")])
    told = json.loads(document.write(hot))
    assert (told["overall"], told["record"]["dated"]) == (NOT_MET, True)
    assert (told["record"]["seconds"], told["record"]["interval"]) == (38400.0, 60.0)
    (event,) = told["record"]["events"]
    assert (event["at"], event["at_clock"]) == (60.25, "2026-11-21 06:01:00")
    for made, written in zip(hot.verdicts, told["verdicts"], strict=True):
        assert made.requirement == written["requirement"] and made.verdict == written["verdict"]
        assert [one.sentence for one in made.failures] == [
            one["sentence"] for one in written["failures"]
        ]
        assert (written["source"] is None) == (made.source is None)
    # In range for 30/425 x 230 = 16.2 min on the way up, and longer down, which counts:
    # from 400 + 5/435 x 240 = 402.76 min to 400 + 35/435 x 240 = 419.31.
    (hold,) = told["holds"]
    assert (hold["low"], hold["high"], hold["least"], hold["longest"]) == (690, 720, 7200, None)
    assert hold["intervals"][0]["start"] == pytest.approx(402.76 * 60, abs=1)
    assert hold["intervals"][0]["end"] == pytest.approx(419.31 * 60, abs=1)
    assert [one["action"] for one in told["segments"]] == ["heat", "hold", "cool"]
    undated = hot.record._replace(start=None)
    told = json.loads(document.write(judge(undated, hot.plan)))
    assert told["record"]["dated"] is False
