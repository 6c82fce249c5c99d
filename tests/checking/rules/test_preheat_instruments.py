"""What records and controls a preheat is held to what instruments of a heat treatment are."""

from __future__ import annotations

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BUTT
from tests.rows import each_row
from tests.texts import spec_of

_T6 = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_RECORDER = """\
recorder R2 {
  serial      "40-119"
  channels    12 type K range 0 .. 1200 degC
  interval    60 s
  error       +/- 1.5 degC
  resolution  1 K
  calibrated  2026-09-01 until 2027-03-01
}

recorder R1 {"""


def _told(old: str = "", new: str = "") -> list[str]:
    text = BUTT
    for before, after in (
        ("  method            resistance\n", "  method resistance\n  recorded by R2\n"),
        ("  measured by       contact", "  measured by thermocouple\n  measured by contact"),
        (_T6, f"{_T6}    T9   monitors preheat at 6:00, 80 mm upstream channel 9\n"),
        ("recorder R1 {", _RECORDER.replace(old, new)),
    ):
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return [finding.kind.name for finding in check_spec(spec_of(text), "2026-12-01")]


def test_a_right_one_has_no_finding() -> None:
    assert _told() == []


@each_row(
    ("old", "new", "name"),
    [
        ("type K", "type N", "input-of-other-type"),
        ("until 2027-03-01", "until 2026-11-01", "expired-calibration"),
        ("  calibrated  2026-09-01 until 2027-03-01\n", "", "uncalibrated-instrument"),
        ("resolution  1 K", "resolution  15 K", "coarse-resolution"),
        ('"40-119"', '"40-118"', "repeated-serial"),
    ],
)
def test_a_wrong_one_is_told(old: str, new: str, name: str) -> None:
    assert _told(old, new) == [name]
