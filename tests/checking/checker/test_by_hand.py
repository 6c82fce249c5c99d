"""Small parts of a check, each by values put together by hand."""

from __future__ import annotations

import pytest

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Source
from hts.checking.checker.once import implausible_once
from hts.checking.checker.run import check_case
from hts.checking.checker.shards import _offsets
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BUTT
from hts.checking.rules.quantities.implausible_value import RULE
from tests.texts import spec_of

OTHER = Kind("X101", "other-thing", "error", "Summary.", "Why.", "Fix.")
TEXT, ELSEWHERE = Source("wall 2540 mm measured\n", "a.hts"), Source("wall 2540 mm\n", "b.hts")


@pytest.mark.parametrize(
    ("source", "start", "end", "beside", "told"),
    [
        (TEXT, 5, 12, False, ["X101"]),
        (TEXT, 0, 6, False, ["X101"]),
        (TEXT, 11, 21, False, ["X101"]),
        (TEXT, 0, 21, True, ["X101"]),
        # Just before it, just behind it, and in another text.
        (TEXT, 0, 5, False, ["Q203", "X101"]),
        (TEXT, 12, 21, True, ["Q203", "X101"]),
        (ELSEWHERE, 5, 12, False, ["Q203", "X101"]),
    ],
)
def test_an_implausible_value_another_points_at_is_told_once(
    source: Source, start: int, end: int, beside: bool, told: list[str]
) -> None:
    implausible = Finding(RULE.kind, "implausible", Label(TEXT.span(5, 12)))
    at, label = ELSEWHERE.span(0, 4), Label(source.span(start, end))
    other = Finding(
        OTHER, "other", Label(at) if beside else label, others=[label] if beside else []
    )
    assert [each.kind.code for each in implausible_once([implausible, other])] == told
    assert implausible_once([implausible]) == [implausible]
    assert implausible_once([other]) == [other]


@pytest.mark.parametrize(
    ("line", "column", "end_line", "end_column", "offsets"),
    [
        (1, 1, 1, 1, (0, 0)),
        (1, 6, 1, 10, (5, 9)),
        (1, 1, 2, 1, (0, 22)),
        # Where the text ends, but not behind it, and not backwards.
        (2, 1, 2, 1, (22, 22)),
        (2, 2, 2, 2, None),
        (1, 6, 1, 5, None),
        (0, 1, 1, 1, None),
        (1, 0, 1, 1, None),
        (1, 1, 0, 1, None),
        (1, 1, 1, 0, None),
    ],
)
def test_a_place_told_by_lines_and_columns(
    line: int, column: int, end_line: int, end_column: int, offsets: tuple[int, int] | None
) -> None:
    data = {"line": line, "column": column, "end_line": end_line, "end_column": end_column}
    if offsets is None:
        with pytest.raises(ValueError):
            _offsets(TEXT, data)
    else:
        assert _offsets(TEXT, data) == offsets


def test_a_plain_check_predicts_what_is_asked_for_and_nothing_else() -> None:
    case = Case(spec_of(BUTT))
    assert check_case(case) == []
    assert (case.predicts, case.never_predicts, case.unpredicted) == (False, False, {})
