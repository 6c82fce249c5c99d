"""Texts nobody would write: the comparison says what it can, and the same both ways."""

from fractions import Fraction
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from hts.job.comparison.approvals import Judged, approving, read_approvals, written
from hts.job.comparison.direction import amount
from hts.job.comparison.report import document, markdown, text
from tests.fuzz.texts import damaged
from tests.job.comparison.texts import FEW, both_ways, text_of


# Half as many as are usual: each is compared both ways.
@settings(max_examples=settings().max_examples // 2)
@given(seed=st.integers(0, 10**9), path=st.sampled_from(FEW), both=st.booleans())
def test_damaged(seed: int, path: object, both: bool) -> None:
    random = Random(seed)
    good = text_of(path)  # type: ignore[arg-type]
    old = damaged(random, good) if both else good
    found = both_ways(path, damaged(random, good), old)  # type: ignore[arg-type]
    judged = Judged(found, read_approvals(written(approving(found.changes, "x")), "a.json"))
    assert judged.open == [] and judged.unused == []
    for write in (text.write, document.write, markdown.write):
        assert write(judged)
    assert all(row.part for row in found.rows)


def test_a_name_that_looks_like_a_fraction_is_no_number() -> None:
    """What a damaged text leaves of a value may read `1/0`."""
    assert amount("1/0") is None and amount("0/0 mm") is None
    assert amount("1/2 in") == (Fraction(1, 2), "in")
