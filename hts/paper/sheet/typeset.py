"""Pages set by typst from templates of ours and data that is never markup."""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from functools import lru_cache
from typing import Any

from hts.base.fonts import Font
from hts.base.leftovers import private_folder
from hts.paper.sheet.fonts import FOLDER, given
from hts.paper.sheet.needed import needed

#: Instead of a clock's time, so that the same data gives the same bytes (2000-01-01).
_MADE = 946_684_800


def pdf(template: str, data: Any, root: str | None = None) -> bytes:
    """The template at this path with `data`, which it reads by `json(bytes(sys.inputs.data))`.

    Only files below `root`, the folder of the template unless said, and the shipped fonts are open
    to it. Raises MissingPackage.
    """
    # Made to be printed: the structure for reading aloud is five times the rest of a file.
    return _compiled(template, data, root, pdf_tags=False)


def png(template: str, data: Any, dots: float) -> bytes:
    """The one page of a template as a picture of so many dots an inch; otherwise as `pdf`."""
    return _compiled(template, data, None, format="png", ppi=dots)


def _compiled(template: str, data: Any, root: str | None, **how: Any) -> bytes:
    typst = needed("typst", "paper")
    made: bytes = typst.compile(
        template,
        root=root or os.path.dirname(template),
        font_paths=_fonts(given()),
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
        timestamp=_MADE,
        **how,
    )
    return made


@lru_cache(maxsize=2)
def _fonts(font: Font | None) -> Any:
    typst = needed("typst", "paper")
    paths = [FOLDER] if font is None else [FOLDER, _alone(font).name]
    return typst.Fonts(include_system_fonts=False, font_paths=paths)


@lru_cache(maxsize=2)
def _alone(font: Font) -> tempfile.TemporaryDirectory[str]:
    """A folder with this font and nothing else, as typst takes folders only."""
    folder = private_folder()
    shutil.copy(font.path, folder.name)
    return folder
