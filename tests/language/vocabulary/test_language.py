"""The language reference: all is explained, every example reads, every link leads somewhere.

Whether the written reference is the one generated now is told by tests/generate.
"""

from __future__ import annotations

import re
from pathlib import Path

from hts.base.quantities import Dimension
from hts.base.quantities.units import SYMBOLS
from hts.generate import ROOT
from hts.generate.language import PATH, generate
from hts.generate.smallest import saying, within
from hts.language.vocabulary.declare import BLOCK, CLAUSE, FLAG, VALUE, Entry
from hts.language.vocabulary.limit_lines import LIMIT_LINES, LimitLine
from hts.language.vocabulary.paths import entries, steps, title, walk
from hts.language.vocabulary.spec import File
from hts.limits import FACTS, LIMITED
from hts.syntax.formula.functions import FUNCTIONS
from tests.language.vocabulary.read import read
from tests.rows import each_row

TEXT = generate(ROOT)[PATH]
ENTRIES = [cls for cls in entries(File) if cls is not File]


def by_name(cls: type[Entry]) -> str:
    return cls.__name__


def test_every_field_is_read_in_the_smallest_file_that_says_it() -> None:
    unread = {
        path: tellings
        for path, chain, field in walk(File)
        if (tellings := read(saying(chain, field))[1])
    }
    assert unread == {}


def test_every_example_of_an_entry_is_read_as_that_entry() -> None:
    unread = {}
    for path, chain, field in walk(File):
        cls = field.entry
        if cls is None or "…" in cls.example:
            continue
        file, tellings = read(within(chain, cls.example, field))
        if tellings or not any(type(made) is cls for made in _all_below(file)):
            unread[path] = tellings
    assert unread == {}


def _all_below(entry: Entry) -> list[Entry]:
    found = [entry]
    for field in type(entry).fields.values():
        said = getattr(entry, field.name)
        for child in said if isinstance(said, list) else [said]:
            if isinstance(child, Entry):
                found += _all_below(child)
    return found


@each_row("cls", ENTRIES, ids=by_name)
def test_entries_are_declared_whole(cls: type[Entry]) -> None:
    assert cls.example.startswith(" ".join(cls.words))
    assert cls.meaning().endswith(".")
    for field in cls.fields.values():
        assert field.doc, field.name
        assert field.doc[0].isupper() or not field.doc[0].isalpha(), field.name
        if field.form in (VALUE, CLAUSE, "entry"):
            assert field.type is not None
            assert field.type.words and field.type.example, field.name
        if field.form == "entry":
            assert field.example.startswith(" ".join(field.words))
    names = [step for step, _ in steps(cls)]
    assert len(names) == len(set(names))
    assert set(cls.one_of) <= set(cls.fields)


@each_row("cls", ENTRIES, ids=by_name)
def test_labels_never_hide_each_other(cls: type[Entry]) -> None:
    # The longer of two labels is tried first, so that `control channel` is not `controls`.
    for fields in (*cls.labels.values(), *cls.children.values()):
        lengths = [len(field.words) for field in fields]
        assert lengths == sorted(lengths, reverse=True)
        assert len({field.words for field in fields}) == len(fields)


def test_the_reference_explains_every_entry_and_field() -> None:
    for cls in ENTRIES:
        if issubclass(cls, LimitLine):
            assert f"| `{title(cls)}` |" in TEXT
            continue
        _, found, rest = TEXT.partition(f"\n### {title(cls)}\n")
        assert found, title(cls)
        section = rest.partition("\n### ")[0]
        assert cls.meaning() in section
        for field in cls.fields.values():
            if field.form != BLOCK:
                assert field.doc.rstrip(".") in section
            if field.form in (CLAUSE, FLAG, "entry"):
                assert f"| `{' '.join(field.words)}` |" in section


def test_the_reference_lists_units_functions_facts_and_limits() -> None:
    quantities = [name for name, one in LIMITED.items() if isinstance(one.kind, Dimension)]
    assert list(LIMIT_LINES) == quantities
    for listed in (SYMBOLS, FUNCTIONS, FACTS, LIMIT_LINES):
        for name in listed:
            assert f"`{name}`" in TEXT, name


def test_headings_are_unique_and_links_lead_to_them() -> None:
    headings = re.findall(r"^#+ (.+)$", TEXT, re.MULTILINE)
    anchors = [re.sub(r"[^a-z0-9 -]", "", head.lower()).replace(" ", "-") for head in headings]
    assert len(anchors) == len(set(anchors))
    assert set(re.findall(r"\]\(#([^)]+)\)", TEXT)) <= set(anchors)


def test_tables_have_the_columns_of_their_head() -> None:
    width = 0
    for line in TEXT.splitlines():
        cells = len(re.findall(r"(?<!\\)\|", line)) if line.startswith("|") else 0
        assert not (width and cells and cells != width), line
        width = cells


def test_specifications_in_the_reference_read_without_a_finding() -> None:
    found = re.findall(r"^```hts\n(.*?)^```$", TEXT, re.MULTILINE | re.DOTALL)
    assert len(found) >= 2
    for text in found:
        assert read(text)[1] == [], text


def test_the_written_reference_names_no_path_outside() -> None:
    written = Path(ROOT, PATH).read_text("utf-8")
    assert not re.search(r"https?://|\.\./|^/", written, re.MULTILINE)
