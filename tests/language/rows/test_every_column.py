"""Every entry of a joint that a table can say reads from cells as it does where it is written."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from hts.language.vocabulary.column import _NOT_BY_ROW
from hts.language.vocabulary.declare import BLOCK, CLAUSE, ENTRY, FLAG, Entry, Field
from hts.language.vocabulary.export import export
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.types import Choice, OrRule, Text
from tests.language.rows.lists import job, spec, table, written
from tests.rows import each_row

_HEAD = '  weld  in "Weld no."\n  like  W12\n  rows  1\n'


class Said(NamedTuple):
    """One entry: the words of its columns with the cells, and the line a person would write."""

    path: str
    columns: tuple[tuple[str, str], ...]
    line: str


def _value(field: Field) -> str:
    """An example of the value alone."""
    assert field.type is not None
    example = field.example or field.type.example
    words = " ".join(field.words)
    return example.removeprefix(words).strip() if field.form == ENTRY else example


def _cell(field: Field) -> str:
    value = _value(field)
    stated = field.type.stated if isinstance(field.type, OrRule) else field.type
    return value[1:-1] if isinstance(stated, Text) and value.startswith('"') else value


def _entries(cls: type[Entry], path: tuple[str, ...], words: tuple[str, ...]) -> Iterator[Said]:
    for field in cls.fields.values():
        here = "/".join((*path, *(field.words or ("…",))))
        if field.name in _NOT_BY_ROW or not field.words:
            continue
        lead = (*words, *field.words)
        if field.form == ENTRY:
            yield Said(
                here, ((" ".join(lead), _cell(field)),), f"{' '.join(field.words)} {_value(field)}"
            )
        elif field.form == BLOCK and field.entry is not None:
            if field.entry.takes_block():
                if not field.many:
                    inner = _entries(field.entry, (*path, *field.words), lead)
                    yield from (
                        s._replace(line=f"{' '.join(field.words)} {{\n    {s.line}\n  }}")
                        for s in inner
                    )
            elif not (path[1:] and field.many):
                yield from _phrases(field.entry, here, lead, field.words)


def _phrases(
    cls: type[Entry], path: str, lead: tuple[str, ...], words: tuple[str, ...]
) -> Iterator[Said]:
    """The entry with all it has to say, and once more with each thing it can say besides."""
    values = [f for f in cls.fields.values() if f.form == "value"]
    chosen = [f for f in values[1:] if isinstance(f.type, Choice)]
    if len(values) - len(chosen) > 1:
        # Of two values without words between them a column leads to the first.
        return
    needed = [f for f in cls.fields.values() if f.required and f.form in ("value", CLAUSE)]
    others = [
        f
        for f in cls.fields.values()
        if f.form in ("value", CLAUSE, FLAG) and f not in needed and f.name in _fields(cls)
    ]
    for other in (None, *others):
        fields = [f for f in cls.fields.values() if f in needed or f is other]
        if not any(f.form != FLAG for f in fields):
            continue
        given = [" ".join(f.words) for f in fields if f.form == FLAG]
        columns = []
        line = [" ".join(words)]
        for field in fields:
            if field.form == FLAG:
                line.append(" ".join(field.words))
                continue
            if field in chosen:
                # Said for the whole column, as in `wall measured`.
                given.append(_value(field))
                line.append(_value(field))
                continue
            if field.form == CLAUSE:
                line.append(" ".join(field.words))
            line.append(_value(field))
            columns.append(
                (" ".join((*lead, *(field.words if field.form == CLAUSE else ()))), _cell(field))
            )
        if given:
            first, cell = columns[0]
            columns[0] = (f"{first} {' '.join(given)}", cell)
        yield Said(f"{path}/{other.name if other else '…'}", tuple(columns), " ".join(line))


def _fields(cls: type[Entry]) -> set[str]:
    return {f.name for fs in cls.labels.values() for f in fs} | {f.name for f in cls.values}


ALL = list(_entries(Joint, ("joint",), ()))


def _joint(made: Any) -> dict[str, Any]:
    (found,) = [j for j in export(made.file)["joints"] if j["names"] == ["W101"]]
    return dict(found)


def test_there_are_many() -> None:
    assert len(ALL) > 60


@each_row("said", ALL, ids=lambda s: s.path)
def test_a_cell_says_what_the_line_says(said: Said) -> None:
    heads = ("Weld no.", *(f"C{n}" for n in range(len(said.columns))))
    columns = "".join(f'  column "C{n}" {words}\n' for n, (words, _) in enumerate(said.columns))
    rows = [("W101", *(cell for _, cell in said.columns))]
    listed = spec(job(_HEAD + columns, 1), table(rows, heads))
    by_hand = spec(written({"W101": f"  {said.line}\n"}), None)
    told = {f.kind.name for f in by_hand.findings}
    assert {f.kind.name for f in listed.findings} == told, [f.message for f in listed.findings]
    assert _joint(listed) == _joint(by_hand)
