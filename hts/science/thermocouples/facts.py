"""The thermocouple data, and where each figure in it comes from."""

from __future__ import annotations

from typing import Any, NamedTuple

from hts.base import data


class Origin(NamedTuple):
    """Source of a figure and how far it can be relied on.

    basis: published, memory, practice or derived; confidence: high, medium or low.
    """

    standard: str
    paragraph: str
    edition: str
    basis: str
    confidence: str

    def __str__(self) -> str:
        named = ", ".join(part for part in self[:3] if part)
        return f"{named} [{self.basis}, {self.confidence}]"


def facts(part: str) -> Any:
    """One top-level part of hts/base/data/thermocouples.yaml."""
    return data.load("thermocouples")[part]


def origin(entry: dict[str, Any]) -> Origin:
    """Origin of an entry that carries `source`, `basis` and `confidence`."""
    source = facts("sources")[entry["source"]]
    return Origin(
        source["standard"],
        source["paragraph"],
        source["edition"],
        entry["basis"],
        entry["confidence"],
    )
