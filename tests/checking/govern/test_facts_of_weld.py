"""Facts about the pair, the process and the past of a weld; figures worked out by hand."""

from __future__ import annotations

import pytest

from hts.checking.govern.facts import facts_by_side
from hts.checking.rules.examples import BUTT
from hts.syntax.formula import CONDITION, Formula
from tests.rows import each_row
from tests.texts import spec_of

_PAIR = (
    BUTT.replace("joint W12 {", 'material plain {\n  grade "A106-B"\n}\n\njoint W12 {')
    .replace("between    pipe and pipe", "between    pipe and plain")
    .replace("joint W12 {", 'filler rod {\n  classification "E9018-B3"\n}\n\njoint W12 {')
    .replace(
        'multiple process "GTAW and SMAW"',
        'multiple process "141 root, SMAW fill" position 5G filler rod',
    )
    .replace("  made in    field\n", '  made in    field\n  already heated 2 h at 690 degC "x"\n')
)


def _facts(text: str) -> dict[str, object]:
    spec = spec_of(text)
    assert [f.message for f in spec.findings] == []
    return dict(next(iter(facts_by_side(spec.joints["W12"], None).values())))


@each_row(
    ("condition", "holds"),
    [
        ("lowest_p_number = 1 and highest_p_number = 5A", True),
        ("highest_p_number = 1", False),
        ("process = SMAW", True),
        ("process = SAW", False),
        ("process = 111 and process = MMA", True),
        ("process = GTAW and process = 141", True),
        ("process in (GMAW, FCAW)", False),
        ("position = 5G", True),
        ("position in (2G, PC)", False),
        ("filler_family = B3", True),
        ("filler_family in (B2, carbon-steel)", False),
        ("made_in = field", True),
        ("earlier_treatments >= 1 and earlier_hold = 2 h", True),
        ("earlier_hold > 2 h", False),
        # IIW: 0.11 + 0.45/6 + (2.20 + 0.98)/5 = 0.821 %; Ito and Bessho, Pcm: 0.11 + 0.25/30 +
        # (0.45 + 2.20)/20 + 0.98/15 = 0.3161666… %.
        ("carbon_equivalent = 0.821 %", True),
        ("pcm > 0.316 % and pcm < 0.3162 %", True),
    ],
)
def test_conditions_on_the_pair_and_its_past(condition: str, holds: bool) -> None:
    assert Formula.parse(condition, CONDITION).holds(_facts(_PAIR)) is holds  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "help"),
    [
        ("by hand", "ISO 4063"),
        ("GTAW root, SMWA fill", "did you mean SMAW?"),
        ("GTAM", "did you mean GTAW?"),
    ],
)
def test_a_text_that_names_no_process(text: str, help: str) -> None:
    (found,) = spec_of(_PAIR.replace("141 root, SMAW fill", text)).findings
    assert help in found.help


def test_a_condition_on_a_process_that_is_not() -> None:
    line = "preheat at least 150 degC when process = SMWA"
    procedure = f"\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n  {line}\n}}\n"
    findings = spec_of(_PAIR + procedure).findings
    assert any("SMWA" in found.message for found in findings)
