"""The share of hydrogen a bake left, worked by hand from the series for a plane sheet (Crank, The
Mathematics of Diffusion, 2nd ed. 1975, eq. 4.18, from memory) with the diffusivity measured at
310 degC, 5.1e-5 cm2/s (Coe and Moreton 1969)."""

from __future__ import annotations

import numpy as np
import pytest

from hts.checking.rules.examples import BASES, changed
from hts.job.compiler import compile_spec
from hts.record.judging import MET, NOT_MET, NOT_SHOWN, judge
from hts.record.plan import Plan, plan
from tests.record.judging.made import course, every, record, run, verdict
from tests.rows import each_row
from tests.texts import spec_of

NAME = "hydrogen left"
LINING = "  lining            none\n"
#: 5 h at 310 degC: 0.918 cm2. Both faces of 25.4 mm free: 8 / pi2 x exp(-pi2 x 0.14229) = 19.9 %;
#: one face, as twice the wall: 8 / pi2 (exp(-pi2 x 0.03557) + exp(-9 pi2 x 0.03557) / 9) = 57.4 %.
BAKED = ((0.0, 310.0), (300.0, 310.0))


def bake(most: str, lining: str = "none", metal: tuple[tuple[str, str], ...] = ()) -> Plan:
    said = f"  lining            {lining}\n  hydrogen left at most {most} %\n"
    assert LINING in BASES["bake"]
    return plan(compile_spec(spec_of(changed("bake", ((LINING, said), *metal)))), "W12", "bake")


@each_row(
    ("most", "lining", "outcome", "actual"),
    [
        ("20", "none", MET, "about 20 %"),
        ("19", "none", NOT_MET, "about 20 %"),
        ("58", "left", MET, "about 57.5 %"),
        ("57", "left", NOT_MET, "about 57.5 %"),
    ],
)
def test_the_share_left(most: str, lining: str, outcome: str, actual: str) -> None:
    found = verdict(run(bake(most, lining), points=BAKED), NAME)
    assert found.verdict == outcome
    assert found.actual.startswith(f"{actual} left in 25.4 mm (T")
    assert [one.sentence.endswith(f", {most} % is the most") for one in found.failures] == [
        True
    ] * (outcome == NOT_MET)


#: 5 h at 1e-5 cm2/s, 0.18 cm2 (a slow bound from memory, no source): 8 / pi2 x (exp(-0.27537) +
#: exp(-2.4783) / 9 + exp(-6.884) / 25) = 62.3 %; at 249 degC nothing is
#: counted. As carbon steel at 6.2e-5 cm2/s, 1.116 cm2: 8 / pi2 x exp(-1.70725) = 14.701 %.
CHROMIUM = (('"A335 P22"', '"A335 P5"'), ("Cr 2.20 %, Mo 0.98 %", "Cr 5.00 %, Mo 0.50 %"))


@pytest.mark.parametrize(
    ("most", "degrees", "outcome", "actual"),
    [
        ("63", 310.0, MET, "about 62.4 % left in 25.4 mm (T4), or 20 % were it carbon steel"),
        ("62", 310.0, NOT_SHOWN, "about 62.4 % left in 25.4 mm (T4), or 20 % were it carbon steel"),
        ("19", 310.0, NOT_MET, "about 62.4 % left in 25.4 mm (T4), or 20 % were it carbon steel"),
        (
            "90",
            249.0,
            NOT_SHOWN,
            "about 100 % left in 25.4 mm (T4), or 14.8 % were it carbon steel",
        ),
    ],
)
def test_steel_that_hydrogen_leaves_slowly(
    most: str, degrees: float, outcome: str, actual: str
) -> None:
    points = ((0.0, degrees), (300.0, degrees))
    found = verdict(run(bake(most, metal=CHROMIUM), points=points), NAME)
    assert (found.verdict, found.actual) == (outcome, actual)


def test_the_coldest_place_counts_and_none_leaves_it_below_100_degc() -> None:
    found = verdict(run(bake("90"), {"T2": ((0.0, 99.0), (300.0, 99.0))}, points=BAKED), NAME)
    assert (found.verdict, found.actual) == (NOT_MET, "about 100 % left in 25.4 mm (T2)")


def test_time_without_readings_takes_none_out_and_is_not_shown() -> None:
    """Half of 5 h blank: at most 2.5 h are counted, after which 8 / pi2 exp(-0.7022) = 40.2 %."""
    asked, times = bake("20"), every(60.0, 300.0)
    courses = {one.tag: course(BAKED, times) for one in asked.watched}
    courses["T1"] = np.where(times < 150 * 60.0 + 1, courses["T1"], np.nan)
    found = verdict(judge(record(courses, times), asked), NAME)
    assert (found.verdict, found.actual) == (NOT_SHOWN, "about 40.2 % left in 25.4 mm (T1)")
