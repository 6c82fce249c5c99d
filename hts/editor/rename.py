"""A name changed everywhere it stands, or nowhere."""

from __future__ import annotations

from hts.base.text import Source
from hts.editor.buffer import Buffer
from hts.editor.names import KINDS, Declared
from hts.editor.phrase import NAME, REFERENCE
from hts.editor.place import Place, Text
from hts.editor.workspace import Workspace
from hts.syntax import items_of


class CannotRename(Exception):
    """Why a name stays as it is."""


#: A text with its path, and the offsets of the places to write the new name to.
Places = list[tuple[str | None, Text, list[tuple[int, int]]]]


def renameable(workspace: Workspace, buffer: Buffer, place: Place | None) -> Declared:
    """What a name stands for. Raises CannotRename."""
    if place is None or place.role not in (NAME, REFERENCE):
        raise CannotRename("there is no name here")
    found = workspace.names(buffer).declared_at(place)
    if found is None or found.what not in KINDS:
        raise CannotRename("nothing of this name is declared in this text or those it uses")
    return found


def renamed(workspace: Workspace, buffer: Buffer, target: Declared, name: str) -> Places:
    """The places to write a new name to. Raises CannotRename."""
    _, items = items_of(Source(name, ""))
    if len(items) != 1 or items[0].kind not in ("WORD", "NUMBER") or items[0].end != len(name):
        raise CannotRename(f"{name!r} is not a name: letters, digits, hyphens and dots")
    places = workspace.spans(target, buffer)
    for _, text, spans in places:
        _refuse_other_meaning(text, spans, target, name)
    return places


def _refuse_other_meaning(
    text: Text, spans: list[tuple[int, int]], target: Declared, name: str
) -> None:
    """Raises CannotRename where the new name would be read as something else, or names something
    already."""
    written = text.source.text
    pieces = []
    at = 0
    moved: list[int] = []
    length = 0
    for start, end in spans:
        pieces += [written[at:start], name]
        length += start - at
        moved.append(length)
        length += len(name)
        at = end
    after = Text(Source("".join(pieces) + written[at:], text.source.name, text.source.path))
    for (start, _), now in zip(spans, moved, strict=True):
        before, place = text.at(start), after.at(now)
        same = (
            before is not None
            and place is not None
            and place.role == before.role
            and place.path == before.path
            and place.names == before.names
        )
        if not same:
            raise CannotRename(f"{name!r} would be read as something else where it stands")
    for place in text.places():
        if place.role == NAME and place.names == target.what and place.word == name:
            raise CannotRename(f"there is a {target.what} named {name} already")
