"""Which of several limits are told, on limits given by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from hts.job.compiler.derivations import _over_distances, _rival
from tests.rows import each_row


@each_row(
    ("distances", "told"),
    [
        # In their order the strictest comes first; what it covers is not told after it.
        ([None, None], []),
        ([2, 4], [2, 4]),
        ([4, 2], [4]),
        ([3, 3], [3]),
        ([None, 4], [None]),
        ([4, None], [4, None]),
        ([4, 2, None, 6], [4, None]),
    ],
)
def test_limits_over_distances(distances: list[int | None], told: list[int | None]) -> None:
    governing: Any = SimpleNamespace(
        ordered=lambda direction: [SimpleNamespace(within=one) for one in distances]
    )
    assert [one.within for one in _over_distances(governing, "maximum")] == told


@pytest.mark.parametrize(
    ("source", "above", "setter_above", "counts"),
    [
        # Another source that counts wherever the one that sets the value does.
        ("other", None, 315, True),
        ("other", None, None, True),
        ("other", 300, 315, True),
        ("other", 315, 315, True),
        ("other", 316, 315, False),
        ("other", 316, None, False),
        ("own", None, 315, False),
    ],
)
def test_the_next_strictest(
    source: str, above: int | None, setter_above: int | None, counts: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    def demand(name: str, begins: int | None, bound: int) -> Any:
        limit = SimpleNamespace(source=SimpleNamespace(name=name))
        return SimpleNamespace(limit=limit, above=begins, bounds={"maximum": bound})

    class Asked(Exception):
        """It was told how it is printed: so it is a rival."""

    def printed(*bound: object) -> None:
        assert bound == (200, "maximum", above)
        raise Asked

    setter, other = demand("own", setter_above, 150), demand(source, above, 200)
    governing: Any = SimpleNamespace(ordered=lambda direction: [setter, other], printed=printed)
    monkeypatch.setattr("hts.job.compiler.derivations.size", lambda bound: bound)
    if counts:
        with pytest.raises(Asked):
            _rival(governing, setter, "maximum")
    else:
        assert _rival(governing, setter, "maximum") is None
