"""What the text says of each item that a chart is asked to bear."""

from __future__ import annotations

from hts.checking.rules.examples import BASES
from hts.language.model import Spec
from hts.language.model.on_chart import BY_HAND, on_chart
from tests.rows import each_row
from tests.texts import spec_of

WHOLE = BASES["bake"]
for old, new in (
    ('  number       "HT-0001"', '  client       "Tern Island Energy"\n  number       "HT-0001"'),
    ("  kind       girth butt", '  kind       girth butt\n  drawing    "ISO-7"\n  line "HD-1"'),
    ('process "GTAW and SMAW"', 'process "GTAW and SMAW" welder "W-3", "W-9"'),
    ('  serial      "40-118"', '  serial      "40-118"\n  chart speed 25 mm/h'),
):
    assert old in WHOLE
    WHOLE = WHOLE.replace(old, new, 1)

EXPECTED = {
    "client": "Tern Island Energy",
    "document number": "HT-0001",
    "drawing": "ISO-7",
    "line": "HD-1",
    "joint": "W12",
    "cycle": "stress-relief",
    "chart speed": "25 mm/h",
    "recorder serial": "40-118",
    "welder": "W-3, W-9",
    "material": "A335 P22",
    "heat number": "H4471",
    # NPS 12 of ASME B36.10M is 323.8 mm.
    "size and wall": "323.8 mm × 25.4 mm",
    "channels": "1 T1, 2 T2, 7 T1S, 8 T2S, 3 T3, 4 T4, 5 T5, 6 T6",
    "thermocouple places": "as on the map of thermocouples",
    "calibration": "2026-09-01 until 2027-03-01",
    **dict.fromkeys(BY_HAND, ""),
}


def said(spec: Spec, item: str) -> str | None:
    return on_chart(item, spec, spec.joints["W12"])


@each_row("item", EXPECTED)
def test_what_the_text_says(item: str) -> None:
    assert said(spec_of(WHOLE), item) == EXPECTED[item]


def test_what_a_bare_text_does_not_say() -> None:
    bare = spec_of("spec 1\njoint W12 {\n  kind girth butt\n}\n")
    assert [said(bare, item) for item in EXPECTED if item not in BY_HAND] == [
        "W12" if item == "joint" else None for item in EXPECTED if item not in BY_HAND
    ]


def test_two_metals_and_sizes() -> None:
    text = """spec 1
material a {
  grade "A106-B"
  heat number "H1"
}
material b {
  heat number "H2", "H3"
  p-number 4
}
joint W12 {
  kind girth butt
  side upstream of a outside diameter 300 mm wall 20 mm
  side downstream of b outside diameter 310 mm wall 20 mm
}
"""
    spec = spec_of(text)
    assert said(spec, "material") == "A106-B and b"
    assert said(spec, "heat number") == "H1, H2, H3"
    assert said(spec, "size and wall") == "300 mm × 20 mm and 310 mm × 20 mm"
