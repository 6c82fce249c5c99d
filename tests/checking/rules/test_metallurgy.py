"""What bounds a hold: the lowest figure of every base metal and of the filler; specified carbon."""

from __future__ import annotations

import pytest

from hts.base.findings import Finding
from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.checking.govern.facts import facts_by_side, nickel_manganese
from hts.checking.rules.examples import changed
from hts.language.model import Loader, Spec
from hts.science.tables.fillers import deposit
from tests.rows import each_row
from tests.specs.found import SPECS, checked


def found(*changes: tuple[str, str], base: str = "butt") -> list[Finding]:
    return check_spec(Spec(Source(changed(base, changes), "a.hts"), Loader("/")))


def with_filler(entries: str) -> tuple[tuple[str, str], ...]:
    return (
        ("joint W12 {", f"filler rod {{ {entries} }}\n\njoint W12 {{"),
        ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod'),
    )


# ASME B31.1 Table 129.3.1, from memory: carbon steel about 725 degC.
def test_a_filler_of_carbon_steel_in_a_weld_of_p22_comes_near_its_lower_critical() -> None:
    names = {f.kind.name: f.severity for f in found(*with_filler('classification "E7018"'))}
    assert names["hold-near-lower-critical"] == "warning"


# Santella 2012, A1 of B9 weld metal: 805 + 2.5 Cr + 18.1 Mo + 19.1 Si + 37.1 V + 19.2 Nb - 63.7 C
# - 130.6 N - 60.5 Mn - 72.3 Ni; with 1.2 % Mn and 0.9 % Ni about 708 degC.
def test_the_analysis_of_a_filler_bounds_the_hold() -> None:
    rich = "composition C 0.10 %, Mn 1.2 %, Si 0.2 %, Cr 8.8 %, Mo 1.0 %, Ni 0.9 %, V 0.2 %, "
    (finding,) = [
        f
        for f in found(*with_filler(f"{rich}Nb 0.05 %, N 0.05 %"))
        if f.kind.name == "hold-near-lower-critical"
    ]
    assert finding.severity == "error"
    assert "filler rod" in finding.message


def test_a_stated_figure_does_not_hide_a_lower_tabled_one() -> None:
    changes = (('  grade        "A335 P22"', '  grade        "A106-B"\n  lower critical 790 degC'),)
    assert "hold-near-lower-critical" in [f.kind.name for f in found(*changes)]


def _spec(*changes: tuple[str, str]) -> Spec:
    return Spec(Source(changed("butt", changes), "a.hts"), Loader("/"))


def test_nickel_and_manganese_come_from_the_analysis() -> None:
    spec = _spec(*with_filler("composition Mn 0.7 %, Ni 0.6 %"))
    total = nickel_manganese(spec.file.fillers[0])
    assert total is not None
    assert str(total.to("%")) == "13/10"


# ASTM A335, from memory: 0.15 % carbon at most in P22; the analysis of the base has 0.11 %.
@pytest.mark.parametrize(
    ("entries", "carbon"),
    [
        ("", "0.15"),
        ("  specified carbon 0.12 %\n", "0.12"),
        ("  specified carbon 0.10 %\n", "0.11"),
    ],
)
def test_an_exemption_rests_on_the_specified_carbon(entries: str, carbon: str) -> None:
    spec = _spec(('  heat number  "H4471"\n', f'{entries}  heat number  "H4471"\n'))
    facts = facts_by_side(spec.joints["W12"], None)["upstream"]
    assert float(facts["specified_carbon"].to("%")) == float(carbon)  # type: ignore[union-attr]
    assert float(facts["carbon"].to("%")) == 0.11  # type: ignore[union-attr]


# AWS A5.1, A5.5, A5.28, from memory.
@each_row(
    ("classification", "alloy"),
    [
        ("E7018-1 H4R", "carbon steel"),
        ("ER70S-6", "carbon steel"),
        ("E9018-B3", "2 1/4Cr-1Mo"),
        ("ER90S-B3L", "2 1/4Cr-1Mo"),
        ("E8018-B2-H4", "1 1/4Cr-1/2Mo"),
        ("E9015-B91", "9Cr-1Mo-V"),
        ("ER90S-B9", "9Cr-1Mo-V"),
        ("ENiCrFe-3", None),
    ],
)
def test_the_deposit_of_a_classification(classification: str, alloy: str | None) -> None:
    named = deposit(classification)
    assert (named.name if named else None) == alloy


@each_row(
    ("stated", "told"),
    [
        ("  first cool below        93 degC\n", []),
        ("  first cool below        204 degC\n", []),
        ("  first cool below        205 degC\n", ["treated-before-transformed"]),
        ("", ["treated-before-transformed"]),
    ],
)
def test_practice_says_how_far_9cr_cools_first_where_nobody_does(
    stated: str, told: list[str]
) -> None:
    """204 degC with lean filler: an industry guideline of 2015, as quoted elsewhere."""
    path = SPECS / "p91-pipe.hts"
    text = path.read_text("utf-8")
    line = "  first cool below        93 degC\n"
    assert line in text
    figure = stated.removeprefix("  first cool below").strip() or "93 degC"
    text = text.replace("Weld below 93 degC", f"Weld below {figure}")
    found = checked(path, text.replace(line, stated))
    assert [finding.kind.name for finding in found] == told
