"""What is said about words the reader did not expect: loaded when there is such a word only."""

from __future__ import annotations

import re

from hts.base.findings import Finding, Label
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.mistakes import (
    MISPLACED_ENTRY,
    UNEXPECTED_VALUE,
    UNKNOWN_ENTRY,
    UNKNOWN_UNIT,
    UNREADABLE_NUMBER,
    WRONG_VALUE,
)
from hts.language.vocabulary.other_forms import meant_label, right_form
from hts.language.vocabulary.required import called
from hts.language.vocabulary.suggest import nearest
from hts.syntax.tree import Entry as Node
from hts.syntax.tree import Item

#: What thermocouples are usually called.
_TAG = re.compile(r"TC?-?\d+S?", re.IGNORECASE)
#: Kinds of misreading behind which there may be a habit of writing.
_HABITS = (WRONG_VALUE, UNKNOWN_UNIT, UNREADABLE_NUMBER, UNEXPECTED_VALUE)


def unexpected(made: Entry, cursor: Cursor, waiting: list[Field]) -> Finding:
    """About an item where the phrase should have ended, or gone on with a clause or one of the
    values that still wait."""
    item = cursor.items[cursor.at]
    found = cursor.text(item)
    labels = [" ".join(f.words) for fields in type(made).labels.values() for f in fields]
    choices = [word for f in waiting for word in getattr(f.type, "choices", ())]
    guess = None
    right = right_form(cursor.source.text[item.start :], None, labels)
    if item.kind == "WORD" and not right:
        two = f"{found} {cursor.word(1)}".strip()
        guess = nearest(two, labels + choices) or nearest(found, labels + choices)
    if right:
        help = right
    elif guess:
        help = f"did you mean `{guess}`?"
    elif labels:
        help = f"here the entry can go on with: {', '.join(f'`{w}`' for w in labels)}"
    else:
        help = "the entry is complete before it"
    return Finding(
        UNEXPECTED_VALUE,
        f"{found!r} is not expected here",
        Label(made.source.span(item.start, cursor.items[-1].end)),
        address=made.address,
        help=help,
    )


def better_help(made: Entry, error: Misread, field: Field | None, begun: int) -> str:
    """The right form of what was misread, where that is plain; else the help of the error."""
    if error.kind not in _HABITS:
        return error.help
    start = begun if error.kind is UNEXPECTED_VALUE else error.start
    labels = [" ".join(f.words) for fields in type(made).labels.values() for f in fields]
    return right_form(made.source.text[start:], field.type if field else None, labels) or error.help


def unknown(root: type[Entry], parent: Entry, node: Node) -> tuple[Finding, str]:
    """About an entry that its block does not take, and its words if it is one of another block."""
    cls = type(parent)
    source = parent.source
    first = node.items[0]
    found = source.text[first.start : first.end]
    written = _leading_words(node.items)
    where = f"in the block of {called(parent)}" if cls.words else "at the top of a file"
    here = [" ".join(f.words) for fields in cls.children.values() for f in fields]
    ours = " ".join(meant_label(word) or word for word in written.split())
    guess = next((words for words in here if f"{ours} ".startswith(f"{words} ")), None)
    owners = _owners(root, written)
    if owners:
        words = owners[0][1]
        end = node.items[len(words.split()) - 1].end
        homes = " or ".join(dict.fromkeys(home for home, _ in owners))
        finding = Finding(
            MISPLACED_ENTRY,
            f"`{words}` does not belong {where}",
            Label(source.span(first.start, end)),
            address=parent.address,
            help=_as_demand(parent, written)
            or (f"did you mean `{guess}`? `{words}` belongs in: " if guess else "it belongs in: ")
            + homes,
        )
        return finding, words
    guess = guess or nearest(written, here)
    if guess is None and found != written:
        guess = nearest(found, here)
    if guess is None and len(written.split()) > 1:
        guess = nearest(" ".join(written.split()[:2]), here)
    shown = ", ".join(f"`{w}`" for w in sorted(here))
    help = f"did you mean `{guess}`?" if guess else f"known here: {shown}" if here else ""
    if guess is None:
        help = _as_demand(parent, written) or help
    if guess is None and _TAG.fullmatch(found) and "thermocouples" in here:
        help = "thermocouples stand in a block of their own: `thermocouples type K { … }`"
    if found in ("/", "-", "*"):
        help = "a comment begins with #"
    finding = Finding(
        UNKNOWN_ENTRY,
        f"{found!r} is not an entry {where}",
        Label(source.span(first.start, first.end)),
        address=parent.address,
        help=help,
    )
    return finding, ""


def _as_demand(parent: Entry, written: str) -> str:
    """How a procedure asks a job for what was written as if it were an entry of its own; empty
    elsewhere, or where no job says it."""
    if type(parent).words != ("procedure",):
        return ""
    from hts.language.vocabulary.demanded import by_first_word  # wanted by messages only

    found = [
        (words, place)
        for words, place in by_first_word().get(written.split(" ")[0], ())
        if f"{written} ".startswith(f"{' '.join(words)} ")
    ]
    longest = max((len(words) for words, _ in found), default=0)
    places = [place for words, place in found if len(words) == longest]
    best = min((place.rank for place in places), default=0)
    ways = dict.fromkeys(f"`requires {p.called} …`" for p in places if p.rank == best)
    return f"a job says it; ask for it: {' or '.join(list(ways)[:3])}" if ways else ""


def _leading_words(items: list[Item]) -> str:
    words = []
    for item in items:
        if item.kind != "WORD":
            break
        words.append(getattr(item, "text", ""))
    return " ".join(words[:4])


def _owners(root: type[Entry], written: str) -> list[tuple[str, str]]:
    """Where in the language an entry with these words has its place: (home, words)."""
    if root not in _HOMES:
        _HOMES[root] = _homes(root)
    homes = _HOMES[root]
    words = written.split()
    for count in range(len(words), 0, -1):
        begins = " ".join(words[:count])
        if begins in homes:
            return [(home, begins) for home in homes[begins]]
    return []


#: By the root of a language: made once, as a damaged text may hold thousands of unknown words.
_HOMES: dict[type[Entry], dict[str, list[str]]] = {}


def _homes(root: type[Entry]) -> dict[str, list[str]]:
    """Words of every entry of a language, and the blocks that take it, nearest to the top first."""
    found: dict[str, list[str]] = {}
    seen: set[type[Entry]] = set()
    queue: list[type[Entry]] = [root]
    while queue:
        cls = queue.pop(0)
        if cls in seen:
            continue
        seen.add(cls)
        home = f"`{' '.join(cls.words)}`" if cls.words else "the top of a file"
        for fields in cls.children.values():
            for field in fields:
                found.setdefault(" ".join(field.words), []).append(home)
        queue.extend(f.entry for f in cls.fields.values() if f.entry is not None)
    return found
