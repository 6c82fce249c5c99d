"""Which files of a judged record are made, and in which of them a prediction stands beside it."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.paper.sheet import A4
from hts.record.handover import handover_files

STEM = "W12-1_2-stress-relief-record"


@pytest.mark.parametrize(
    ("kinds", "comparison", "made"),
    [
        (["json", "svg"], None, {"json": "json", "svg": "svg"}),
        (["pdf"], None, {"pdf": "pdf"}),
        (["pdf"], Stub(), {"pdf": "report with it"}),
        (["json", "png"], Stub(), {"json": "document with it", "png": "png"}),
        (["svg", "xlsx"], Stub(),
         {"svg": "svg", "xlsx": "xlsx", "predicted.svg": "picture W12-1/2: stress-relief"}),
        # In words why there is none: nothing to draw.
        (["svg", "json"], "no hold", {"svg": "svg", "json": "document, no hold"}),
        ([], Stub(), {}),
    ],
)  # fmt: skip
def test_the_files_of_a_record(
    kinds: list[str], comparison: Any, made: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    for kind in handover_files.KINDS:
        monkeypatch.setitem(handover_files.KINDS, kind, lambda *_, kind=kind: kind.encode())
    told = ", no hold" if isinstance(comparison, str) else " with it"
    monkeypatch.setattr("hts.record.expected.json_form.predicted", lambda _: told)
    monkeypatch.setattr(handover_files.document, "write", lambda _, its: f"document{its}")
    monkeypatch.setattr("hts.record.handover.report.report", lambda *_: f"report{told}".encode())
    monkeypatch.setattr("hts.record.expected.plot.picture", lambda *its: f"picture {its[2]}")
    judgement: Any = Stub(plan=Stub(joint="W12-1/2", name="stress-relief", job=Stub(document=None)))
    found = handover_files.files(judgement, kinds, A4, comparison)
    ends = {kind: f"-{kind}" if kind.startswith("predicted") else f".{kind}" for kind in made}
    assert found == {f"{STEM}{ends[kind]}": text.encode() for kind, text in made.items()}
