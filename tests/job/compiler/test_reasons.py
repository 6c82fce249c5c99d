"""Derived values carry their formula, numbers, source and what they prevailed over."""

from fractions import Fraction as F

from hts.base.quantities import Quantity
from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.job.compiler.derivations import Derivation
from tests.texts import spec_of


def compiled(text: str = BUTT) -> Job:
    return compile_spec(spec_of(text, "x.hts"))


def derived(job: Job, quantity: str, direction: str = "minimum") -> Derivation:
    sheet = job.joints[0]
    every = (*sheet.derived, *(d for run in sheet.runs for d in run.program.derived))
    return next(d for d in every if (d.quantity, d.direction) == (quantity, direction))


def test_soak_band_governs_over_the_other_book() -> None:
    # ASME VIII-1 UW-40(a): weld width and on each side the lesser of t and 50 mm:
    # 30 + 2 * 25.4 = 80.8 mm. ASME B31.3 331.2.6 (from memory): weld width + 25 mm each side:
    # 30 + 50 = 80 mm. The first is the stricter by 0.8 mm.
    one = derived(compiled(), "soak band")
    assert isinstance(one.value, Quantity) and one.value.value == F(808, 10)
    assert one.why.source == "local-heating"
    assert one.why.numbers == "30 mm + 2 × min(25.4 mm, 50 mm)"
    assert one.rival is not None
    assert one.rival.why.source == "asme-b31.3" and one.rival.why.edition == "2018"
    assert isinstance(one.rival.margin, Quantity) and one.rival.margin.value == F(8, 10)


def test_rate_says_from_where_it_counts_and_on_what_it_rests() -> None:
    one = derived(compiled(), "heating rate", "maximum")
    assert one.above is not None and one.above.value == 315
    assert (one.why.basis, one.why.source) == ("memory", "asme-b31.3")


def test_widths_on_each_side_are_half_of_the_total() -> None:
    bands = {band.name: band for band in compiled().joints[0].bands}
    soak = bands["soak band"]
    assert soak.total is not None
    assert (soak.total.value, soak.each.value) == (F(808, 10), F(404, 10))
    assert soak.datum == "weld centreline"
    # Beside the weld: 75 mm on each side of it, not of its centreline.
    preheat = bands["preheat width"]
    assert (preheat.total, preheat.each.value) == (None, 75)
    assert preheat.datum == "edge of the weld"
    assert preheat.why.basis == "stated"
    line = BUTT[: BUTT.index("width             75 mm")].count("\n") + 1
    assert preheat.why.citation == f"x.hts line {line}"


def test_limits_that_lack_a_fact_are_told() -> None:
    text = BUTT.replace("  cap width  30 mm\n", "").replace(
        "soak band      by rule", "soak band      90 mm total"
    )
    sheet = compiled(text).joints[0]
    lacking = {name for one in sheet.undecided for name in one.lacks}
    assert "cap_width" in lacking
