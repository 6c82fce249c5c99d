"""What each rule tells near its examples, where a slip in it would show: see `nearby`."""

from __future__ import annotations

import os

from hts.checking.rules.catalogue import rules
from tests.checking.rules import nearby
from tests.checking.rules.nearby import Row
from tests.rows import each_row

_BY_NAME = {rule.kind.name: rule for rule in rules()}
_KEPT = nearby.rows()


@each_row("name", sorted(_KEPT))
def test_what_it_tells_near_its_examples(name: str) -> None:
    rule = _BY_NAME.get(name)
    told = [None if rule is None else nearby.told(rule, row.place) for row in _KEPT[name]]
    if os.environ.get("TELL_ANEW"):
        now = [
            Row(row.place, nearby.shortened(found))
            for row, found in zip(_KEPT[name], told, strict=True)
            if found is not None
        ]
        nearby.write({**nearby.rows(), name: now})
        return
    for row, found in zip(_KEPT[name], told, strict=True):
        assert found is not None, f"an example has changed; TELL_ANEW=1 forgets {row.place}"
        assert nearby.shortened(found) == row.told, (
            f"of {row.place}: {[nearby.in_full(each) for each in found]}"
        )
