"""The table of what must agree with what: its places exist, and each row is held by a rule."""

from __future__ import annotations

from hts.job.explain.rules import agreement
from hts.language.vocabulary.paths import find
from hts.language.vocabulary.spec import File

ROWS = agreement()


def test_there_are_rows() -> None:
    assert len(ROWS) >= 20
    places = [row.place for row, _ in ROWS]
    assert places == sorted(places)
    assert len({(row.place, row.other, row.relation) for row, _ in ROWS}) == len(ROWS)


def test_a_row_names_places_of_the_language() -> None:
    for row, rule in ROWS:
        find(File, row.place)
        find(File, row.other)
        assert row.relation, row
        assert rule.bad, row
