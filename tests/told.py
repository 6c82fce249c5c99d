"""What the program tells, word for word, kept beside the tests of a room.

A figure, a sign or a word that changes anywhere on the way there shows as the difference of a text
that people can read. What is kept was read by somebody once and comes from nowhere else: whether a
figure is right is held by other tests, against a source. This one holds that nothing slips.

So that it is read, little is kept: of texts of one kind each line once, wherever figures alone, or
what else a test says is no matter, differ (`each_once`), and of the whole of each a digest, which
holds figures, places and how often.

    TELL_ANEW=1 python -m pytest -n 0 tests/ROOM -k told

writes it anew. Read the difference before it is kept. Where only a digest is another,

    TELL_WHOLE=FOLDER python -m pytest -n 0 tests/ROOM -k told

writes every line into the folder: once before the change and once after it, to be compared.
"""

from __future__ import annotations

import difflib
import hashlib
import json
import os
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path

from hts import __version__

_HEAD = "=== "
#: Of the first text of a file so many lines of one shape are kept.
_ROWS = 2
#: What changes with every text, and with every release.
_CHANGING = (
    (re.compile(r"\b[0-9a-f]{4}(-[0-9a-f]{4}){2}\b|\b[0-9a-f]{64}\b"), "FINGERPRINT"),
    (re.compile(rf"\bhts {re.escape(__version__)}(?![\w.])"), "hts VERSION"),
)
#: Figures, and thermocouples and other things told by number.
_FIGURES = re.compile(r"[0-9a-f]{16}$|[A-Z]?\d+(?:[.,/ :–-]*\d+)*S?\b|\d+")


def same(file: Path, name: str, text: str) -> None:
    """Fails where ``text`` is not what ``file`` keeps under ``name``."""
    sections = kept(file)
    write_whole(file, name, _lasting(text).splitlines())
    text = _lasting(text).rstrip("\n")
    if os.environ.get("TELL_ANEW"):
        sections[name] = text
        _write(file, dict(sorted(sections.items())))
    assert text.split("\n") == sections.get(name, "").split("\n"), f"{file.name}: see {__name__}"


def kept(file: Path) -> dict[str, str]:
    """What is kept, by name; empty without a file."""
    if not file.exists():
        return {}
    parts = ("\n" + file.read_text("utf-8")).split(f"\n{_HEAD}")[1:]
    named = (part.partition("\n") for part in parts)
    return {name: text.rstrip("\n") for name, _, text in named}


def without_figures(line: str) -> str:
    """The words of a line."""
    return _FIGURES.sub("#", line)


def each_once(
    file: Path,
    texts: Mapping[str, str],
    shape: Callable[[str], str] = without_figures,
    by_text: bool = False,
) -> None:
    """Of several texts in turn the lines with a `shape` none before has, of the first up to two
    of a shape, so that its tables are seen, and of each its number of lines and a digest of all.

    `by_text` begins anew with each text, and keeps each shape once.
    """
    known: Counter[str] = Counter()
    sections: dict[str, str] = {}
    for name, text in texts.items():
        lines = _lasting(text).splitlines()
        most = 1 if sections or by_text else _ROWS
        if by_text:
            known.clear()
        anew = []
        for line in lines:
            known[shape(line)] += 1
            if known[shape(line)] <= most:
                anew.append(line)
        sections[name] = "\n".join([*anew, f"  in all {len(lines)} lines, {digest(lines)}"])
        write_whole(file, name, lines)
    if os.environ.get("TELL_ANEW"):
        _write(file, sections)
    before = kept(file)
    other = [name for name in sections if sections[name] != before.get(name)]
    assert not other, (
        f"{file.name}: see {__name__}; {', '.join(other)} tell another thing than is kept\n"
        + "\n".join(_difference(before, sections, name) for name in other[:3])
    )
    assert list(sections) == list(before)


def one_line(file: Path, name: str, lines: list[str]) -> None:
    """Of many small texts a line each is kept: name, digest of the whole, and its first line. Fails
    where it is another one, and shows the whole."""
    line = f"{name}  {digest(lines)}  {lines[0]}"
    known = file.read_text("utf-8").splitlines() if file.exists() else []
    if os.environ.get("TELL_ANEW"):
        known = sorted([line, *(other for other in known if other.split("  ")[0] != name)])
        file.parent.mkdir(exist_ok=True)
        file.write_text("\n".join([*known, ""]), "utf-8")
    write_whole(file, name, lines)
    told_now = "\n".join(lines)
    assert line in known, f"{file.name}: see {__name__}; {name} now tells\n{told_now}"


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


def _write(file: Path, sections: Mapping[str, str]) -> None:
    file.parent.mkdir(exist_ok=True)
    lines = [f"{_HEAD}{name}\n{text}\n" for name, text in sections.items()]
    file.write_text("\n".join(lines), "utf-8")


def write_whole(file: Path, name: str, lines: Iterable[str]) -> None:
    """What a digest stands for, where it is asked for."""
    folder = os.environ.get("TELL_WHOLE")
    if folder:
        room = "-".join(file.parent.parent.relative_to(Path(__file__).parent).parts)
        whole = Path(folder) / f"{room}-{file.stem}-{re.sub(r'[^a-z0-9]+', '-', name.lower())}.txt"
        whole.parent.mkdir(parents=True, exist_ok=True)
        whole.write_text("\n".join([*lines, ""]), "utf-8")


def _difference(before: Mapping[str, str], now: Mapping[str, str], name: str) -> str:
    sides = (before.get(name, "").splitlines(), now[name].splitlines())
    return "\n".join(difflib.unified_diff(*sides, "kept", "now", lineterm="", n=0))


def _lasting(text: str) -> str:
    for changing, shown in _CHANGING:
        text = changing.sub(shown, text)
    return text
