"""Name and mark of a company at the head of a paper: a picture that can do nothing but be seen."""

from __future__ import annotations

import os
import re
from typing import NamedTuple

#: Bytes. A mark that is larger is a photograph.
LARGEST = 300_000
_PNG = b"\x89PNG\r\n\x1a\n"
#: What an SVG could load, run or unfold by; a reference inside the picture itself is none.
_ACTIVE = re.compile(
    rb"<\s*(?:\w+:)?(?:script|foreignobject|image|a|use|style|iframe|audio|video|feimage)\b"
    rb"|<!ENTITY|<!DOCTYPE|\bon\w+\s*=|href\s*=\s*[\"'](?!#)|url\(\s*[\"']?(?!#)|@import"
    rb"|javascript:|data:",
    re.IGNORECASE,
)


class LetterheadError(Exception):
    """A mark that is not taken; the message says why and what to do."""


class Letterhead(NamedTuple):
    """`kind` is svg or png; without a mark `mark` is empty."""

    company: str = ""
    mark: bytes = b""
    kind: str = ""


def letterhead(company: str, logo: str, folder: str, root: str) -> Letterhead:
    """The letterhead; `logo` is a path seen from `folder`, and lies inside `root`, links followed.

    Raises LetterheadError.
    """
    if not logo:
        return Letterhead(company)
    path = os.path.realpath(os.path.join(folder, logo))
    inside = os.path.realpath(root)
    if os.path.isabs(logo) or os.path.commonpath((path, inside)) != inside:
        raise LetterheadError(f"{logo} lies outside the repository: put the picture inside it")
    kind = os.path.splitext(path)[1].lower().lstrip(".")
    if kind not in ("svg", "png"):
        raise LetterheadError(f"{logo} is no picture hts takes: use an .svg or a .png file")
    if not os.path.isfile(path):
        raise LetterheadError(f"{logo} is not a file in {os.path.basename(inside)}")
    with open(path, "rb") as file:
        mark = file.read(LARGEST + 1)
    if len(mark) > LARGEST:
        raise LetterheadError(f"{logo} is larger than {LARGEST // 1000} kB: use a smaller picture")
    if kind == "png" and not mark.startswith(_PNG):
        raise LetterheadError(f"{logo} is not a PNG picture: save it as one")
    if kind == "svg":
        active = _ACTIVE.search(mark)
        if active is not None:
            found = active.group().decode("ascii", "replace")
            raise LetterheadError(
                f"{logo} has {found!r} in it, which is more than a drawing: save it as plain paths"
            )
        if b"<svg" not in mark:
            raise LetterheadError(f"{logo} is not an SVG picture: save it as one")
    return Letterhead(company, mark, kind)
