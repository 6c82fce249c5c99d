"""What changed since the last commit, as the page tells it."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from hts.job.comparison.registry import VERDICTS
from hts.view.changes import Since, changes, in_short
from tests.job.comparison.texts import changed, named

P22 = named("p22-header")
SOME = (
    ("for 2 h at most 6 h", "for 90 min at most 6 h"),
    ('  permit          "HW-224"\n', ""),
    ('  copy to         "Owner\'s inspector"\n',
     '  copy to         "Owner\'s inspector"\n  copy to         "Welding engineer"\n'),
)  # fmt: skip


def _nowhere(_: object) -> str:
    return ""


@pytest.mark.parametrize("some", [SOME, SOME[:1], SOME[1:]])
def test_each_change_with_both_sides(some: tuple[tuple[str, str], ...]) -> None:
    found = changed(P22, *some)
    page = str(changes(Since(found), _nowhere))
    rows = re.findall(r"<tr>(.*?)</tr>", page.partition("<tbody>")[2], re.S)
    assert len(rows) == len(found.changes) > 0
    order = [v for row in rows for v in VERDICTS if f'class="state {v}"' in row]
    assert order == sorted(order, key=VERDICTS.index)
    asked = Counter((c.old is not None, c.new is not None, c.verdict) for c in found.changes)
    told = Counter(
        ("<del>" in row, "<ins>" in row, verdict) for row, verdict in zip(rows, order, strict=True)
    )
    assert told == asked
    short = re.sub(r"<[^>]*>", "", str(in_short(Since(found))))
    counts = Counter(c.verdict for c in found.changes)
    assert [part.split(" ", 1)[1] for part in short.split(", ")] == [
        f"{counts[v]} {v}" for v in VERDICTS if counts[v]
    ]


def test_nothing_changed_and_nothing_to_compare_with() -> None:
    same = changed(P22, ("930 mm", "93 cm"))
    assert not same.changes
    assert "Written otherwise in 1 place." in str(changes(Since(same), _nowhere))
    assert "unchanged" in str(in_short(Since(same)))
    none = Since(None, "no repository")
    assert "Not compared with the last commit: no repository." in str(changes(none, _nowhere))
    assert "not compared" in str(in_short(none))
