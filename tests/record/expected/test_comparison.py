"""A record beside its prediction: residuals, the bore as an estimate, and no word on a verdict."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET

import jsonschema
import numpy as np
import pytest

from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from hts.generate import record_schema
from hts.job.compiler import compile_spec
from hts.paper.packet.frame import Frame
from hts.paper.packet.pages import Pages
from hts.paper.sheet import A4
from hts.predict.building import Builder, Variation
from hts.predict.course import follow
from hts.predict.setting import setting_of
from hts.predict.told import NOT_FOR, PREDICTION
from hts.record.expected import plot, words
from hts.record.expected.comparison import Comparison, compared
from hts.record.expected.json_form import predicted
from hts.record.judging import document, judge
from hts.record.plan import Plan, plan
from hts.record.record import READ, Record, Series
from tests.texts import spec_of

INSIDE = (
    "T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3",
    "T3   monitors inside         at 6:00 on weld  channel 3",
)


class _Bore(Builder):
    """A pipe whose bore loses three times as much as the specification lets expect."""

    def model(self, vary=Variation()):  # type: ignore[no-untyped-def]  # noqa: B008
        return super().model(Variation(air=12.0))


@pytest.fixture(scope="module")
def made() -> tuple[Plan, Record]:
    spec = spec_of(changed("butt", (INSIDE,)))
    case = Case(spec)
    setting = setting_of(case, next(iter(case.treatments(next(iter(case.joints()))))))
    course = follow(setting, _Bore(setting))
    series = {
        couple.tag: Series(
            couple.tag, course.couples[:, k].copy(),
            np.full(len(course.seconds), READ, dtype=np.uint8), couple.tag, "degC",
        )
        for k, couple in enumerate(setting.couples)
    }  # fmt: skip
    series["T6"].values[10:14] = np.nan
    record = Record(
        course.seconds, None, series, {}, (), (), 300.0, (), (), True
    )  # fmt: skip
    return plan(compile_spec(spec), "W12", "stress-relief"), record


@pytest.fixture(scope="module")
def comparison(made: tuple[Plan, Record]) -> Comparison:
    found = compared(*made, always=True)
    assert isinstance(found, Comparison)
    return found


def test_nobody_asks(made: tuple[Plan, Record]) -> None:
    assert compared(*made) is None


def test_the_bore_is_found_as_an_estimate(comparison: Comparison) -> None:
    bore = comparison.bore
    assert bore is not None and bore.told
    # Made with 12 W/m2K; the specification's closed and still bore stands for 4.
    assert bore.stated == 4.0
    assert bore.low <= 12.0 <= bore.high * 1.1 and bore.best > 8.0


def test_residuals_tell_the_colder_bore(comparison: Comparison) -> None:
    traces = {trace.tag: trace for trace in comparison.traces}
    assert traces["T1"].controls and abs(traces["T1"].in_hold or 0.0) < 0.5
    inside = traces["T3"]
    assert not inside.controls and inside.in_hold is not None and inside.in_hold < -2.0
    assert np.isnan(traces["T6"].recorded).any() and traces["T6"].mean is not None


def test_it_bears_on_no_verdict(made: tuple[Plan, Record], comparison: Comparison) -> None:
    text = words.write(comparison)
    flat = " ".join(text.split())
    assert PREDICTION in flat and all(line in flat for line in NOT_FOR)
    assert "an estimate and no measurement" in flat and "met:" not in text
    named = made[0].job.document
    svg = plot.picture(comparison, named, "W12", (240.0, 150.0))
    assert PREDICTION in " ".join(" ".join(ET.fromstring(svg).itertext()).split())
    page = Pages(Frame(A4))
    plot.pages(page, comparison, named, "W12")
    assert "Nothing in this section bears on a verdict" in str(page.parts)
    assert "there is none: why" in words.write("why")


def test_json_says_that_it_is_no_evidence(
    made: tuple[Plan, Record], comparison: Comparison
) -> None:
    judgement = judge(made[1], made[0])
    plain = json.loads(document.write(judgement))
    beside = json.loads(document.write(judgement, predicted(comparison)))
    told = beside.pop("predicted")
    assert beside == plain  # not a word of it differs
    assert told["evidence"] is False and told["notice"] == PREDICTION
    assert told["not_for"] == list(NOT_FOR)
    traces = {one["tag"]: one for one in told["thermocouples"]}
    assert traces["T1"]["drives_the_model"] and traces["T1"]["mean"] is None
    assert None in traces["T6"]["recorded"] and len(traces["T6"]["recorded"]) == len(
        told["seconds"]
    )
    assert traces["T3"]["in_hold"] < -2.0 and told["bore"]["stated"] == 4.0
    for what in (comparison, "why"):
        text = document.write(judgement, predicted(what))
        jsonschema.validate(json.loads(text), record_schema.schema())
    assert json.loads(document.write(judgement, predicted("why")))["predicted"]["none_because"]


def test_a_record_without_control_thermocouples(made: tuple[Plan, Record]) -> None:
    asked, record = made
    others = {tag: one for tag, one in record.series.items() if tag not in ("T1", "T1S")}
    found = compared(asked, record._replace(series=others), always=True)
    assert isinstance(found, str) and "zone top" in found
