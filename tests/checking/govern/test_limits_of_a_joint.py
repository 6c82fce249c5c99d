"""What a joint is held to where its text leaves a value open; each figure worked by hand."""

from __future__ import annotations

from datetime import date

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.facts import nickel_manganese
from hts.checking.govern.joint import JointLimits
from hts.checking.govern.preheat import combined
from hts.checking.rules.examples import BASES, BUTT
from hts.language.vocabulary.segments import Hold
from tests.rows import each_row
from tests.texts import spec_of

HOLD = "  hold  700 .. 730 degC for 2 h\n"


def _changed(text: str, *changes: tuple[str, str]) -> str:
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def _held(text: str) -> tuple[JointLimits, Hold]:
    spec = spec_of(text)
    assert [finding.message for finding in spec.findings] == []
    case = Case(spec)
    (joint,) = case.joints()
    treatment = next(iter(case.treatments(joint)))
    (hold,) = [step for step in treatment.entry.segments if isinstance(step, Hold)]
    return case.limits(joint, treatment), hold


@each_row(
    ("low", "minutes", "least"),
    [
        # ASME VIII-1 Table UCS-56.1 (SI), P-number 1, 25.4 mm: 595 degC less 30, 55, 85 and 110 K
        # takes 2, 4, 10 and 20 h for 25 mm, and 15 min for each further 25 mm: 0.24 min here.
        # Above, Table UCS-56: 1 h for 25 mm, 60.96 min.
        (596, "60.96", 595),
        (595, "60.96", 595),
        (594, "120.24", 594),
        (565, "120.24", 565),
        (564, "240.24", 564),
        (540, "240.24", 540),
        (539, "600.24", 539),
        (510, "600.24", 510),
        (509, "1200.24", 509),
        (485, "1200.24", 485),
        # Farther down nothing is allowed.
        (484, "60.96", 595),
    ],
)
def test_a_hold_at_a_lower_temperature_takes_longer(low: int, minutes: str, least: int) -> None:
    text = _changed(
        BUTT,
        ('grade        "A335 P22"', 'grade        "A106-B"'),
        ("  composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %\n", ""),
        ("governed by  asme-b31.3 edition 2018", "governed by  asme-viii-1 edition 2013"),
        (HOLD, f"  hold  {low} .. 620 degC for by rule\n"),
        ("heat  to 715 degC", "heat  to 600 degC"),
        ("  rate margin  ", '  lower-temperature hold agreed "Owner\'s engineer"\n  rate margin  '),
    )
    limits, hold = _held(text)
    time = limits.hold_time(hold)
    assert time is not None and time.to("min") == Quantity.read(
        f"{minutes} min", time.dimension
    ).to("min")
    derived = limits.derived("hold temperature", "minimum")
    assert derived is not None and isinstance(derived.value, Quantity)
    assert derived.value.to("degC") == least


def test_a_hold_by_rule_is_what_all_leave_of_it() -> None:
    """ASME B31.3-2016 Table 331.1.1, P-number 5A: 675 to 760 degC. A procedure takes its part."""
    by_rule = (HOLD, "  hold  by rule for 2 h\n")
    for most, expected in ((None, (675, 760)), (740, (675, 740)), (675, (675, 675)), (674, None)):
        text = _changed(BASES["procedure"], by_rule)
        if most is not None:
            rate = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm\n"
            text = _changed(text, (rate, f"{rate}  hold temperature at most {most} degC\n"))
        limits, hold = _held(text)
        held = limits.hold_range(hold)
        ends = held and tuple(end.to("degC") for end in (held.low, held.high) if end is not None)
        assert ends == expected, most


@each_row(
    ("stated", "total"),
    [
        ("330 mm each side", "660"),
        ("330 mm total", "330"),
        # 26 mm is the thickness that governs.
        ("6 t each side", "312"),
        ("12.5 t total", "325"),
    ],
)
def test_a_stated_band_is_told_in_total(stated: str, total: str) -> None:
    text = _changed(
        BUTT,
        ("heated band    by rule", f"heated band    {stated}"),
        ("  cap width", "  governing thickness 26 mm\n  cap width"),
    )
    limits, _ = _held(text)
    assert limits.band("heated band") == Quantity.of(total, "mm", LENGTH)


@pytest.mark.parametrize(
    ("base", "walls", "total"),
    [
        # EN 1011-2 C.2.3: the sum of the ways the heat flows off, two of a butt, three of a branch,
        # of which the run gives two.
        ("butt", ("25.4",), "50.8"),
        ("butt", ("25.4", "20"), "45.4"),
        ("branch", ("26", "21"), "73"),
    ],
)
def test_combined_thickness(base: str, walls: tuple[str, ...], total: str) -> None:
    (joint,) = spec_of(BASES[base]).joints.values()
    names = [side.name for side in joint.sides]
    if base == "branch":
        assert names == ["run", "branch"]
    sizes = tuple(Quantity.of(wall, "mm", LENGTH) for wall in walls)
    assert combined(joint, sizes) == Quantity.of(total, "mm", LENGTH)


@each_row(
    ("lines", "sum_"),
    [
        ("composition C 0.05 %, Ni 0.80 %, Mn 0.70 %", "1.5"),
        # Whichever is more.
        ("composition C 0.05 %, Ni 0.80 %, Mn 0.70 %\n  nickel and manganese 1.2 %", "1.5"),
        ("composition C 0.05 %, Ni 0.40 %, Mn 0.70 %\n  nickel and manganese 1.2 %", "1.2"),
        ("composition C 0.05 %, Mn 0.70 %", None),
    ],
)
def test_nickel_and_manganese_of_a_filler(lines: str, sum_: str | None) -> None:
    text = BUTT.replace("joint W12 {", f"filler rod {{\n  {lines}\n}}\n\njoint W12 {{")
    (filler,) = spec_of(text).file.fillers
    found = nickel_manganese(filler)
    assert (found and found.to("%")) == (
        sum_ and Quantity.read(f"{sum_} %", found.dimension).to("%")
    )


def test_which_days_are_over() -> None:
    """A day is over when the next has come; what a check asked about is remembered."""
    case = Case(spec_of(BUTT))
    assert not case.past("1990-01-01") and not case.ahead("2990-01-01")
    case.today = "2026-11-30"
    assert case.past("2026-11-29") and not case.past("2026-11-30") and not case.past(None)
    assert case.ahead("2026-12-01") and not case.ahead("2026-11-30")
    eve = date(2026, 11, 30).isoformat()
    assert {"2026-11-29", "2026-11-30", eve} <= case.days
