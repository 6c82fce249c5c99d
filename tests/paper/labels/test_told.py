"""What is on the flags of texts that say nearly everything, word for word."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.paper.labels import Grid, files, label_sheet
from hts.paper.sheet import A4, LETTER
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
NARROW = Grid()._replace(columns=2, copies=2, start=3)


@pytest.mark.parametrize("name", texts.NAMES)
def test_flags(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    printed: list[dict[str, object]] = []
    monkeypatch.setattr(label_sheet, "pdf", lambda _, data: printed.append(data) or b"")
    for size, grid in ((A4, None), (LETTER, NARROW)):
        files(texts.job(name), size, grid)
    lines = list(told.leaves(printed, frozenset(("fingerprint", "data", "code"))))
    told.same(KEPT / "flags.txt", name, "\n".join(dict.fromkeys(lines)))
