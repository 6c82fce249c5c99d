"""The fingerprint every paper carries: what was compiled, down to the last letter that counts.

It covers the entries of the text in the order they stand in, the texts it uses, the rule books it
is held to, the units on its paper, whether the text or a configuration names them, the rules that a
configuration leaves out, and nothing else: no comment and no layout, so that tidying a text up
never outdates the paper in the field; no path outside the specification's own folder, no clock, and
not the version of this program, which is printed beside it. A value in another unit is another
text: the paper shows it as written.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator

from hts.base.data import load
from hts.base.findings import Report
from hts.base.text import Source
from hts.checking.govern import Authority
from hts.language.layout.meaning import pieces
from hts.language.model import Spec
from hts.language.model.load import VERSION
from hts.language.vocabulary.spec import File
from hts.syntax import parse

_SHOWN = 12


def fingerprint(spec: Spec, authorities: Iterable[Authority]) -> str:
    """SHA-256 in hexadecimal digits. `authorities` are the books and procedures in force."""
    digest = hashlib.sha256()
    for part in _parts(spec, authorities):
        data = part.encode("utf-8")
        # Each part is told apart by its length, so that no letter can move from one to the next.
        digest.update(b"%d:" % len(data) + data)
    return digest.hexdigest()


def grouped(digest: str) -> str:
    """The part of a digest that goes on paper: `3f9a-01bc-77de`."""
    return "-".join(digest[at : at + 4] for at in range(0, _SHOWN, 4))


def used_name(spec: Spec, path: str) -> str:
    """A used file as seen from the folder of the specification, with forward slashes."""
    own = spec.source.path
    base = os.path.dirname(os.path.realpath(own)) if own else spec.loader.root
    return os.path.relpath(os.path.realpath(path), base).replace(os.sep, "/")


def _parts(spec: Spec, authorities: Iterable[Authority]) -> Iterable[str]:
    yield f"language {VERSION}"
    yield from _text(spec.source)
    yield from _rows(spec.file)
    for library in spec.libraries:
        yield f"uses {used_name(spec, library.path)}"
        yield from _text(library.file.source)
        yield from _rows(library.file)
    job = spec.file.job
    if job is not None and "show" in job.configured:
        yield f"show {job.show}"
    for quieted in spec.defaults.quieted:
        # Not the line it stands on: that is layout.
        yield f"settings {quieted.words}"
    for authority in authorities:
        if authority.is_book:
            yield f"book {authority.name} edition {authority.edition}"
            own = authority.file
            data = own.file.data if own is not None else load(f"books/{authority.name}")
            yield json.dumps(data, ensure_ascii=True, sort_keys=True)


def _rows(file: File) -> Iterator[str]:
    """What the rows of weld lists say that count, as if written out: a column nobody reads, the
    order of columns and the form of the table are layout."""
    for listed in file.weld_lists:
        yield f"weld list {listed.name}"
        if listed.sound:
            yield json.dumps([row.source.text for row in listed.joints], ensure_ascii=True)
        elif listed.table is not None:
            yield listed.table.text


def _text(source: Source) -> Iterator[str]:
    """What the text says, in one spelling; as it stands where it cannot be read whole."""
    report = Report()
    said = [f"{kind} {text}" for kind, text, _ in pieces(parse(source, report))]
    if report.findings:
        yield source.text.replace("\r\n", "\n").replace("\r", "\n")
    else:
        yield json.dumps(said, ensure_ascii=True)
