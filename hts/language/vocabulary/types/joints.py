"""The joints that a treatment or a list of checks is for."""

from __future__ import annotations

from hts.language.vocabulary.cursor import Cursor
from hts.language.vocabulary.types.words import Reference, To

_EACH_OF = ("each", "of")
_WELD_LIST = To("weld list")


class EachOf(Reference):
    """The joints of a weld list: all, or those whose row is `like` one typical joint."""

    __slots__ = ("like",)

    def __init__(self, name: str, start: int, end: int, like: Reference | None) -> None:
        super().__init__("weld list", name, start, end)
        self.like = like


class Joints(To):
    """The name of a joint, or `each of` a weld list, all or those `like` a typical joint."""

    def __init__(self) -> None:
        super().__init__("joint")
        self.words = "the name of a joint, or `each of` a weld list"

    def read(self, cursor: Cursor) -> Reference:
        if not cursor.matches(_EACH_OF):
            return super().read(cursor)
        start = cursor.here()[0]
        cursor.at += len(_EACH_OF)
        listed = _WELD_LIST.read(cursor)
        like = None
        if cursor.word() == "like":
            cursor.at += 1
            like = super().read(cursor)
        return EachOf(listed.name, start, like.end if like is not None else listed.end, like)
