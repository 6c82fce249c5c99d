"""The texts a specification is judged by: itself and what it uses, its results, its settings."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator

from hts.base.text.reading import Unreadable, read_bytes, root_of
from hts.checking.configuration.find import FILE, SHARED
from hts.language.model.uses import used_by
from hts.record import results


def used(spec: str) -> dict[str, bytes]:
    """A text and all that it uses, by way of others, too: path -> bytes. What lies outside the
    repository is not read; that it does is told where the text is."""
    found: dict[str, bytes] = {}
    _with_used(spec, os.path.join(root_of(spec), ""), found, set())
    return found


def _with_used(path: str, root: str, found: dict[str, bytes], known: set[str]) -> None:
    real = os.path.realpath(path)
    if real in known or not (real.startswith(root) or not known):
        return
    known.add(real)
    try:
        data = read_bytes(real)
    except Unreadable:
        return
    found[path] = data
    for one in used_by(data.decode("utf-8", "replace"), os.path.abspath(path)):
        _with_used(one, root, found, known)


def besides(spec: str, config: str | None) -> Iterator[str]:
    """Paths of its results and of the settings that are looked for, up to the top of the
    repository; they need not be there."""
    for path in (results.beside(spec), config):
        if path is not None:
            yield path
    folder = os.path.dirname(os.path.realpath(spec))
    while True:
        yield from (os.path.join(folder, name) for name in (FILE, SHARED))
        parent = os.path.dirname(folder)
        if parent == folder or os.path.exists(os.path.join(folder, ".git")):
            return
        folder = parent


def content(spec: str, config: str | None) -> str:
    """A digest of them all: what is made of them is the same while it is."""
    digest = hashlib.sha256()
    for path, data in used(spec).items():
        digest.update(f"{path}\0{len(data)}\0".encode("utf-8", "surrogateescape"))
        digest.update(data)
    for path in besides(spec, config):
        try:
            data = read_bytes(path)
        except Unreadable:
            continue
        digest.update(f"{path}\0{len(data)}\0".encode("utf-8", "surrogateescape"))
        digest.update(data)
    return digest.hexdigest()
