"""The formats findings are written in; a format is imported only when it is asked for."""

from __future__ import annotations

from importlib import import_module

from hts.checking.checker.results import Results

#: Format, and the module below hts.checking.report that writes it.
FORMATS = {
    "text": "terminal",
    "line": "lines",
    "json": "json_report",
    "sarif": "sarif",
    "junit": "junit",
    "github": "github",
    "gitlab": "gitlab",
}


def written(form: str, results: Results, *, colour: bool = False, width: int | None = None) -> str:
    """The whole report in a format of FORMATS; only text has colours, and is wrapped at a width."""
    module = import_module(f"hts.checking.report.{FORMATS[form]}")
    wrapped = {"width": width} if form == "text" else {}
    text: str = module.write(results, colour=colour, **wrapped)
    return text
