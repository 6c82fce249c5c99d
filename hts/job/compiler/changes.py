"""What changed since an earlier revision, for the marks on paper.

What a change is, is decided elsewhere (`hts.job.comparison`).

A compiled job only carries what came of it.
"""

from __future__ import annotations

from typing import NamedTuple

#: Kinds of row that can be marked.
BAND, LIMIT, SETTING, STEP, THERMOCOUPLE, ZONE = (
    "band", "limit", "setting", "step", "thermocouple", "zone",
)  # fmt: skip


class ChangeLine(NamedTuple):
    """One change in words: what, on both sides, and what it asks for."""

    address: str
    what: str
    old: str
    new: str
    asks: str


class Changes(NamedTuple):
    """`since` is the earlier revision as it was named, `mark` what stands beside a changed row:
    the revision of the document. `rows` are (joint, treatment, kind, name)."""

    since: str
    mark: str
    rows: frozenset[tuple[str, str, str, str]]
    lines: tuple[ChangeLine, ...]

    def of(self, joint: str, treatment: str, kind: str, name: str) -> str:
        """The mark of a row, empty where it did not change."""
        return self.mark if (joint, treatment, kind, name) in self.rows else ""
