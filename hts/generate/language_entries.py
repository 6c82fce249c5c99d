"""The part of the language reference that lists every entry."""

from __future__ import annotations

import re
from itertools import pairwise

from hts.base.findings import Report
from hts.base.text import Source
from hts.generate.smallest import leading_to, whole, within
from hts.language.vocabulary.declare import BLOCK, CLAUSE, ENTRY, FLAG, VALUE, Entry, Field
from hts.language.vocabulary.limit_lines import LimitLine
from hts.language.vocabulary.paths import entries, title, walk
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Choice, ElementShare, OrRule
from hts.syntax import parse

LIMITS_LINK = "[the limits](#limits-of-a-procedure)"


def section() -> list[str]:
    """Lines of the section: one heading per entry, in the order the file lists them."""
    lines = ["## Entries", "", "The file itself takes these entries.", "", *_block(File)]
    for cls, homes in _listed().items():
        lines += ["", f"### {title(cls)}", "", cls.meaning()]
        lines += ["", f"Stands in: {', '.join(_home(home) for home in homes)}."]
        lines += ["", "```", whole(cls), "```"]
        lines += _phrase(cls)
        if cls.takes_block():
            needs = "It has a block" if cls.needs_block else "It may have a block"
            lines += ["", f"{needs} of these entries:", "", *_block(cls)]
    return lines


def link(cls: type[Entry]) -> str:
    """A link to the section about an entry."""
    anchor = re.sub(r"[^a-z0-9 -]", "", title(cls).lower()).replace(" ", "-")
    return f"[{title(cls)}](#{anchor})"


def takes(field: Field) -> str:
    """What kind of value a field takes."""
    if field.type is None:
        return ""
    kind = field.type.stated if isinstance(field.type, OrRule) else field.type
    words = kind.words
    if isinstance(kind, Choice):
        words = "one of " + ", ".join(f"`{choice}`" for choice in kind.choices)
    if isinstance(field.type, OrRule):
        words = f"{words}, or `by rule`"
    usual = "" if isinstance(kind, ElementShare) else kind.usual
    return f"{words}; usual {usual.replace('0, ', '0 or ')}" if usual else words


def _listed() -> dict[type[Entry], list[type[Entry]]]:
    """All entries but the file, and the limits of a procedure, which have a table of their own."""
    return {
        cls: homes
        for cls, homes in entries(File).items()
        if homes and not issubclass(cls, LimitLine)
    }


def _home(cls: type[Entry]) -> str:
    return link(cls) if cls is not File else "the file"


def _phrase(cls: type[Entry]) -> list[str]:
    """Table of the values, clauses and flags of an entry."""
    fields = [*cls.values, *(f for f in cls.fields.values() if f.form in (CLAUSE, FLAG))]
    if not fields:
        return []
    shown = _shown(cls)
    lines = ["", "| words | takes | | meaning | example |", "|---|---|---|---|---|"]
    for field in fields:
        words = "*value*" if field.form == VALUE else f"`{' '.join(field.words)}`"
        example = shown.get(field.name, field.sample)
        lines.append(_row(words, takes(field), _often(field), field.doc, example))
    if cls.one_of:
        words = ", ".join(f"`{' '.join(cls.fields[name].words)}`" for name in cls.one_of)
        lines += ["", f"It says at least one of {words}."]
    return lines


def _shown(cls: type[Entry]) -> dict[str, str]:
    """How the example of an entry says each field of its phrase that it says."""
    chain, field = next((chain, field) for _, chain, field in walk(File) if field.entry is cls)
    source = Source(within(chain, whole(cls), field), cls.__name__)
    report = Report()
    made = Reader(source, report, File).read(parse(source, report).entries)
    for owner, inner in pairwise((*chain, cls)):
        child = getattr(made, leading_to(owner, inner).name)
        made = child[-1] if isinstance(child, list) else child
    return {
        one.name: " ".join((*one.words, source.text[slice(*made.places[one.name])]))
        for one in cls.fields.values()
        if one.form in (VALUE, CLAUSE) and made.says(one.name)
    }


def _block(cls: type[Entry]) -> list[str]:
    """Table of the entries a block takes."""
    lines = ["| entry | takes | | meaning | example |", "|---|---|---|---|---|"]
    for field in cls.fields.values():
        if field.form == BLOCK:
            if issubclass((field.family or (Entry,))[0], LimitLine):
                lines.append(_row(LIMITS_LINK, "", "repeats", field.doc, ""))
                continue
            for inner in field.family or (field.entry,):
                assert inner is not None
                example = "" if inner.takes_block() else inner.example
                lines.append(_row(link(inner), "", _often(field), inner.meaning(), example))
        elif field.form == ENTRY:
            words = f"`{' '.join(field.words)}`"
            lines.append(_row(words, takes(field), _often(field), field.doc, field.example))
    return lines


def _often(field: Field) -> str:
    """Whether a field must be said, and may be said again."""
    remarks = ["needed"] if field.required else []
    if field.many:
        remarks.append("repeats")
    return ", ".join(remarks)


def _row(words: str, kind: str, often: str, meaning: str, example: str) -> str:
    shown = f"`{example}`" if example else ""
    return f"| {words} | {kind} | {often} | {meaning.rstrip('.')} | {shown} |"
