"""The thermocouple data, and where each figure in it comes from."""

from __future__ import annotations

from typing import Any

from hts.base import data
from hts.base.provenance import Origin


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
