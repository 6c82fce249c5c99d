"""What is loaded for texts that say nearly everything, word for word."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import openpyxl
import pytest

from hts.paper.kit import files, kit_files
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")


def test_the_kits(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without who it is for, which each row says."""
    told.each_once(KEPT / "kit.txt", {name: _kit(name, monkeypatch) for name in texts.NAMES})


def _kit(name: str, monkeypatch: pytest.MonkeyPatch) -> str:
    printed: list[object] = []
    monkeypatch.setattr(kit_files, "pdf", lambda _, data: printed.append(data) or b"")
    made = files(texts.job(name))
    rows = [" | ".join(row[:7]) for row in csv.reader(io.StringIO(made["kit.csv"].decode()))]
    (sheet, *_) = openpyxl.load_workbook(io.BytesIO(made["kit.xlsx"])).worksheets
    cells = [str(cell) for row in sheet.iter_rows(min_row=4, values_only=True) for cell in row]
    without = frozenset(("document", "code"))
    lines = [f"printed {told.digest(told.leaves(printed, without))}", told.digest(cells)]
    return "\n".join([*rows, *lines])
