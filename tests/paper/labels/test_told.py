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


def test_flags(monkeypatch: pytest.MonkeyPatch) -> None:
    flags: dict[str, str] = {}
    for name in texts.NAMES:
        printed: list[dict[str, object]] = []
        monkeypatch.setattr(label_sheet, "pdf", lambda _, data, to=printed: to.append(data) or b"")
        for size, grid in ((A4, None), (LETTER, NARROW)):
            files(texts.job(name), size, grid)
        lines = told.leaves(printed, frozenset(("fingerprint", "data", "code")))
        flags[name] = "\n".join(dict.fromkeys(lines))
    told.each_once(KEPT / "flags.txt", flags)
