"""An entry in words says what the text says, all of it and no more: a walk over the language."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from hts.base.quantities import Quantity
from hts.generate.smallest import saying
from hts.job.compiler.wording import clauses, entries, line_of
from hts.language.vocabulary.declare import BLOCK, ENTRY, Entry
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File
from tests.texts import spec_of

#: Lines of procedures are printed as they are written; columns of a list not at all.
NOT_WORDED = ("procedure.", "weld list.")
PLACES = [
    (path, chain, field)
    for path, chain, field in walk(File)
    if field.form != BLOCK and not path.startswith(NOT_WORDED)
]


def _entries(value: object) -> Iterator[Entry]:
    if isinstance(value, Entry):
        yield value
        for field in type(value).fields.values():
            yield from _entries(getattr(value, field.name, None))
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _entries(one)


def _words(text: str) -> list[str]:
    """In any order, for clauses may stand in any."""
    # A range says its unit once, or with each end.
    text = re.sub(r"([\d.]+) \.\. ([\d.]+ (\S+))", r"\1 \3 .. \2", text.replace("+/- ", ""))
    return sorted(re.sub(r'["{},]', " ", text).split())


def _line(entry: Entry) -> str | None:
    """The line an entry stands in by itself."""
    text = entry.source.text
    begin = text.rfind("\n", 0, entry.start) + 1
    line = text[begin:].partition("\n")[0]
    return None if text[begin : entry.start].strip() else line.strip()


def test_every_line_is_told_whole() -> None:
    told = 0
    for path, chain, field in PLACES:
        for entry in _entries(spec_of(saying(chain, field)).file):
            inner = {each.form for each in type(entry).fields.values()}
            line = _line(entry)
            if type(entry) is chain[-1] and line is not None and not inner & {BLOCK, ENTRY}:
                assert _words(line_of(entry)) == _words(line), path
                told += 1
    assert told > 300


def _found(line: str, cls: str, owner: str) -> Entry:
    made = spec_of(f"spec 1\n{owner} {{\n  {line}\n}}\n").file
    return next(e for e in _entries(made) if type(e).__name__ == cls)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        # A least value is a least one in whichever unit it is shown, and a range has both.
        ("hold 690 .. 720 degC for 2 h at most 3 h", {"690": "minimum", "720": "maximum",
                                                      "2": "exactly", "3": "maximum"}),
        ("cool to 300 degC at most 120 degC/h at least 50 degC/h",
         {"300": "maximum", "120": "maximum", "50": "minimum"}),
    ],
)  # fmt: skip
def test_on_which_side_a_figure_is_shown(line: str, said: dict[str, str]) -> None:
    heard: dict[str, str] = {}

    def say(value: Quantity, direction: str) -> str:
        heard[str(value).split()[0]] = direction
        return f"<{value}>"

    entry = _found(line, line.split()[0].title(), "cycle one for W1")
    told = " ".join(clauses(entry, say))
    assert heard == said
    assert told.count("<") == len(said)
    if ".." in line:
        assert told.startswith("<690 degC> to <720 degC> for")


def test_without_its_block() -> None:
    """What stands before the brace, and each line in it by itself."""
    inside = "{\n    ends closed\n    bore drained and dry\n  }"
    heating = f'heating by resistance accepted by "Owner" {inside}'
    entry = _found(heating, "Heating", "joint W1")
    assert clauses(entry, block=False) == ["by resistance", "accepted by Owner"]
    assert entries(entry) == ["ends closed", "bore drained and dry"]
