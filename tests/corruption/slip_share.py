"""Applies corruptions and looks whether the check notices."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from hts.base.text import Source
from hts.checking.checker import check_spec
from hts.language.model import Loader, Spec
from tests.corruption.slips import Corruption, applied, corruptions

ROOT = Path(__file__).parents[2]
SPECS = sorted((ROOT / "specs").glob("*.hts"))
TODAY = "2026-11-25"


class Result(NamedTuple):
    """A corruption and whether any error or warning came of it."""

    corruption: Corruption
    caught: bool


def results(path: Path, every: int = 1) -> list[Result]:
    """Every ``every``-th corruption of a specification, checked."""
    text = path.read_text(encoding="utf-8")
    loader = Loader(str(ROOT))
    return [
        Result(corruption, _caught(applied(text, corruption), path, loader))
        for number, corruption in enumerate(corruptions(text))
        if number % every == 0
    ]


def _caught(text: str, path: Path, loader: Loader) -> bool:
    source = Source(text, loader.name(str(path)), str(path))
    findings = check_spec(Spec(source, loader), TODAY)
    return any(finding.severity != "advice" for finding in findings)
