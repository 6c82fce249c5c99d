"""The smallest text that says each field: what is needed besides, and nothing else."""

from __future__ import annotations

from hts.generate.smallest import phrase, saying
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File
from tests.language.vocabulary.read import read

#: Every so many of them are read; all are in `tests/language/test_told.py`.
_EVERY = 9


def test_each_is_read_without_a_finding() -> None:
    """Nothing is missing, and nothing does not belong there."""
    fields = {(chain[-1], field.name): (chain, field) for _, chain, field in walk(File)}
    for chain, field in list(fields.values())[::_EVERY]:
        text = saying(chain, field)
        assert read(text)[1] == [], text


def test_of_what_one_is_needed_one_is_said() -> None:
    """The first of them, or the one that is asked for."""
    classes = {chain[-1]: None for _, chain, _ in walk(File)}
    said = {
        cls.words: [phrase(cls), *(phrase(cls, cls.fields[name]) for name in cls.one_of)]
        for cls in classes
        if cls.one_of
    }
    assert said
    for first, *each in said.values():
        assert first == each[0] and len(set(each)) == len(each)
