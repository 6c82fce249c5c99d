"""What a name looks like to somebody who reads it from a flag, a chart or a list."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

#: Letters of the Cyrillic and Greek alphabets that are drawn like Latin ones, beside these.
#: From memory of the alphabets; UTS 39 of Unicode lists more of the kind.
_DRAWN_ALIKE = (
    ("АВЕКМНОРСТУХІЈЅ", "ABEKMHOPCTYXIJS"),
    ("аеорсухіјѕ", "aeopcyxijs"),
    ("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABEZHIKMNOPTYX"),
    ("ο", "o"),
)
_LATIN = {ord(a): b for foreign, latin in _DRAWN_ALIKE for a, b in zip(foreign, latin, strict=True)}
#: O beside a digit is read as nought, I and l as one.
_BESIDE_DIGIT = re.compile(r"(?<=\d)[OoIl]+|[OoIl]+(?=\d)")
_AS_DIGITS = str.maketrans("OoIl", "0011")
_SIGNS = re.compile(r"[-._\s]+")
_LEADING = re.compile(r"(?<!\d)0+(?=\d)")


@lru_cache(maxsize=20_000)
def as_seen(name: str) -> str:
    """The same for two names that are taken for each other: W-101, w101, W0101, W1O1.

    A sign between two digits stays: 1-12 and 11-2 are two names.
    """
    text = unicodedata.normalize("NFKC", name).translate(_LATIN)
    text = _BESIDE_DIGIT.sub(lambda found: found[0].translate(_AS_DIGITS), text)
    text = _SIGNS.sub("-", text.casefold())
    text = re.sub(r"(?<!\d)-|-(?!\d)", "", text)
    return _LEADING.sub("", text)


def foreign_letter(name: str) -> str | None:
    """The first letter of another alphabet in a name that is drawn all in Latin letters, as the
    first of В12."""
    if name.isascii() or not name.translate(_LATIN).isascii():
        return None
    return next(letter for letter in name if ord(letter) in _LATIN)
