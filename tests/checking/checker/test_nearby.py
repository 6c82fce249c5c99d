"""What a whole check tells where a slip in it would show: see `nearby`."""

from __future__ import annotations

import pytest

from tests.checking.checker import nearby
from tests.checking.govern.nearby import holds, rows

_, TEXTS = rows(nearby.KEPT)


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_what_is_told_of_a_text(number: int) -> None:
    holds(TEXTS[number], nearby.told_of_text, nearby.KEPT)
