"""Texts where a slip in a whole check would show, and some of what is told of them.

Each was found by `python -m tests.mutants.governing --room checker`; a row of `nearby.txt` is that
of a text in `tests.checking.govern.nearby`.
"""

from __future__ import annotations

from pathlib import Path

from hts.checking.checker.run import check_case
from hts.checking.govern.case import Case
from tests.checking.govern.nearby import TODAY
from tests.checking.rules.nearby import Nearby, in_full

KEPT = Path(__file__).with_name("nearby.txt")


def told_of_text(place: Nearby) -> list[str]:
    spec = place.spec()
    assert spec is not None, place
    case = Case(spec, TODAY)
    lines = [f"{each.kind.code} {in_full(each)}" for each in check_case(case)]
    lines += [
        f"waived {finding.kind.code} {finding.address}: {why}" for finding, why in case.waived
    ]
    return [*lines, f"in all {len(lines)} lines"]
