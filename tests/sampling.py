"""Cases of which the common run of the tests takes a few, and the long one all."""

from __future__ import annotations

import os
from collections.abc import Iterable
from typing import Any, TypeVar

import pytest

#: Of what is tried by number each run of `.ci/run` takes another part: the turn is the number of
#: commits, so that the same commit tries the same again. HTS_TESTS_TURN=all: every part.
_ASKED = os.environ.get("HTS_TESTS_TURN", "0")
_Case = TypeVar("_Case")
TURN = 0 if _ASKED == "all" else int(_ASKED)


def in_turn(cases: Iterable[Any], parts: int) -> list[Any]:
    """The cases whose turn it is, one of so many parts of all; marked as long."""
    return [
        pytest.param(*(case if isinstance(case, tuple) else (case,)), marks=pytest.mark.long)
        for number, case in enumerate(cases)
        if _ASKED == "all" or number % parts == TURN % parts
    ]


def whose_turn(cases: Iterable[_Case], parts: int = 2) -> list[_Case]:
    """The cases whose turn it is, one of so many parts of all, also in the common run: where a case
    takes long and says much the same as its neighbours, the next commit looks at those."""
    return [
        case
        for number, case in enumerate(cases)
        if _ASKED == "all" or number % parts == TURN % parts
    ]


def thinned(cases: Iterable[Any], every: int) -> list[Any]:
    """Each so many-th case as it is, the others marked as long; a tuple is several arguments."""
    return [
        pytest.param(
            *(case if isinstance(case, tuple) else (case,)),
            marks=[pytest.mark.long] if number % every else [],
        )
        for number, case in enumerate(cases)
    ]
