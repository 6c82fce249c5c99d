"""What can begin a value of each kind: by that a reader knows whether a value without a label is
there, or left out."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

from hts.language.vocabulary.cursor import Cursor
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File

ITEMS = {
    "WORD": "abc", "NUMBER": "3", "QUANTITY": "3 mm", "MULTIPLE": "3 t", "RANGE": "1 .. 2 mm",
    "TOLERANCE": "+/- 2 K", "CLOCK": "6:00", "DATE": "2026-01-01", "TEXT": '"a"',
    "BY_RULE": "by rule",
}  # fmt: skip
#: Anything can begin these; a choice begins with one of its own words.
ANYTHING, OWN = {"ConditionText", "Expression"}, "Choice"
BEGUN_BY = {
    "Address": "WORD", "BookEdition": "WORD", "ElementShare": "WORD", "LeadsTo": "WORD",
    "UnitName": "WORD", "Amount": "NUMBER QUANTITY", "Offset": "NUMBER QUANTITY",
    "Clock": "CLOCK", "TimeOfDay": "CLOCK", "Count": "NUMBER", "Number": "NUMBER", "Day": "DATE",
    "DemandText": "WORD NUMBER", "Joints": "WORD NUMBER", "Name": "WORD NUMBER",
    "Size": "WORD NUMBER", "To": "WORD NUMBER", "PlusMinus": "TOLERANCE", "Processes": "TEXT",
    "Text": "TEXT", "Range": "NUMBER QUANTITY RANGE TOLERANCE",
    "Width": "NUMBER QUANTITY MULTIPLE",
}  # fmt: skip


def _begins(type_: Any, kind: str, text: str) -> bool:
    source, item = (None, Stub(kind=kind, text=text))
    return bool(type_.begins(Cursor(source, [item], {})))  # type: ignore[arg-type,list-item]


def test_what_begins_a_value() -> None:
    types: dict[int, Any] = {id(f.type): f.type for _, _, f in walk(File) if f.type is not None}
    seen = set()
    for type_ in types.values():
        name = type(type_).__name__
        found = [kind for kind, text in ITEMS.items() if _begins(type_, kind, text)]
        if name == "OrRule":
            stated = BEGUN_BY[type(type_.stated).__name__]
            assert found == [*stated.split(), "BY_RULE"]
        elif name == OWN:
            assert all(_begins(type_, "WORD", words.split()[0]) for words in type_.choices)
            assert not _begins(type_, "WORD", "abc")
        elif name not in ANYTHING:
            assert found == BEGUN_BY[name].split(), name
            seen.add(name)
        # A length with a unit nobody knows is still meant as one.
        assert _begins(type_, "WORD", "25mn") or "WORD" not in found or name == OWN
    assert seen == set(BEGUN_BY)
