"""Which treatments are predicted for a page, and what it says where none can be."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.predict import foresee
from hts.view.predictions import Predictions


def worked(joints: tuple[str, ...], monkeypatch: pytest.MonkeyPatch, **checked: Any) -> Predictions:
    treatments = [
        Stub(joint=Stub(name=joint), address=f"{joint}/{which}")
        for joint in ("W1", "W2") for which in ("bake", "stress-relief")
    ]  # fmt: skip
    monkeypatch.setattr(foresee, "treatments_of", lambda case: treatments)
    monkeypatch.setattr(foresee, "foresee", lambda case, treatment: f"no figures of {case}")
    found = Predictions(
        Stub(**{"case": "text", "errors": 0, "refused": "", **checked}), joints, "a"
    )  # type: ignore[arg-type]
    assert (found.state, found.finished) == ("a.0.0", False)
    found.work()
    assert found.finished
    return found


@pytest.mark.parametrize(
    ("joints", "addresses"),
    [
        ((), ["W1/bake", "W1/stress-relief", "W2/bake", "W2/stress-relief"]),
        (("W2",), ["W2/bake", "W2/stress-relief"]),
        (("W2", "W1"), ["W1/bake", "W1/stress-relief", "W2/bake", "W2/stress-relief"]),
        (("W3",), []),
    ],
)
def test_the_joints_that_are_asked_for(
    joints: tuple[str, ...], addresses: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    found = worked(joints, monkeypatch)
    assert list(found.found) == addresses and found.refused == ""
    assert found.state == f"a.{len(addresses)}.1"


@pytest.mark.parametrize(
    ("checked", "refused"),
    [
        ({"errors": 1}, "the text has errors"),
        ({"case": None, "refused": "it is no specification"}, "it is no specification"),
    ],
)
def test_why_nothing_is_predicted(
    checked: dict[str, Any], refused: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = worked((), monkeypatch, **checked)
    assert (found.refused, found.found) == (refused, {})
