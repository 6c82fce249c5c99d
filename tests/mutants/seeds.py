"""The texts a search for slips begins with, and all that may be put into them."""

from __future__ import annotations

from functools import lru_cache

from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BASES, changed
from hts.generate.requirement_kinds import kinds
from tests.checking.rules.nearby import Nearby
from tests.mutants.edits import Bank
from tests.mutants.slipped_rules import TOP


@lru_cache(maxsize=1)
def seeds() -> list[Nearby]:
    """The bases, the examples of all rules, and what ships and is tested with."""
    made = [Nearby((), base) for base in BASES]
    made += [
        Nearby((), each.base, each.changes)
        for rule in rules()
        for each in (*rule.bad, *rule.good)
        if rule.family != "predicted"
    ]
    files = [
        *TOP.glob("specs/*.hts"),
        *TOP.glob("tests/specs/*/*.hts"),
        *TOP.glob("tests/rich/*.hts"),
    ]
    # A list of a hundred welds would be read with each run of the tests.
    small = [file for file in sorted(files) if not file.stem.startswith("turnaround")]
    made += [Nearby((), file.relative_to(TOP).as_posix()) for file in small]
    return list(dict.fromkeys(made))


@lru_cache(maxsize=1)
def bank() -> Bank:
    lines = [f"  {line}" for row in kinds(str(TOP)) for line in (row.met, row.broken)]
    procedure = "\n".join(["procedure K {", *lines, "}"])
    predicted = (
        changed(each.base, each.changes)
        for rule in rules()
        for each in (*rule.bad, *rule.good)
        if rule.family == "predicted"
    )
    return Bank([*(seed.text() or "" for seed in seeds()), *predicted, procedure])
