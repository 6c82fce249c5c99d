"""The head of the page of a record: which text and files, from when to when, what it comes to."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

pytest.importorskip("polars", reason="records need the extra `record`")

from hts.record.reading import Options
from hts.view.record_page import JudgedRecord
from hts.view.shelf import Shelf
from tests.record.judging.ways import judged

OPTIONS = Options(**dict.fromkeys(Options._fields))


def _page(tmp_path: Path) -> JudgedRecord:
    (tmp_path / "weld.hts").write_text("spec 1\n")
    shelf = Shelf(str(tmp_path / "weld.hts"))
    return JudgedRecord(shelf, shelf.keys[0], [str(tmp_path / "run.csv")], OPTIONS, None, None)


@pytest.mark.parametrize(
    ("plan", "way", "word"),
    [("plain", "sound", "met"), ("strict", "two hot, one twice", "not met")],
)
def test_facts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, plan: str, way: str, word: str
) -> None:
    found = judged(plan, way)
    page = _page(tmp_path)
    monkeypatch.setattr(page, "_judged", lambda: (found, ""))
    head = str(page.head())
    facts = dict(re.findall(r"<dt>([^<]*)</dt><dd>([^<]*)</dd>", head))
    start, record = found.record.start, found.record
    assert start is not None
    last = start + timedelta(seconds=float(record.elapsed[-1]))
    assert facts["From"].startswith(f"{start:%Y-%m-%d %H:%M:%S}")
    assert facts["To"].startswith(f"{last:%Y-%m-%d %H:%M}")
    assert facts["Record"] == ", ".join(file.name for file in record.files)
    assert facts["Fingerprint of the record"].replace("-", "") in record.digest
    said = re.findall(r'role="status">Judged: <span[^>]*>([^<]*)<', head)
    assert said and said[0].lower().endswith(word)
    assert (word == "met") == ("not met" not in said[0].lower())


def test_a_record_that_cannot_be_judged_says_why(tmp_path: Path) -> None:
    page = _page(tmp_path)
    head = str(page.head())
    assert "Record not judged" in head and "Not judged:" in head and "<dt>" not in head
    assert page.sections({}) == []  # type: ignore[arg-type]
