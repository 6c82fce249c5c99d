"""Cases of which the common run of the tests takes a few, and the long one all."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def thinned(cases: Iterable[Any], every: int) -> list[Any]:
    """Each so many-th case as it is, the others marked as long; a tuple is several arguments."""
    return [
        pytest.param(
            *(case if isinstance(case, tuple) else (case,)),
            marks=[pytest.mark.long] if number % every else [],
        )
        for number, case in enumerate(cases)
    ]
