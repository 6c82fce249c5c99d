"""Small jobs with a weld list, held in memory."""

from __future__ import annotations

from collections.abc import Mapping

from hts.base.findings import Finding
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BUTT
from hts.language.model import Loader, Spec

COLUMNS = """\
  weld    in "Weld no."
  like    W12
  rows    {rows}
  column  "Line" line
  column  "ISO" drawing
  column  "Size" pipe NPS
  column  "Sch" pipe schedule
  column  "WT [mm]" wall measured
  column  "Service" service
  column  "Remarks" not used
"""
HEADS = ("Weld no.", "Line", "ISO", "Size", "Sch", "WT [mm]", "Service", "Remarks")
ROWS = (
    ("W101", "12-P-1", "TI-ISO-1 rev 2", "12", "120", "25.4", "steam", "near gate 3"),
    ("W102", "", 'TI "A", 2', "12", "120", "25.1", "", ""),
    ("W103", "12-P-3", "", "", "", "24.9", "steam, hydrogen", "x"),
)


class MemoryLoader(Loader):
    """Reads texts by their names instead of files."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        super().__init__("/")
        self.texts = texts

    def name(self, path: str) -> str:
        return path.lstrip("/")

    def text(self, path: str) -> str:
        if path.lstrip("/") not in self.texts:
            raise Unreadable("no such file")
        return self.texts[path.lstrip("/")]

    def real(self, path: str) -> str:
        return path

    def has(self, path: str) -> bool:
        return path.lstrip("/") in self.texts


def table(rows: object = ROWS, heads: tuple[str, ...] = HEADS, separator: str = ",") -> str:
    """A table as a spreadsheet saves it: in quotes what needs them."""
    return "".join(
        separator.join(_cell(cell, separator) for cell in row) + "\r\n"
        for row in (heads, *rows)  # type: ignore[misc]
    )


def _cell(text: str, separator: str) -> str:
    if any(sign in text for sign in (separator, '"', "\n")):
        return '"' + text.replace('"', '""') + '"'
    return text


def job(columns: str = COLUMNS, rows: int = len(ROWS), more: str = "") -> str:
    """The example of the rules with a weld list, treated like its own joint."""
    listed = f'weld list lines from "welds.csv" {{\n{columns.format(rows=rows)}}}\n'
    return _treating(BUTT, "W12, each of lines") + f"\n{listed}\n{more}"


def written(joints: Mapping[str, str]) -> str:
    """The same with the joints written out: what each says by its name."""
    names = ", ".join(["W12", *joints])
    blocks = "".join(f"joint {name} like W12 {{\n{said}}}\n" for name, said in joints.items())
    return f"{_treating(BUTT, names)}\n{blocks}"


def _treating(text: str, names: str) -> str:
    for words in ("preheat", "for", "before heat", "during heat", "after heat"):
        text = text.replace(f"{words} W12 {{", f"{words} {names} {{")
    return text


def spec(text: str, welds: str | None) -> Spec:
    """``welds``: the table; None: there is none."""
    texts = {"job.hts": text}
    if welds is not None:
        texts["welds.csv"] = welds
    loader = MemoryLoader(texts)
    source = Source(text.removeprefix(BYTE_ORDER_MARK), "job.hts", "/job.hts")
    return Spec(source, loader)


def findings(text: str, welds: str | None) -> list[Finding]:
    return check_spec(spec(text, welds))


def told(found: list[Finding]) -> list[tuple[str, str, str]]:
    """Code, place in words and the text pointed at, of each."""
    return [
        (f.kind.name, f"{f.source.name}{f': {f.at.text}' if f.at.text else ''}", f.at.span.text)
        for f in found
    ]
