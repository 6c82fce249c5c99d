"""Runs whose outcomes are kept, and how they are compared."""

from __future__ import annotations

from pathlib import Path

from hts.checking.checker.check_paths import check_paths
from hts.checking.checker.results import Results
from hts.checking.report.formats import FORMATS, written

#: Files enough for the cache.
COUNT = 30


def everything(results: Results) -> dict[str, str | int]:
    """A run in every form it is compared by."""
    return {"exit code": results.exit_code, **{form: written(form, results) for form in FORMATS}}


def run(root: Path, kept: str | None, **more: object) -> Results:
    return check_paths([str(root)], jobs=1, cache=kept, **more)  # type: ignore[arg-type]
