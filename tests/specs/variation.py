"""What a variation of a complete job is, and the jobs."""

from __future__ import annotations

from typing import NamedTuple

Change = tuple[str, str]


class Variation(NamedTuple):
    """Changes of a job: each (old, new), where one blank of the old text stands for any number."""

    name: str
    job: str
    changes: tuple[Change, ...]


HEADER = "p22-header"
CARBON = "carbon-steel-butt"
BRANCH = "branch-unequal"
P91 = "p91-pipe"
MANY = "turnaround-many"
PREHEAT = "induction-preheat"
