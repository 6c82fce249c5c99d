"""What can be written where the cursor is: what is missing first, then the rest."""

from __future__ import annotations

import re

from hts.editor import offer as kinds
from hts.editor.offer import Offer, Surroundings
from hts.editor.outline import Line
from hts.editor.phrase import CLAUSE, FLAG_WORDS, Phrase, read_phrase
from hts.editor.place import Text
from hts.editor.snippets import snippet_of
from hts.editor.values import phrases, value_offers
from hts.language.vocabulary import declare
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.spec import File
from hts.syntax import Token

_PREFIX = re.compile(r"[^\s,{}()\"#]*\Z")
_TEXT_OR_COMMENT = re.compile(r'"(?:[^"\\\n]|\\.)*(?P<open>"|\Z)|(?P<comment>#)')


def prefix_start(text: str, offset: int) -> int:
    """Where the word begins that ends at an offset; for a text in quotes, its first quote."""
    begins = text.rfind("\n", 0, offset) + 1
    inside = _open_text(text[begins:offset])
    if inside is not None:
        return begins + inside
    found = _PREFIX.search(text, begins, offset)
    return found.start() if found else offset


def _open_text(line: str) -> int | None:
    """Where a text begins that is not closed on the line."""
    for found in _TEXT_OR_COMMENT.finditer(line):
        if found["comment"]:
            return None
        if not found["open"]:
            return found.start()
    return None


def _in_comment(line: str) -> bool:
    return any(found["comment"] for found in _TEXT_OR_COMMENT.finditer(line))


def completion(text: Text, offset: int, around: Surroundings) -> list[Offer]:
    """The offers at an offset, best first. What is written there of a word counts as not written:
    who shows the offers filters them."""
    source = text.source.text
    begins = source.rfind("\n", 0, offset) + 1
    if _in_comment(source[begins:offset]):
        return []
    start = prefix_start(source, offset)
    line = _line_before(text, start)
    if line is None:
        block_line = text.outline.block_at(start)
        current = text.outline.line_at(offset)
        block = text.phrase(block_line).cls if block_line is not None else File
        if block is None:
            return []
        said = _said_in(text, block_line, current)
        offers = _entries(block, [], said)
        if source[start : start + 1] == '"':
            return []
        return _sorted(offers)
    head = source[line.start : start]
    phrase = read_phrase(line.block, head)  # type: ignore[arg-type]  # a class is hashable
    written = _behind(text.phrase(line), offset - line.start)
    offers = _going_on(line, phrase, written, around._replace(line=line))
    quoted = source[start : start + 1] == '"'
    if quoted:
        offers = [each for each in offers if each.insert.startswith('"')]
    said = _said_in(text, line.parent, line)
    words = [token.text for token in phrase.tokens if token.kind == "WORD"]
    if line.block is not None and len(words) == len(phrase.tokens) and not quoted:
        offers += _entries(line.block, words, said)
    return _sorted(offers)


def _line_before(text: Text, start: int) -> Line | None:
    """The entry that a word at ``start`` goes on, None where it begins one."""
    found: Line | None = None
    for line in text.outline.lines:
        if line.start >= start:
            break
        found = line
    if found is None or (found.open is not None and found.open < start):
        return None
    between = text.source.text[found.end : start]
    if found.end >= start:
        return found
    goes_on = text.source.text[found.start : found.end].endswith(",")
    if ("\n" in between and not goes_on) or "{" in between or "}" in between:
        return None
    return found


def _behind(phrase: Phrase, offset: int) -> set[str]:
    """Fields an entry says behind an offset, without the one that is written there."""
    labels = [part for part in phrase.parts if part.field and part.role in (CLAUSE, FLAG_WORDS)]
    here = {part.field for part in labels if part.start <= offset <= part.end}
    return {p.field.name for p in labels if p.field and p.start > offset and p.field not in here}


def _said_in(text: Text, block: Line | None, current: Line | None) -> set[str]:
    """Fields a block says already, without the entry the cursor is in."""
    lines = block.inner if block is not None else text.outline.top
    said = set()
    for line in lines:
        if line is not current:
            field = text.phrase(line).field
            if field is not None:
                said.add(field.name)
    return said


def _entries(block: type[Entry], words: list[str], said: set[str]) -> list[Offer]:
    """The entries of a block that begin with the words written, what is missing first."""
    offers = []
    for fields in block.children.values():
        for field in fields:
            if list(field.words[: len(words)]) != words or len(field.words) == len(words):
                continue
            if field.name in said and not field.many:
                continue
            missing = field.required and field.name not in said
            offers.append(_of_field(field, len(words), kinds.ENTRY, 0 if missing else 5))
    if block.named is not None and not words:
        named = block.named
        assert named.entry is not None
        example = named.entry.example
        offers.append(
            Offer(
                example,
                example,
                kinds.ENTRY,
                named.doc,
                f"for example `{example}`",
                snippet_of(named),
                4,
            )
        )
    return offers


def _of_field(field: Field, skip: int, kind: str, rank: int) -> Offer:
    """The words of a field that are still to be written, with what it needs as places to fill."""
    left = " ".join(field.words[skip:])
    whole = snippet_of(field)
    words = " ".join(field.words)
    snippet = left + whole[len(words) :] if whole.startswith(words) else left
    behind = "" if field.form == declare.FLAG else " "
    return Offer(left, left + behind, kind, _takes(field), field.doc, snippet, rank)


def _takes(field: Field) -> str:
    if field.type is not None:
        return field.type.words
    if field.form == declare.BLOCK and field.entry is not None:
        return f"{title(field.entry)}: {field.doc}"
    return field.doc


def _going_on(line: Line, phrase: Phrase, behind: set[str], around: Surroundings) -> list[Offer]:
    """What an entry can go on with behind its words so far."""
    offers: list[Offer] = []
    cls = phrase.cls
    said = phrase.said() | behind
    labels = [field for fields in cls.labels.values() for field in fields] if cls else []
    last = phrase.values[-1] if phrase.values else None
    labelled = [part.start for part in phrase.parts if part.role in (CLAUSE, FLAG_WORDS)]
    if last is not None and not any(start >= last.end for start in labelled):
        begun = [t for t in phrase.tokens if t.start >= last.start and t.kind != "_NL"]
        if last.field.many:
            begun = _behind_comma(begun)
        offers += value_offers(last.field, begun, around)
        if not last.sound and not begun:
            # Its label may be the middle of a longer one: `at` in `times at most`.
            return offers + _words_begun(phrase, labels, said, around)
    if cls is None:
        return offers
    for field in labels:
        if field.name in said and not (field.many and field.form == declare.CLAUSE):
            continue
        rank = 1 if field.required else 5
        kind = kinds.FLAG if field.form == declare.FLAG else kinds.CLAUSE
        offers.append(_of_field(field, 0, kind, rank))
    for waiting in phrase.waiting:
        given = value_offers(waiting, [], around)
        if waiting.required:
            # It stands before every clause.
            offers += [each._replace(rank=each.rank - 6) for each in given]
            break
        offers += given
    offers += _words_begun(phrase, labels, said, around)
    return offers


def _words_begun(
    phrase: Phrase, labels: list[Field], said: set[str], around: Surroundings
) -> list[Offer]:
    """Clauses and values of which the first words have been written."""
    offers: list[Offer] = []
    tail: list[str] = []
    for token in reversed(phrase.tokens):
        if token.kind != "WORD":
            break
        tail.insert(0, token.text)
    for count in range(1, min(len(tail), 4) + 1):
        words = tail[-count:]
        for field in labels:
            if list(field.words[:count]) == words and len(field.words) > count:
                kind = kinds.FLAG if field.form == declare.FLAG else kinds.CLAUSE
                offers.append(_of_field(field, count, kind, 1))
        for field in phrase.waiting:
            choices = getattr(field.type, "choices", ())
            offers += phrases(choices, words, kinds.CHOICE, field.doc)
    return offers


def _behind_comma(tokens: list[Token]) -> list[Token]:
    """The tokens behind the last comma."""
    for at in range(len(tokens) - 1, -1, -1):
        if tokens[at].kind == "COMMA":
            return tokens[at + 1 :]
    return tokens


def _sorted(offers: list[Offer]) -> list[Offer]:
    """Each label once, best first."""
    found: dict[str, Offer] = {}
    for each in sorted(offers, key=lambda each: each.rank):
        found.setdefault(each.label, each)
    return list(found.values())
