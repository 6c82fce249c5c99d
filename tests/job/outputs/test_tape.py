"""The tape length says whose it is where the parts of a joint differ in diameter."""

from __future__ import annotations

from pathlib import Path

from hts.job.compiler import compile_spec
from hts.job.compiler.assumed import INTERVAL
from hts.job.outputs import files
from hts.language.model import Spec
from tests.texts import examples

ROOT = Path(__file__).parents[3]


def sheet(name: str) -> list[str]:
    loader = examples()
    spec = Spec(loader.read(str(ROOT / "specs" / name)), loader)
    text = files(compile_spec(spec, INTERVAL))["tags.md"].decode("utf-8")
    return [line for line in text.splitlines() if "nce round an outside" in line]


def test_beside_a_branch_no_length_round_the_run_counts_from_twelve() -> None:
    """The clock of a branch goes round the branch: pi * 219.1 mm = 688 mm (arithmetic)."""
    (branch,) = sheet("branch-unequal.hts")
    assert "688 mm" in branch


def test_one_diameter_needs_no_names() -> None:
    (line,) = sheet("p22-header.hts")
    assert line.startswith("- Once round")
