"""Rows of the list kept from one start to the next, so that it stands there at once."""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Any

from hts.checking.checker.check_paths import cache_folder
from hts.checking.checker.program import digest_of, program
from hts.checking.checker.sealed_file import read, write
from hts.checking.configuration import ConfigurationError
from hts.checking.configuration import load as configuration_for
from hts.view.checked import day_of, unchanged
from hts.view.list_page import Row
from hts.view.markup import Html

#: Fields of a row that are markup, which only a sealed file may bring.
_MARKUP = ("result", "changed", "calibration")


class KeptRows:
    """Those of the texts below a root; nothing where the user has no cache folder."""

    def __init__(self, root: str, config: str | None) -> None:
        self._root, self._config = root, config
        folder = cache_folder()
        parts = ("rows of the list", os.path.realpath(root), program(), config or "")
        self._key = digest_of(os.fsencode("\0".join(parts)))
        self._path = os.path.join(folder, f"{self._key}.json") if folder else ""

    def rows(self, paths: Mapping[str, str], commit: object) -> dict[str, Row]:
        """Key -> row, of the texts nothing has changed for: no file of theirs, no commit, no
        setting, no day. `paths` are key -> path."""
        kept = read(self._path, self._key, self._root) if self._path else None
        found: dict[str, Row] = {}
        if kept is None or kept.get("commit") != repr(commit):
            return found
        settings: dict[str, tuple[str, str]] = {}
        for key, path in paths.items():
            entry = kept["rows"].get(key)
            row = _row(entry) if entry is not None else None
            if row is None or not row.keeps or not unchanged(row.stamps):
                continue
            folder = os.path.dirname(path)
            if folder not in settings:
                settings[folder] = self._settings(path)
            if (row.config, row.day) == settings[folder]:
                found[key] = row
        return found

    def keep(self, rows: Mapping[str, Row], commit: object) -> None:
        """Keeps the rows for the next start."""
        if self._path:
            body = {key: row._asdict() for key, row in rows.items() if row.keeps}
            write(self._path, self._key, self._root, {"commit": repr(commit), "rows": body})

    def _settings(self, path: str) -> tuple[str, str]:
        """The file of settings in force and the day that is judged by."""
        try:
            configured = configuration_for(path, self._config)
        except ConfigurationError:
            return "", ""
        return configured.path or "", day_of(configured)


def _row(entry: dict[str, Any]) -> Row | None:
    try:
        stamps = {path: tuple(stamp) for path, stamp in entry["stamps"].items()}
        markup = {name: Html(entry[name]) for name in _MARKUP}
        return Row(**{**entry, **markup, "stamps": stamps})
    except (KeyError, TypeError, AttributeError):
        return None
