"""The welds of a list are numbered without a hole: where one of many is missing, a row is."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator

from hts.base.findings import Finding, Label
from hts.language.vocabulary.table_mistakes import NUMBER_LEFT_OUT
from hts.language.vocabulary.weld_list import WeldList

#: So many make a run, and one in so many may be missing by mistake: where more are, numbers run
#: as they like.
MANY = 50
_OF, _MOST = 50, 2
_NUMBERED = re.compile(r"(.*?)(\d{1,5})")


def holes(weld_lists: Iterable[WeldList], joints: Iterable[str]) -> Iterator[Finding]:
    """Tells numbers that no row of a list has, and no other of the ``joints`` of the text."""
    elsewhere = set(joints)
    for listed in weld_lists:
        if not listed.sound or listed.weld is None or listed.path is None:
            continue
        runs: dict[str, set[int]] = defaultdict(set)
        names = [name for row in listed.joints for name in row.names]
        for name in (*names, *listed.left_out):
            found = _NUMBERED.fullmatch(name.strip())
            if found is not None:
                runs[found[1]].add(int(found[2]))
        for letters, run in runs.items():
            first, last = min(run), max(run)
            missing = last - first + 1 - len(run)
            if len(run) < MANY or not 0 < missing <= min(_MOST, len(run) // _OF):
                continue
            numbers = [f"{letters}{n}" for n in range(first, last) if n not in run]
            if elsewhere & {*numbers}:
                continue
            yield Finding(
                NUMBER_LEFT_OUT,
                f"the welds of {listed.name} are numbered from {letters}{first} to {letters}{last} "
                f"without {' and '.join(numbers)}",
                Label(listed.weld.place()),
                address=listed.name,
            )
