"""The texts an editor has open, the files they use, and all specifications of the folders."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from typing import Any

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable, root_of
from hts.checking.checker.tasks import files_below
from hts.editor.buffer import Buffer, path_of
from hts.editor.look import OpenTexts, stamp
from hts.editor.names import Declared, Index, Names
from hts.editor.phrase import TEXT
from hts.editor.place import Place, Text
from hts.language.model.load import NotUsable

#: The line of a rule book that names it.
_ID = re.compile(r"^id:\s*[\"']?([\w.-]+)", re.M)
#: Specifications of the folders that are looked through for a name.
_MOST = 2000
#: Texts that are remembered as they were read.
_REMEMBERED = 300


class Workspace:
    """``folders`` are those the editor has open, ``trusted`` whether code from them may run."""

    def __init__(self, folders: list[str], encoding: str, trusted: bool = False) -> None:
        self.folders = folders
        self.encoding = encoding
        self.trusted = trusted
        self.buffers: dict[str, Buffer] = {}
        self._indexes: dict[str, tuple[Text, Index]] = {}
        self._texts: dict[str, tuple[tuple[int, ...], Text]] = {}

    # Open texts -----------------------------------------------------------------------------

    def open(self, uri: str, text: str, version: int) -> Buffer:
        """A text is opened, or opened again."""
        path = path_of(uri)
        root = root_of(path) if path is not None else ""
        made = self.buffers[uri] = Buffer(uri, text, version, self.encoding, root)
        return made

    def close(self, uri: str) -> None:
        """A text is closed: what lies on the disk counts again."""
        self.buffers.pop(uri, None)
        self._indexes.pop(uri, None)

    def opened(self) -> dict[str, str]:
        """The texts of all open files, by real path."""
        return {
            os.path.realpath(buffer.path): buffer.whole
            for buffer in self.buffers.values()
            if buffer.path is not None
        }

    def folder_of(self, buffer: Buffer) -> str:
        """The folder a text that is no file belongs to."""
        if buffer.path is not None:
            return os.path.dirname(buffer.path)
        return self.folders[0] if self.folders else os.getcwd()

    # Names ----------------------------------------------------------------------------------

    def names(self, buffer: Buffer) -> Names:
        """The names a text can use."""
        return self._names(self._index(buffer.uri, buffer.placed), self.folder_of(buffer))

    def _names(self, index: Index, folder: str) -> Names:
        path = index.text.source.path
        loader = OpenTexts(root_of(path) if path is not None else folder, self.opened())
        found: dict[str, Index] = {}
        self._collect(index.text, folder, loader, found, path)
        return Names(index, found.values())

    def _collect(
        self, text: Text, folder: str, loader: OpenTexts, found: dict[str, Index], own: str | None
    ) -> None:
        for path, place in uses_of(text, folder, loader):
            if path in found or (own is not None and path == os.path.realpath(own)):
                continue
            used = self._text(path, loader)
            if used is not None and place.path == "use.path":
                found[path] = self._index(path, used)
                self._collect(used, os.path.dirname(path), loader, found, own)

    def _index(self, key: str, text: Text) -> Index:
        known = self._indexes.get(key)
        if known is None or known[0] is not text:
            known = self._indexes[key] = (text, Index(text))
            _forget_oldest(self._indexes)
        return known[1]

    def _text(self, path: str, loader: OpenTexts) -> Text | None:
        """A text by its real path: that of an open file, or that of the disk."""
        for buffer in self.buffers.values():
            if buffer.path is not None and os.path.realpath(buffer.path) == path:
                return buffer.placed
        now = stamp(path)
        known = self._texts.get(path)
        if known is None or known[0] != now:
            try:
                whole = loader.text(path)
            except Unreadable:
                return None
            source = Source(whole.removeprefix(BYTE_ORDER_MARK), loader.name(path), path)
            known = self._texts[path] = (now, Text(source))
            _forget_oldest(self._texts)
        return known[1]

    def spans(
        self, target: Declared, near: Buffer
    ) -> list[tuple[str | None, Text, list[tuple[int, int]]]]:
        """Where a thing is named in all texts of its repository and all open ones: path, text, and
        the offsets of each place."""
        found = []
        for names in self._everywhere(near):
            text = names.own.text
            places = {
                (span.start, span.end) for span in names.uses(target) if span.source is text.source
            }
            if places:
                found.append((text.source.path, text, sorted(places)))
        return found

    def _everywhere(self, near: Buffer) -> Iterator[Names]:
        """Every text that may name what is declared near one."""
        seen = set()
        for buffer in self.buffers.values():
            seen.add(os.path.realpath(buffer.path) if buffer.path is not None else buffer.uri)
            yield self.names(buffer)
        if near.path is None:
            return
        root = root_of(near.path)
        loader = OpenTexts(root, self.opened())
        for count, path in enumerate(files_below(root)):
            if count > _MOST:
                break
            if not isinstance(path, str) or os.path.realpath(path) in seen:
                continue
            text = self._text(os.path.realpath(path), loader)
            if text is not None:
                real = os.path.realpath(path)
                yield self._names(self._index(real, text), os.path.dirname(real))

    # Files ----------------------------------------------------------------------------------

    def files_for(self, buffer: Buffer) -> list[str]:
        """The specifications that a `use` of a text can name, as it would be written."""
        folder = self.folder_of(buffer)
        root = root_of(folder)
        own = os.path.realpath(buffer.path) if buffer.path is not None else ""
        found = []
        for count, path in enumerate(files_below(root)):
            if count > _MOST:
                break
            if isinstance(path, str) and os.path.realpath(path) != own:
                found.append(os.path.relpath(path, folder).replace(os.sep, "/"))
        # Those of the folder and below it first.
        return sorted(found, key=lambda name: (name.startswith(".."), name.count("/"), name))

    def books_for(self, buffer: Buffer) -> list[str]:
        """The ids of the rule books that a text, or one it uses, says are the repository's own."""
        found = []
        for index in self.names(buffer).all:
            path = index.text.source.path
            folder = os.path.dirname(path) if path is not None else self.folder_of(buffer)
            root = root_of(path) if path is not None else folder
            loader = OpenTexts(root, self.opened())
            for book, place in uses_of(index.text, folder, loader):
                if place.path != "book.path":
                    continue
                try:
                    named = _ID.search(loader.text(book))
                except Unreadable:
                    continue
                if named is not None:
                    found.append(named[1])
        return found

    def links(self, buffer: Buffer) -> list[tuple[tuple[int, int], str]]:
        """The files a text uses: where each is named, and its path."""
        folder = self.folder_of(buffer)
        root = root_of(buffer.path) if buffer.path is not None else folder
        loader = OpenTexts(root, self.opened())
        return [
            ((place.span.start, place.span.end), path)
            for path, place in uses_of(buffer.placed, folder, loader)
        ]


def _forget_oldest(kept: dict[str, Any]) -> None:
    """Keeps what is remembered of texts within bounds."""
    if len(kept) > _REMEMBERED:
        del kept[next(iter(kept))]


def uses_of(text: Text, folder: str, loader: OpenTexts) -> Iterator[tuple[str, Place]]:
    """The files a text uses, as far as they may be used and are there, and where it says so."""
    for line in text.outline.top:
        for place in text.places_of(line):
            if place.role == TEXT and place.path in ("use.path", "book.path"):
                try:
                    yield loader.find(place.word[1:-1], folder), place
                except NotUsable:
                    continue
