"""Finds the configuration that counts for a path: the nearest upwards, and no other."""

from __future__ import annotations

import os
from collections.abc import Callable

from hts.base.text.reading import Unreadable, name_below, read_text, root_of
from hts.checking.configuration.configuration import Configuration, ConfigurationError

FILE = "hts.toml"
SHARED = "pyproject.toml"
#: Dots of a line. The time that TOML takes to read a key grows with the square of its parts.
MOST_DOTS = 10_000
#: What a shared file holds when it configures this program.
TABLE = "[tool.hts"

NOTHING = Configuration()


def load(start: str, explicit: str | None = None) -> Configuration:
    """The configuration for a file or folder: the ``explicit`` file, or the nearest `hts.toml` or
    `pyproject.toml` with `[tool.hts]` upwards, to the folder that holds `.git`.

    Files are not merged. Raises ConfigurationError.
    """
    if explicit is not None:
        return _read(explicit, _text(explicit))
    folder = os.path.realpath(start)
    if not os.path.isdir(folder):
        folder = os.path.dirname(folder)
    while True:
        for name in (FILE, SHARED):
            path = os.path.join(folder, name)
            # Settings that are there and cannot be read are told, never passed over.
            if os.path.isfile(path) or (name == FILE and os.path.lexists(path)):
                text = _text(path)
                if name == FILE or TABLE in text:
                    return _read(path, text)
        parent = os.path.dirname(folder)
        if parent == folder or os.path.exists(os.path.join(folder, ".git")):
            return NOTHING
        folder = parent


def loader(explicit: str | None = None) -> Callable[[str], Configuration]:
    """`load` for the many files of one run: what counts for a folder is looked for once."""
    known: dict[str, Configuration] = {}

    def of(path: str) -> Configuration:
        folder = path if os.path.isdir(path) else os.path.dirname(os.path.abspath(path))
        key = folder if explicit is None else explicit
        if key not in known:
            known[key] = load(folder, explicit)
        return known[key]

    return of


def _text(path: str) -> str:
    name = name_below(os.path.realpath(path), root_of(path))
    try:
        text = read_text(path)
    except Unreadable as error:
        raise ConfigurationError(name, str(error)) from None
    if any(line.count(".") > MOST_DOTS for line in text.splitlines()):
        raise ConfigurationError(name, f"a line with more than {MOST_DOTS:,} dots")
    return text


def _read(path: str, text: str) -> Configuration:
    # Whoever sets nothing does not pay for reading it.
    from hts.checking.configuration.read import read

    return read(path, text)
