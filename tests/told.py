"""What the program tells, word for word, kept beside the tests of a room.

A figure, a sign or a word that changes anywhere on the way there shows as the difference of a text
that people can read. What is kept was read by somebody once and comes from nowhere else: whether a
figure is right is held by other tests, against a source. This one holds that nothing slips.

    TELL_ANEW=1 python -m pytest -n 0 tests/ROOM

writes it anew. Read the difference before it is kept.
"""

from __future__ import annotations

import os
from pathlib import Path

_HEAD = "=== "


def same(file: Path, name: str, text: str) -> None:
    """Fails where ``text`` is not what ``file`` keeps under ``name``."""
    sections = kept(file)
    if os.environ.get("TELL_ANEW"):
        sections[name] = text.rstrip("\n")
        file.parent.mkdir(exist_ok=True)
        lines = [f"{_HEAD}{one}\n{told}\n" for one, told in sorted(sections.items())]
        file.write_text("\n".join(lines), "utf-8")
    assert text.rstrip("\n") == sections.get(name), f"{file.name}, {name}: see {__name__}"


def kept(file: Path) -> dict[str, str]:
    """What is kept, by name; empty without a file."""
    if not file.exists():
        return {}
    parts = ("\n" + file.read_text("utf-8")).split(f"\n{_HEAD}")[1:]
    named = (part.partition("\n") for part in parts)
    return {name: text.rstrip("\n") for name, _, text in named}
