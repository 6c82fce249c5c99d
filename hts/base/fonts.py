"""A font of a team's own for letters the shipped fonts do not have: taken only as a plain file
inside the repository, and read for nothing but the letters in it."""

from __future__ import annotations

import os
from functools import lru_cache
from typing import NamedTuple

#: Bytes. The largest fonts, of all Chinese letters in one weight, have some 20 MB.
LARGEST = 30_000_000
#: How the files of TrueType and OpenType fonts begin; collections of several begin otherwise.
_STARTS = (b"\0\1\0\0", b"OTTO", b"true")


class FontError(Exception):
    """A font that is not taken; the message says why, ``help`` what to do."""

    def __init__(self, message: str, help: str) -> None:
        super().__init__(message)
        self.help = help


class Font(NamedTuple):
    """A font file; ``content`` is a digest, so that what was kept ends with the font."""

    path: str
    content: str


def given_font(font: str, folder: str, root: str) -> Font:
    """The font at a path seen from `folder`, inside `root`, links followed. Raises FontError."""
    path = os.path.realpath(os.path.join(folder, font))
    inside = os.path.realpath(root)
    if os.path.isabs(font) or os.path.commonpath((path, inside)) != inside:
        raise FontError(f"{font} lies outside the repository", "put the font inside it")
    if not os.path.isfile(path):
        raise FontError(f"{font} is not a file", "the path is seen from the folder of this setting")
    try:
        with open(path, "rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise FontError(f"{font} cannot be read: {error.strerror}", "make it readable") from None
    if len(data) > LARGEST:
        raise FontError(
            f"{font} is larger than {LARGEST // 1_000_000} MB", "use a font of fewer letters"
        )
    if not data.startswith(_STARTS):
        raise FontError(f"{font} is not a font", "use a .ttf or an .otf file of one font")
    # Whoever has no font of his own does not pay for it.
    import hashlib

    return Font(path, hashlib.sha256(data).hexdigest()[:16])


@lru_cache(maxsize=8)
def letters_of(font: Font | None) -> frozenset[int]:
    """Code points the font draws; none without a font, or where fontTools is not installed."""
    if font is None:
        return frozenset()
    try:
        from fontTools.ttLib import TTFont
    except ModuleNotFoundError:
        return frozenset()
    try:
        return frozenset(TTFont(font.path, lazy=True).getBestCmap() or ())
    except Exception:  # A damaged table of a font raises whatever it met first.
        return frozenset()
