"""What the program tells, word for word, kept beside the tests of a room.

A figure, a sign or a word that changes anywhere on the way there shows as the difference of a text
that people can read. What is kept was read by somebody once and comes from nowhere else: whether a
figure is right is held by other tests, against a source. This one holds that nothing slips.

    TELL_ANEW=1 python -m pytest -n 0 tests/ROOM -k told

writes it anew. Read the difference before it is kept.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from hts import __version__

_HEAD = "=== "
#: What changes with every text, and with every release.
_CHANGING = (
    (re.compile(r"\b[0-9a-f]{4}(-[0-9a-f]{4}){2}\b|\b[0-9a-f]{64}\b"), "FINGERPRINT"),
    (re.compile(rf"\bhts {re.escape(__version__)}(?![\w.])"), "hts VERSION"),
)


def same(file: Path, name: str, text: str) -> None:
    """Fails where ``text`` is not what ``file`` keeps under ``name``."""
    sections = kept(file)
    text = _lasting(text).rstrip("\n")
    if os.environ.get("TELL_ANEW"):
        sections[name] = text
        file.parent.mkdir(exist_ok=True)
        lines = [f"{_HEAD}{one}\n{told}\n" for one, told in sorted(sections.items())]
        file.write_text("\n".join(lines), "utf-8")
    assert text.split("\n") == sections.get(name, "").split("\n"), f"{file.name}: see {__name__}"


def kept(file: Path) -> dict[str, str]:
    """What is kept, by name; empty without a file."""
    if not file.exists():
        return {}
    parts = ("\n" + file.read_text("utf-8")).split(f"\n{_HEAD}")[1:]
    named = (part.partition("\n") for part in parts)
    return {name: text.rstrip("\n") for name, _, text in named}


def otherwise(text: str, usual: str) -> str:
    """The lines of a text that the usual one has not."""
    known = set(usual.splitlines())
    return "\n".join(line for line in text.splitlines() if line not in known)


def leaves(value: object, without: frozenset[str] = frozenset(), at: str = "") -> Iterator[str]:
    """A document line by line, `a/b: 3`; what stands in a list has no number. Keys `without` are
    left out."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if key not in without:
                yield from leaves(inner, without, f"{at}/{key}" if at else str(key))
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from leaves(inner, without, at)
    elif isinstance(value, float):
        yield f"{at}: {value:.3f}"
    else:
        yield f"{at}: {json.dumps(value, ensure_ascii=False)}"


def digest(lines: Iterable[str]) -> str:
    """Stands for what nobody reads, as where on a sheet something is drawn."""
    return hashlib.sha256(_lasting("\n".join(lines)).encode()).hexdigest()[:16]


def _lasting(text: str) -> str:
    for changing, shown in _CHANGING:
        text = changing.sub(shown, text)
    return text
