"""A joint begun `like` another says only what differs; both together must say everything."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from hts.findings import ordered
from hts.model import Loader, Spec
from hts.text import Source
from hts.vocabulary.types import WidthValue
from tests.vocabulary.read import Told, told

Reading = Callable[[str], tuple[Spec, list[Told]]]

WHOLE = """\
spec 1
joint W1 {
  kind girth butt
  heating by resistance {
    soak band by rule
    heated band 400 mm total
    gradient band by rule
    zone top from 9:00 to 3:00
    zone bottom from 3:00 to 9:00
  }
}
"""


@pytest.fixture
def put_together(tmp_path: Path) -> Reading:
    def make(text: str) -> tuple[Spec, list[Told]]:
        spec = Spec(Source(text, "text.hts"), Loader(str(tmp_path)))
        return spec, [told(finding) for finding in ordered(spec.findings)]

    return make


def test_nothing_is_said_again(put_together: Reading) -> None:
    text = WHOLE + "joint W2, W3 like W1 {\n  cap width 30 mm\n}\njoint W4 like W1\n"
    spec, tellings = put_together(text)
    assert tellings == []
    for name in ("W2", "W3", "W4"):
        assert spec.joints[name].entry.kind == "girth butt"
        assert [zone.name for zone in spec.joints[name].zones] == ["top", "bottom"]


def test_blocks_are_laid_over_each_other(put_together: Reading) -> None:
    text = WHOLE + (
        "joint W2 like W1 {\n  heating by induction {\n    zone top from 8:00 to 4:00\n  }\n}\n"
    )
    spec, tellings = put_together(text)
    assert tellings == []
    heating = spec.joints["W2"].entry.heating
    assert heating is not None
    assert heating.method == "induction"
    assert isinstance(heating.heated_band, WidthValue)
    assert str(heating.heated_band.amount) == "400 mm"
    assert [(str(z.first), str(z.last)) for z in heating.zones] == [
        ("8:00", "4:00"),
        ("3:00", "9:00"),
    ]


def test_what_neither_says_is_missing_once(put_together: Reading) -> None:
    text = (
        "spec 1\njoint W1 {\n  kind girth butt\n}\n"
        "joint W2 like W1 {\n  heating by resistance {\n    soak band by rule\n"
        "    heated band by rule\n    zone top from 9:00 to 3:00\n  }\n}\n"
    )
    _, tellings = put_together(text)
    assert [(t.name, t.at, t.help) for t in tellings] == [
        ("missing-entry", "heating", "add, for example: gradient band by rule")
    ]


def test_what_replaces_must_be_whole(put_together: Reading) -> None:
    _, tellings = put_together(WHOLE + "joint W2 like W1 {\n  wall\n}\n")
    assert [t.name for t in tellings] == ["missing-value"]


def test_an_error_of_the_first_is_not_told_of_the_second(put_together: Reading) -> None:
    text = "spec 1\njoint W1 {\n  cap width 30 mm\n}\njoint W2 like W1 {\n  cap width 31 mm\n}\n"
    _, tellings = put_together(text)
    assert [(t.name, t.message) for t in tellings] == [
        ("missing-entry", "joint W1 has no `kind` (kind of weld)")
    ]
