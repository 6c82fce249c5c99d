"""A wrong fact of any kind and field is told, and one that could hurt is no mere note.

The wrong facts are those of tests/corruption, made of every value of every good specification;
`python -m tests.job.comparison.mutants` puts as many as wanted to the diff.
"""

from __future__ import annotations

from fnmatch import fnmatchcase
from pathlib import Path

import pytest

from tests.corruption.harm import NONE
from tests.corruption.share import FILES
from tests.job.comparison.mutants import Put, puts
from tests.sampling import in_turn, whose_turn

_STRICTER = "stricter than approved stays within what was approved; the other way is told"
_LIKE = "a like thing in its place; what it can do, and what has run out, is compared by itself"
_NAME = "another name of the same thing"
#: Fields whose change may be a note although the field could hurt, and why.
NOTES = {
    "joint.heating.heater.circuit": "another circuit; two zones on one are found",
    "joint.heating.zone.circuit": "another circuit; two zones on one are found",
    "power source.*": _LIKE,
    "controller.*": _LIKE,
    "recorder.*": _LIKE,
    "job.revision.status": "the work stays; the rules tell a status that must not be worked to",
    "job.qualification.*": "people and their certificates; the rules tell one that has run out",
    "job.signed.*": "the day of a signature; its order is checked",
    "joint.thermocouples.*": "identity of wire and cable, or a name; what it reads stays",
    "material.name": _NAME,
    "filler.name": _NAME,
    "joint.names": _NAME,
    "joint.heating.zone.name": _NAME,
    "joint.heating.heater.name": _NAME,
    "cycle.*": _STRICTER,
    "bake.*": _STRICTER,
    "preheat.*": _STRICTER,
    "before heat.*": _STRICTER,
    "during heat.*": _STRICTER,
    "after heat.*": _STRICTER,
    "procedure.*": _STRICTER,
    "joint.nearby.*": _STRICTER,
}


#: Some of the files alone: then fewer are judged as they are.
_SOME = (20261129, 16, whose_turn(FILES, 5))


@pytest.mark.parametrize(
    ("seed", "count", "files"),
    [_SOME, *in_turn([(20261130 + n, 40, FILES) for n in range(4)], 4)],
)
def test_a_sample(seed: int, count: int, files: list[Path]) -> None:
    found = list(puts(count, seed, files))
    assert 3 * len(found) > 2 * count
    untold = [
        f"{e.file} {e.mutant.path}: {e.mutant.change}: {e.was}" for e in found if not e.verdict
    ]
    assert untold == []
    quiet = [
        f"{each.file} {each.mutant.path}: {each.mutant.change}: {each.was}: {each.kinds}"
        for each in found
        if each.harm != NONE and each.verdict == "note" and not _known(each.mutant.path)
    ]
    assert quiet == []


def _shown(each: Put) -> str:
    return f"{each.file} {each.mutant.path}: {each.mutant.change}: {each.was}: {each.kinds}"


def _known(path: str) -> bool:
    return any(fnmatchcase(path, pattern) for pattern in NOTES)
