"""What is said about words the reader did not expect: loaded when there is such a word only."""

from __future__ import annotations

from hts.base.findings import Finding, Label
from hts.language.vocabulary.cursor import Cursor
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.mistakes import MISPLACED_ENTRY, UNEXPECTED_VALUE, UNKNOWN_ENTRY
from hts.language.vocabulary.required import called
from hts.language.vocabulary.suggest import nearest
from hts.syntax.tree import Entry as Node
from hts.syntax.tree import Item


def unexpected(made: Entry, cursor: Cursor, waiting: list[Field]) -> Finding:
    """About an item where the phrase should have ended, or gone on with a clause or one of the
    values that still wait."""
    item = cursor.items[cursor.at]
    found = cursor.text(item)
    labels = [" ".join(f.words) for fields in type(made).labels.values() for f in fields]
    choices = [word for f in waiting for word in getattr(f.type, "choices", ())]
    guess = None
    if item.kind == "WORD":
        two = f"{found} {cursor.word(1)}".strip()
        guess = nearest(two, labels + choices) or nearest(found, labels + choices)
    if guess:
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


def unknown(root: type[Entry], parent: Entry, node: Node) -> Finding:
    """About an entry that its block does not take: one of another block, or none at all."""
    cls = type(parent)
    source = parent.source
    first = node.items[0]
    found = source.text[first.start : first.end]
    written = _leading_words(node.items)
    where = f"in the block of {called(parent)}" if cls.words else "at the top of a file"
    owners = _owners(root, written)
    if owners:
        words = owners[0][1]
        end = node.items[len(words.split()) - 1].end
        homes = " or ".join(dict.fromkeys(home for home, _ in owners))
        return Finding(
            MISPLACED_ENTRY,
            f"`{words}` does not belong {where}",
            Label(source.span(first.start, end)),
            address=parent.address,
            help=f"it belongs in: {homes}",
        )
    here = [" ".join(f.words) for fields in cls.children.values() for f in fields]
    guess = nearest(written, here) or nearest(found, here)
    if guess is None and len(written.split()) > 1:
        guess = nearest(" ".join(written.split()[:2]), here)
    shown = ", ".join(f"`{w}`" for w in sorted(here))
    help = f"did you mean `{guess}`?" if guess else f"known here: {shown}" if here else ""
    return Finding(
        UNKNOWN_ENTRY,
        f"{found!r} is not an entry {where}",
        Label(source.span(first.start, first.end)),
        address=parent.address,
        help=help,
    )


def _leading_words(items: list[Item]) -> str:
    words = []
    for item in items:
        if item.kind != "WORD":
            break
        words.append(getattr(item, "text", ""))
    return " ".join(words[:4])


def _owners(root: type[Entry], written: str) -> list[tuple[str, str]]:
    """Where in the language an entry with these words has its place: (home, words)."""
    found: list[tuple[str, str]] = []
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
                words = " ".join(field.words)
                if written == words or written.startswith(words + " "):
                    found.append((home, words))
        queue.extend(f.entry for f in cls.fields.values() if f.entry is not None)
    longest = max((len(words) for _, words in found), default=0)
    return [(home, words) for home, words in found if len(words) == longest]
