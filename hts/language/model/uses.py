"""Which files use which, told from their texts alone: for finding what a change reaches.

Nothing is parsed, so that thousands of files cost next to nothing. A file may be said to use more
than it does, as where a remark quotes a `use`; never less.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Iterable, Mapping

from hts.language.model.found_on import text_of

#: `use`, a `book` of the repository's own, and the table of a weld list `from` a file.
_USE = re.compile(r'\b(?:use|book|from)\b[^"\n]*"([^"\n]*)"')


def used_by(text: str, path: str) -> list[str]:
    """The paths a text names of files it uses, seen from where the path of the text is seen; of
    results, that of the text they are of, too."""
    folder = posixpath.dirname(path)
    named = [posixpath.normpath(posixpath.join(folder, each)) for each in _USE.findall(text)]
    beside = text_of(path)
    return [*named, posixpath.normpath(beside)] if beside is not None else named


def reached(uses: Mapping[str, Iterable[str]], changed: Collection[str]) -> dict[str, str]:
    """The files that use a changed one, by way of others, too, each with the file it uses on the
    way there. The changed ones themselves are in it only where they use another one."""
    users: dict[str, list[str]] = {}
    for path, used in uses.items():
        for each in used:
            users.setdefault(each, []).append(path)
    found: dict[str, str] = {}
    waiting = sorted(changed)
    while waiting:
        used_path = waiting.pop(0)
        for user in users.get(used_path, ()):
            if user not in found:
                found[user] = used_path
                waiting.append(user)
    return found
