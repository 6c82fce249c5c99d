"""A joint begun `like` another says only what differs; both together must say everything."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from hts.base.findings import ordered
from hts.base.text import Source
from hts.language.model import Loader, Spec
from hts.language.vocabulary import joint as words
from hts.language.vocabulary.types import WidthValue
from tests.language.vocabulary.read import Told, told

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


LONG = WHOLE.replace(
    "  heating by",
    """\
  support "rod hanger" 1 m upstream fixed
  support "spring hanger" 2 m downstream locked
  service steam
  thermocouples type K class 1 {
    colours IEC 60584-3
    T1 controls top at 12:00 on weld channel 1
    T2 controls bottom at 6:00 on weld channel 2
    T3 monitors weld at 3:00 on weld channel 3
  }
  heating by""",
)


def test_what_does_not_hold_is_left_out(put_together: Reading) -> None:
    text = LONG + (
        "joint W2 like W1 {\n  without support, service\n"
        "  heating by resistance { without zone bottom }\n"
        "  thermocouples type K class 1 {\n    without T2, T3\n"
        "    T4 monitors weld at 9:00 on weld channel 4\n  }\n}\n"
    )
    spec, tellings = put_together(text)
    assert tellings == []
    first, second = spec.joints["W1"], spec.joints["W2"]
    assert [support.what for support in first.entry.supports] == ["rod hanger", "spring hanger"]
    assert not second.entry.supports and not second.entry.service
    assert [zone.name for zone in second.zones] == ["top"]
    assert [tc.tag for tc in second.thermocouples] == ["T1", "T4"]
    assert [tc.tag for tc in first.thermocouples] == ["T1", "T2", "T3"]


def test_what_is_left_out_can_be_said_anew(put_together: Reading) -> None:
    text = LONG + (
        'joint W2 like W1 {\n  without support\n  support "clamp" 1 m upstream temporary\n}\n'
        "joint W3 like W2\n"
    )
    spec, tellings = put_together(text)
    assert tellings == []
    for name in ("W2", "W3"):
        assert [support.what for support in spec.joints[name].entry.supports] == ["clamp"]


@pytest.mark.parametrize(
    ("joint", "message"),
    [
        ("joint W2 like W1 {\n  without nearby\n}\n", "the joint W2 is like has no nearby"),
        ("joint W2 {\n  kind seal\n  without support\n}\n", "W2 is not `like` another joint"),
        (
            "joint W2 like W1 {\n  thermocouples type K class 1 { without T9 }\n}\n",
            "the joint W2 is like has no T9",
        ),
        (
            "joint W2 like W1 {\n  heating by resistance { without zone left }\n}\n",
            "the joint W2 is like has no left",
        ),
    ],
)
def test_nothing_to_leave_out(put_together: Reading, joint: str, message: str) -> None:
    _, tellings = put_together(LONG + joint)
    assert [(t.name, t.message) for t in tellings] == [("nothing-left-out", message)]


def test_all_that_can_be_left_out_is_optional() -> None:
    fields = {" ".join(field.words): field for field in words.Joint.fields.values()}
    assert not any(fields[said].required for said in words.LEFT_OUT)


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
