"""The text of a configuration while it is read, and what is said about a wrong place in it."""

from __future__ import annotations

from hts.base.text import Source
from hts.checking.configuration.configuration import ConfigurationError
from hts.checking.configuration.places import Path, places


class Reading:
    """``root`` is the way to the table that holds the keys: ``("tool", "hts")`` in a file that
    other programs share."""

    def __init__(self, source: Source, root: Path) -> None:
        self.source = source
        self.root = root
        self._places = places(source.text)

    def place(self, path: Path) -> str:
        """File, line and column of a key or value; of what it is in where it has no place."""
        while path and path not in self._places:
            path = path[:-1]
        line, column = self.source.position(self._places.get(path, 0))
        return f"{self.source.name}:{line}:{column}"

    def wrong(self, path: Path, cause: str, remedy: str) -> ConfigurationError:
        return ConfigurationError(self.place(path), cause, remedy)
