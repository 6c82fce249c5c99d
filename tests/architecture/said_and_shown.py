"""Whole jobs in one text, entries added to them, and all their paper as text."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from hts.base.text import Source
from hts.generate.smallest import phrase, whole
from hts.job.compiler import compile_spec
from hts.job.compiler.assumed import INTERVAL
from hts.job.compiler.errors import CannotCompile
from hts.job.outputs.job_files import files
from hts.language.vocabulary.declare import CLAUSE, FLAG, VALUE, Entry, Field
from hts.language.vocabulary.paths import title
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.corruption.places import places
from tests.texts import spec_of

ROOT = Path(__file__).resolve().parents[2]


def one_text(job: str) -> str:
    """A good job with the libraries it uses written into it."""
    text = (ROOT / "specs" / f"{job}.hts").read_text("utf-8")
    parts = [text]
    for path in re.findall(r'^use "(.*)"$', text, re.MULTILINE):
        parts.append((ROOT / "specs" / path).read_text("utf-8").replace("\nspec 1\n", "\n"))
    return re.sub(r'^use ".*"\n', "", "\n".join(parts), flags=re.MULTILINE)


@cache
def paper(text: str) -> str | None:
    """Everything a person reads of a job, without the marks of its text; None where the text has
    no paper."""
    spec = spec_of(text, "job.hts")
    try:
        job = compile_spec(spec, INTERVAL)
    except (CannotCompile, AssertionError, AttributeError, TypeError):
        return None
    made = [content.decode() for name, content in files(job).items() if name != "job.json"]
    made += [json.dumps(pages(subject), default=str, sort_keys=True) for subject in subjects(job)]
    bare = re.sub(r"[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}|[0-9a-f]{64}", "mark", "\n".join(made))
    return re.sub(r"\blines? \d+( to \d+)?", "line", bare)


def said_otherwise(text: str, chain: tuple[type[Entry], ...], field: Field) -> Iterator[str]:
    """A text with one more thing said: the field, in the entry the chain leads to."""
    path = ".".join(title(cls) for cls in chain[1:])
    found = [part for part in places(Source(text, "job.hts")).parts if part.path == path]
    for part in found:
        yield _with(text, part.start, part.end, chain[-1], field)


def _with(text: str, start: int, end: int, cls: type[Entry], field: Field) -> str:
    """The entry at a place with one field more."""
    entry = text[start:end]
    if field.form in (VALUE, CLAUSE, FLAG):
        first, brace, rest = entry.partition(" {\n")
        if not brace:
            first, rest = entry.rstrip("\n"), "\n"
        return f"{text[:start]}{first} {field.sample}{brace}{rest}{text[end:]}"
    said = whole(field.entry) if field.entry is not None else field.sample
    head, brace, rest = entry.partition("{\n")
    return f"{text[:start]}{head}{brace}{said}\n{rest}{text[end:]}" if brace else text


def with_entry(text: str, chain: tuple[type[Entry], ...], also: Field | None) -> Iterator[str]:
    """A text with one entry more, of the class the chain ends with: alone, or with a field."""
    owner, cls = chain[-2], chain[-1]
    said = whole(cls, phrase(cls, also)) if also is not None else whole(cls, phrase(cls))
    if len(chain) == 2:
        yield f"{text}\n{said}\n"
        return
    path = ".".join(title(step) for step in chain[1:-1])
    for part in places(Source(text, "job.hts")).parts:
        if part.path == path:
            head, brace, rest = text[part.start : part.end].partition("{\n")
            if brace:
                yield f"{text[: part.start]}{head}{brace}{said}\n{rest}{text[part.end :]}"
    del owner
