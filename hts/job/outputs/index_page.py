"""The index of papers that lie in folders by joint: one page without script, for any browser."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from typing import NamedTuple

from hts.job.compiler import Job, JointSheet
from hts.job.outputs import weld_lists
from hts.job.outputs.cautions import APPROVAL
from hts.job.outputs.show import Shown
from hts.job.outputs.text import visible
from hts.language.rows.row_source import RowSource

NAME = "index.html"
_STYLE = (
    "body{font:16px/1.4 sans-serif;margin:1.5rem;max-width:75rem}"
    "table{border-collapse:collapse;width:100%}"
    "th,td{border:1px solid #888;padding:.3rem .5rem;text-align:left;vertical-align:top}"
    "thead{display:table-header-group}a{color:#003c8f}"
    "@media print{body{margin:0;font-size:10pt}a{color:#000;text-decoration:none}}"
)
#: Papers by the ends of their names, in the order they are looked for.
_KINDS = (
    ("", (".pdf",)),
    ("Sheets", (".md",)),
    ("Drawings", (".svg",)),
    ("For spreadsheets", (".csv", ".xlsx")),
    ("Others", ("",)),
)


class Entry(NamedTuple):
    """One folder: its name, the joints in it and the names of its papers."""

    folder: str
    sheets: tuple[JointSheet, ...]
    papers: tuple[str, ...]


def index_page(job: Job, entries: Sequence[Entry], at_top: Iterable[str]) -> str:
    """HTML of the page. ``at_top``: all names, of which those without a folder are linked, too."""
    named = job.document
    title = f"Papers by joint: {named.number} revision {named.revision}"
    shown = Shown(job.units, job.changes).single()
    listed = any(_origin(sheet) for entry in entries for sheet in entry.sheets)
    rows = "".join(_row(job, entry, shown, listed) for entry in entries)
    marked = "<th>Changed</th>" if job.changes is not None else ""
    names = [sheet.joint.name for entry in entries for sheet in entry.sheets]
    lists = "".join(f"<p>{_text(line)}</p>" for line in weld_lists.said(job.spec, names))
    others = ", ".join(_link(name, name) for name in at_top if "/" not in name)
    status = (
        ""
        if named.for_work
        else f"<p><strong>Status: {_text(named.status)}. This issue is not released for work."
        "</strong></p>"
    )
    warnings = ""
    if job.warnings:
        items = "".join(f"<li>{_text(line)}</li>" for line in job.warnings)
        warnings = f"<h2>Open warnings of the check</h2><ul>{items}</ul>"
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f"<title>{_text(title)}</title><style>{_STYLE}</style></head>\n<body><main>"
        f"<h1>{_text(title)}</h1>\n<p>{_text(named.title)}. {_text(named.dated)}, "
        f"{_text(named.status)}. Fingerprint {_text(named.fingerprint)}. "
        f"{_text(named.tool)}.</p>\n{status}{lists}{warnings}"
        f"<p>For all joints: {others}</p>\n"
        f"<table><thead><tr><th>Joint</th>{'<th>Row, like</th>' if listed else ''}"
        f"<th>Line, drawing</th><th>Treatment</th>{marked}<th>Papers</th></tr></thead>\n"
        f"<tbody>{rows}</tbody></table>\n"
        f"<p>{_text(APPROVAL[0])}</p></main></body></html>\n"
    )


def _row(job: Job, entry: Entry, shown: Shown, listed: bool) -> str:
    sheets = entry.sheets
    names = ", ".join(sheet.joint.name for sheet in sheets)
    names += ", heated together" if len(sheets) > 1 else ""
    rows = "; ".join(dict.fromkeys(filter(None, (_origin(sheet) for sheet in sheets))))
    said = [sheet.joint.entry for sheet in sheets]
    where = "; ".join(
        ", ".join(filter(None, (each.line or "", each.drawing or ""))) for each in said
    )
    runs = [run for sheet in sheets for run in sheet.runs]
    treated = ", ".join(
        dict.fromkeys(
            run.program.name + (f" at {shown.text(run.proof.at)}" if run.proof is not None else "")
            for run in runs
        )
    )
    papers = "<br>".join(_papers(entry))
    cells = [_text(names), *([_text(rows)] if listed else []), _text(where), _text(treated)]
    if job.changes is not None:
        touched = {row[0] for row in job.changes.rows}
        changed = any(sheet.joint.name in touched for sheet in sheets)
        cells.append("changed" if changed else "")
    return "<tr>" + "".join(f"<td>{cell}</td>" for cell in (*cells, papers)) + "</tr>\n"


def _papers(entry: Entry) -> Iterator[str]:
    """What is carried to the pipe first, then what is read, looked at, and worked with."""
    left = list(entry.papers)
    for word, endings in _KINDS:
        names = [name for name in left if name.endswith(endings)]
        left = [name for name in left if name not in names]
        links = ", ".join(_link(f"{entry.folder}/{name}", name) for name in names)
        if names:
            yield f"{word}: {links}" if word else f"<strong>{links}</strong>"


def _origin(sheet: JointSheet) -> str:
    row = sheet.joint.row
    if row is None or not isinstance(row.source, RowSource):
        return ""
    like = f", like {row.like.name}" if row.like is not None else ""
    return f"row {row.source.number}{like}"


def _link(path: str, name: str) -> str:
    """Names of our papers are made of plain letters; they are escaped all the same."""
    return f'<a href="{escape(path)}">{_text(name)}</a>'


def _text(text: str) -> str:
    return escape(visible(text))
