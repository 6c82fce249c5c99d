"""What stands on the pages of texts that say nearly everything, word for word, and how it is marked
up, as a digest. Drawings and the text itself are told elsewhere."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from hts.view.changes import Head
from hts.view.checked import Checked
from hts.view.export import exported
from hts.view.list_page import _FILTERS, Listed, list_sections, row_of
from hts.view.spec_page import READINGS
from tests import told

KEPT = Path(__file__).with_name("told")
TOP = Path(ROOT)
#: Each in a folder of its own, for nothing else may change what is told of it.
TEXTS = {
    **{
        path.stem: path.read_text("utf-8")
        for path in sorted((TOP / "tests/rich").glob("pipe-[ab].hts"))
    },
    **{name: BASES[name] for name in ("branch", "preheat")},
    "two": BASES["butt"].replace(" status for construction", "").replace(" W12 {", " W12, W13 {"),
    "unrevised": re.sub(r"(?m)^  revision .*\n", "", BASES["butt"]),
    **{
        path.stem: path.read_text("utf-8")
        for path in sorted((TOP / "specs/broken").glob("*.hts"))[::25]
    },
}
#: What begins a line for whoever reads the page.
_LINES = frozenset(
    ("p", "li", "tr", "h1", "h2", "h3", "h4", "dt", "dd", "summary", "caption", "header", "nav",
     "label", "button", "section")
)  # fmt: skip
_CELLS = frozenset(("td", "th"))
_NOT_READ = frozenset(("svg", "style", "script"))


class _Page(HTMLParser):
    """Its words line by line, a row of a table in one, and its elements."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.lines, self.marks = [""], []
        self._skipped = 0
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        self.marks.append(f"{tag} {sorted((k, v or '') for k, v in attrs if k != 'nonce')}")
        if tag in _NOT_READ or said.get("id") == "text":
            self._skipped += 1
            self._within = tag
        elif self._skipped and tag == self._within:
            self._skipped += 1
        if tag in _LINES:
            self.lines.append("")
        elif tag in _CELLS:
            self.lines[-1] += " | "

    def handle_endtag(self, tag: str) -> None:
        if self._skipped and tag == self._within:
            self._skipped -= 1

    def handle_data(self, data: str) -> None:
        if not self._skipped:
            self.lines[-1] += data


def told_page(page: str) -> str:
    read = _Page(page)
    lines = [" ".join(line.replace("|", " | ").split()) for line in read.lines]
    return "\n".join([*filter(None, lines), f"  marked up {told.digest(read.marks)}"])


@pytest.fixture
def written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The texts in a folder that is no repository."""
    for name, text in TEXTS.items():
        (tmp_path / f"{name}.hts").write_text(text, "utf-8")
    (tmp_path / "hts.toml").write_text("")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_pages(written: Path) -> None:
    """Of one text each reading, of the others the supervisor's."""
    pages = {}
    for name in TEXTS:
        checked = Checked(str(written / f"{name}.hts"))
        for reading in READINGS if name == "pipe-a" else ("supervisor",):
            pages[f"{name}, {reading}"] = told_page(exported(checked, reading))
    told.each_once(KEPT / "pages.txt", pages)


def test_a_list_of_texts(written: Path) -> None:
    head = Head(str(written))
    listed = []
    for name in TEXTS:
        row = row_of(Checked(str(written / f"{name}.hts")), head)
        listed.append(Listed(f"/{name}", name, row, "current" if name == "pipe-b" else ""))
    listed.append(Listed("/later", "later", None))
    (whole,) = list_sections(listed, ["no.hts"], "", "")
    pages = [told_page(str(whole.body))]
    for wanted in _FILTERS:
        counts = []
        for words in ("", "HT-0001", "LATER"):
            (found,) = list_sections(listed, [], wanted, words)
            counts += re.findall(r"\d+ of \d+ shown", str(found.body))
        pages.append(f"{_FILTERS[wanted]}; of any words, HT-0001, LATER: {', '.join(counts)}")
    told.same(KEPT / "list.txt", "all", "\n".join(pages))
