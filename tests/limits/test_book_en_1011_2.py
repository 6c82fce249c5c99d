"""EN 1011-2 method B as a limit, against a worked example of others; refused out of its range."""

import pytest

from hts.base.findings import Report
from hts.checking.checker.run import check_spec
from hts.checking.govern import authorities
from hts.checking.govern.joint import JointLimits
from tests.texts import spec_of

TEXT = """spec 1

job "Tern Island: invented" {{
  number "X"
  revision A on 2026-01-01 status for review
  governed by en-1011-2 edition 2001
}}

material plate {{
  composition C {carbon} %, Mn 1.4 %, Cu 0.2 %, Ni 0.1 %
}}

filler rod {{
  diffusible hydrogen {hydrogen} ml/100g
}}

joint W1 {{
  kind girth butt
  between plate and plate
  pipe outside diameter 500 mm
  wall {wall} mm measured
  welding "WPS-1" layers multiple filler rod heat input {heat_input} kJ/mm
}}

preheat W1 {{
  at least by rule
}}
"""


def preheat(carbon="0.18", hydrogen="5", wall="31.75", heat_input="1.26"):
    spec = spec_of(TEXT.format(carbon=carbon, hydrogen=hydrogen, wall=wall, heat_input=heat_input))
    (joint,) = spec.joints.values()
    return JointLimits(joint, None, authorities(spec, Report())).governing["preheat"]


def test_worked_example():
    # An example published in a public repository: 0.18 C, 1.4 Mn, 0.2 Cu, 0.1 Ni, 31.75 mm,
    # HD 5, 1.26 kJ/mm: CET 0.18 + 1.4/10 + 0.2/20 + 0.1/40 = 0.3325, Tp 109.7 degC; in whole
    # degrees, rounded up: 110.
    assert preheat().minimum.to("degC") == 110


@pytest.mark.parametrize(
    ("changes", "least"),
    [
        # By hand, 697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328 with CET 0.3325:
        # 231.75 + 160 tanh(1) 121.85 + 62 * 1 - 14.378 * 0.5 = 7.19 - 328 -> 80.41 -> 81
        ({"wall": "35", "hydrogen": "1", "heat_input": "0.5"}, 81),
        # at the ends of the range: d 10: tanh(0.2857) 0.2782 * 160 = 44.51; HD 20: 20^0.35 = 2.8534
        # * 62 = 176.91; Q 4: - 57.51; 231.75 + 44.51 + 176.91 - 57.51 - 328 -> 67.66 -> 68
        ({"wall": "10", "hydrogen": "20", "heat_input": "4"}, 68),
    ],
)
def test_by_hand(changes, least):
    assert preheat(**changes).minimum.to("degC") == least


@pytest.mark.parametrize(
    "changes",
    [
        {"wall": "9.9"},
        {"wall": "90.1"},
        {"hydrogen": "20.1"},
        {"heat_input": "0.49"},
        {"heat_input": "4.1"},
        {"carbon": "0.36"},
        {"carbon": "0.04"},
    ],
)
def test_no_value_out_of_range(changes):
    found = preheat(**changes)
    assert found.minimum is None
    assert {name for item in found.unanswered for name in item.names} == {"preheat_by_cet"}


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ("governed by en-1011-2 edition 2001", "preheat-too-low"),
        ("governed by local-heating", "preheat-below-estimate"),
    ],
)
def test_a_low_preheat_is_told_once(head, told):
    text = TEXT.format(carbon="0.18", hydrogen="5", wall="31.75", heat_input="1.26")
    text = text.replace("governed by en-1011-2 edition 2001", head)
    text = text.replace("at least by rule", "at least 90 degC")
    names = [found.kind.name for found in check_spec(spec_of(text))]
    assert [n for n in names if n in ("preheat-too-low", "preheat-below-estimate")] == [told], names
