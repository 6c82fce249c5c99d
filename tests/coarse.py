"""Predictions in a small part of the time, for tests that ask only that there are some."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from hts.predict import foresee


@contextmanager
def coarse() -> Iterator[None]:
    """What is predicted meanwhile is told, read and put on paper the same, from few samples, long
    steps and wide cells."""
    _forget()
    with pytest.MonkeyPatch.context() as patch:
        for place, value in (
            ("foresee._SAMPLES", 4), ("course._STEP", 1800.0), ("course._MOST", 40),
            ("building._CELLS", 8),
        ):  # fmt: skip
            patch.setattr(f"hts.predict.{place}", value)
        yield
    _forget()


def _forget() -> None:
    """Nobody else is to be given what is kept of it."""
    for kept in (foresee._kept, foresee._followed, foresee._widths):
        kept.cache_clear()
