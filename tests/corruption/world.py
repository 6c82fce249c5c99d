"""What could stand in the place of a value: the names, texts, dates and places a text knows."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from hts.language.vocabulary.types import Name, To
from hts.limits.books import book, books
from hts.science.tables import pipe
from tests.corruption.places import Places, Value

#: Where a name is declared that others refer to, by kind of thing.
_DECLARED = {
    "joint.names": "joint",
    "joint.heating.zone.name": "zone",
    "joint.thermocouples.thermocouple.name": "thermocouple",
    "material.name": "material",
    "filler.name": "filler",
    "controller.name": "controller",
    "recorder.name": "recorder",
    "power source.name": "power source",
    "procedure.name": "procedure",
}
#: Texts that identify something, so that another one in their place is a wrong fact.
_IDENTIFYING = (
    "serial", "certificate", "heat number", "grade", "classification", "wire lot", "role",
    "approved by", "by", "record", "procedure", "drawing", "line", "spool", "number", "method",
    "standby",
)  # fmt: skip


class World:
    """The values of a text and of the files it uses, by kind."""

    def __init__(self, own: Places, used: Iterable[Places] = ()) -> None:
        self._text = own.source.text
        self._own = own
        self._names: dict[str, dict[str, None]] = {}
        self._texts: dict[str, dict[str, None]] = {}
        for found in (own, *used):
            for value in found.values:
                written = found.source.text[value.start : value.end]
                kind = _DECLARED.get(value.path)
                if kind is not None:
                    self._names.setdefault(kind, {})[written] = None
                elif isinstance(value.type, Name) and found is own:
                    self._names.setdefault(value.type.words, {})[written] = None
                last = value.path.rsplit(".", 1)[-1]
                if last in _IDENTIFYING:
                    self._texts.setdefault(last, {})[written] = None

    def names(self, value: Value) -> list[str]:
        """The other names of the kind a value names or is."""
        if isinstance(value.type, To):
            kind = value.type.what
        else:
            kind = _DECLARED.get(value.path, value.type.words)
        return [name for name in self._names.get(kind, ()) if name != self._written(value)]

    def texts(self, value: Value) -> list[str]:
        """The other texts that identify a thing of the kind."""
        last = value.path.rsplit(".", 1)[-1]
        return [text for text in self._texts.get(last, ()) if text != self._written(value)]

    def siblings(self, value: Value) -> list[str]:
        """What others of the text say in the same place, each once."""
        said = {
            self._text[other.start : other.end]: None
            for other in self._own.values
            if other.path == value.path
        }
        said.pop(self._written(value), None)
        return list(said)

    def dates(self, value: Value) -> tuple[str | None, str | None]:
        """The dates written before and after one."""
        all_of_them = [v for v in self._own.values if v.items[0].kind == "DATE"]
        at = all_of_them.index(value)
        before = self._written(all_of_them[at - 1]) if at else None
        after = self._written(all_of_them[at + 1]) if at + 1 < len(all_of_them) else None
        return before, after

    def schedules(self, value: Value) -> list[str]:
        """The other schedules of the size on the same line."""
        size = getattr(value.owner, "nps", None)
        return [s for s in pipe.schedules(size) if s != self._written(value)] if size else []

    def _written(self, value: Value) -> str:
        return self._text[value.start : value.end]


@lru_cache(maxsize=1)
def editions() -> dict[str, tuple[str, ...]]:
    """Every shipped book and the editions it has."""
    known = {}
    for id in books():
        try:
            known[id] = book(id).editions
        except LookupError as error:
            known[id] = getattr(error, "editions", ())
    return known
