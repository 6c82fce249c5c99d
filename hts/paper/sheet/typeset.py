"""Pages set by typst from templates of ours and data that is never markup.

What typst has set once it keeps, and takes again where the same stands in the next document: it
does so only while its templates have the same paths and its settings are the same. Hence the data
is a file beside copies of the templates, and no setting.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from glob import glob
from typing import Any

import hts
from hts.base.fonts import Font
from hts.base.leftovers import private_folder
from hts.paper.sheet.fonts import FOLDER, given
from hts.paper.sheet.needed import needed

#: Instead of a clock's time, so that the same data gives the same bytes (2000-01-01).
_MADE = 946_684_800
_PACKAGE = os.path.dirname(os.path.abspath(hts.__file__))
#: What templates read their data from.
_DATA = "data.json"

_Folder = tempfile.TemporaryDirectory[str]
#: Process -> its folders that nothing is set in now. One that was forked leaves those of its parent
#: alone.
_IDLE: dict[int, list[_Folder]] = {}


def pdf(template: str, data: Any) -> bytes:
    """The template at this path in the package with `data`, which it reads by
    `json("/data.json")`.

    Only the templates, this data and the shipped fonts are open to it. Raises MissingPackage, and
    OSError where the data cannot be written.
    """
    # Made to be printed: the structure for reading aloud is five times the rest of a file.
    return _compiled(template, data, pdf_tags=False)


def png(template: str, data: Any, dots: float) -> bytes:
    """The one page of a template as a picture of so many dots an inch; otherwise as `pdf`."""
    return _compiled(template, data, format="png", ppi=dots)


def _compiled(template: str, data: Any, **how: Any) -> bytes:
    typst = needed("typst", "paper")
    with _folder() as folder:
        path = os.path.join(folder, _DATA)
        try:
            with open(path, "w", encoding="utf-8") as file:
                file.write(json.dumps(data, ensure_ascii=False))
            made: bytes = typst.compile(
                os.path.join(folder, os.path.relpath(template, _PACKAGE)),
                root=folder,
                font_paths=_fonts(given()),
                ignore_system_fonts=True,
                timestamp=_MADE,
                **how,
            )
        finally:
            # Nothing of a job is left lying about.
            if os.path.exists(path):
                os.unlink(path)
    return made


@contextmanager
def _folder() -> Iterator[str]:
    """A folder with copies of all templates that only this thread uses now."""
    idle = _IDLE.setdefault(os.getpid(), [])
    try:
        folder = idle.pop()
    except IndexError:
        folder = private_folder()
        for name in _templates():
            copy = os.path.join(folder.name, name)
            os.makedirs(os.path.dirname(copy), exist_ok=True)
            shutil.copyfile(os.path.join(_PACKAGE, name), copy)
    try:
        yield folder.name
    finally:
        idle.append(folder)


@lru_cache(maxsize=1)
def _templates() -> tuple[str, ...]:
    return tuple(sorted(glob("**/*.typ", root_dir=_PACKAGE, recursive=True)))


@lru_cache(maxsize=2)
def _fonts(font: Font | None) -> Any:
    typst = needed("typst", "paper")
    paths = [FOLDER] if font is None else [FOLDER, _alone(font).name]
    return typst.Fonts(include_system_fonts=False, font_paths=paths)


@lru_cache(maxsize=2)
def _alone(font: Font) -> _Folder:
    """A folder with this font and nothing else, as typst takes folders only."""
    folder = private_folder()
    shutil.copy(font.path, folder.name)
    return folder
