"""Rebuild every generated file of the repository (development only).

A generator is a module with a function `generate(root)` that returns {path: text}, the paths
relative to the repository and written with "/". To add one, name its module in GENERATORS.
"""

import os
from importlib import import_module
from typing import NamedTuple

GENERATORS = (
    # The schema of the data first: the checks of the books rest on it.
    "hts.generate.data",
    "hts.generate.books",
    "hts.generate.check_schema",
    "hts.generate.editors",
    "hts.generate.language",
    "hts.generate.letters",
    "hts.generate.parse_tables",
    "hts.generate.picture",
    "hts.generate.prediction_schema",
    "hts.generate.record_schema",
    "hts.generate.references",
    "hts.generate.requirement_kinds",
    "hts.generate.spec_schema",
)

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

# Folders in which nothing is written by hand: a file that no generator produces is a leftover.
GENERATED_FOLDERS = ("hts/base/data/compiled",)


class Stale(NamedTuple):
    """A generated file that differs from what its generator gives now."""

    path: str
    reason: str  # "missing", "out of date" or "left over"
    text: str | None  # what it should hold; None for a leftover


class GenerateError(Exception):
    """A source that cannot be generated from; the message says where and why."""


def generated(root: str = ROOT) -> dict[str, str]:
    """Return the text of every generated file by its path. Raises GenerateError."""
    files: dict[str, str] = {}
    for module in GENERATORS:
        files.update(import_module(module).generate(root))
    return files


def stale(root: str = ROOT) -> list[Stale]:
    """Return every generated file that is missing, out of date or left over, by path."""
    files = generated(root)
    found = [Stale(path, "left over", None) for path in _present(root) if path not in files]
    for path, text in files.items():
        try:
            with open(os.path.join(root, path), encoding="utf-8", newline="") as file:
                if file.read() != text:
                    found.append(Stale(path, "out of date", text))
        except FileNotFoundError:
            found.append(Stale(path, "missing", text))
    return sorted(found, key=lambda item: item.path)


def write(items: list[Stale], root: str = ROOT) -> None:
    """Bring the given files up to date; leftovers are not touched."""
    for item in items:
        if item.text is not None:
            path = os.path.join(root, item.path)
            os.makedirs(os.path.dirname(path), exist_ok=True)
            with open(path, "w", encoding="utf-8", newline="") as file:
                file.write(item.text)


def _present(root: str) -> list[str]:
    """Return the paths of all files in the generated folders."""
    return [
        os.path.relpath(os.path.join(folder, name), root).replace(os.sep, "/")
        for top in GENERATED_FOLDERS
        for folder, _, names in os.walk(os.path.join(root, top))
        for name in names
    ]
