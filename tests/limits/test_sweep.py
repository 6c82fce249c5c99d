"""Which figures of the books have a check value on both sides, and which are listed without one."""

import pytest

import hts.base.data
from hts.limits.books import books
from tests.limits.figures import places
from tests.limits.sweep import UNVALUED, unvalued
from tests.sampling import in_turn

LISTED = UNVALUED.read_text(encoding="utf-8").splitlines()


def test_what_is_listed_is_a_figure_of_a_book():
    known = {
        (id, row, ".".join(map(str, steps[2:])))
        for id in books()
        for row, steps in places(hts.base.data.load(f"books/{id}"))
    }
    assert {tuple(line.split()[:3]) for line in LISTED} <= known
    assert len(set(LISTED)) == len(LISTED)


@pytest.mark.parametrize("id", in_turn(books(), 3))
def test_every_other_figure_has_values_on_both_sides(id):
    # Where this fails: add a line to values.txt, or look at the page and list the figure with
    # python -m tests.limits.sweep.
    assert list(unvalued(id)) == [line for line in LISTED if line.split()[0] == id]
