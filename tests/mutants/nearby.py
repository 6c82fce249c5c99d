"""Looks near the examples of each rule for texts that show the slips its examples do not show.

    python -m tests.mutants.nearby                     all rules
    python -m tests.mutants.nearby --rule NAME …       these anew
    python -m tests.mutants.nearby --helpers           what rules share, by the rules that use it

What is found is kept in `tests/checking/rules/nearby.txt`, where a test reads it. Every slip of a
rule's file is tried by the rule alone, first on the examples of all rules and the specifications
that ship, then on texts made from them by one edit after the other: a text is edited further where
a condition of the rule came out in it as in no text before. Of all that shows something few texts
are kept that show the same together. Slips that no text shows are listed.
"""

from __future__ import annotations

import argparse
import gc
import os
import random
import time
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from hts.checking.govern.case import Case
from hts.checking.rules.catalogue import rules
from hts.checking.rules.rule import Rule
from tests.checking.rules import nearby
from tests.mutants import code
from tests.mutants.search import Found, Search, ends_late, own_examples, told_by, told_with
from tests.mutants.seeds import bank, seeds
from tests.mutants.slipped_helpers import helpers_of, slips_of
from tests.mutants.slipped_rules import path_of

#: Seconds of work on one helper.
_LONG_OF_HELPER = 60.0


def main() -> int:
    """Prints the slips nothing shows; 1 if there are any."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants.nearby", description=__doc__)
    parser.add_argument("--rule", nargs="+", default=[])
    parser.add_argument("--helpers", action="store_true", help="slips in what rules share")
    parser.add_argument("--longer", type=float, default=1.0, help="times as long")
    parser.add_argument("--processes", type=int, default=os.cpu_count())
    asked = parser.parse_args()
    ends_late()
    # What is predicted takes seconds.
    some = [rule for rule in rules() if rule.family != "predicted"]
    names = [r.kind.name for r in some if not asked.rule or r.kind.name in asked.rule]
    bank()
    known = dict(nearby.rows())
    left = 0
    shared = _of_helpers(some)
    if asked.helpers:
        names = sorted({slip.path for slip in shared})
        _SHARED.update((path, [slip for slip in shared if slip.path == path]) for path in names)
    else:
        for rule in some:
            if rule.kind.name in names:
                mine = [slip for slip in slips_of(rule) if slip in shared]
                _SEARCHES[rule.kind.name] = Search(rule, mine)
        _try_seeds(_SEARCHES.values())
    gc.freeze()
    work = [(name, asked.longer) for name in names]
    search = _search_helper if asked.helpers else _search
    with ProcessPoolExecutor(asked.processes, get_context("fork")) as pool:
        for name, found in zip(names, pool.map(search, work), strict=True):
            for rule_name, rows in found.rows.items():
                before = known.get(rule_name, ()) if asked.helpers else ()
                known[rule_name] = tuple(dict.fromkeys((*before, *rows)))
            nearby.write(known)
            left += len(found.missed)
            count = sum(len(rows) for rows in found.rows.values())
            print(f"{name}: {count} texts, {found.tried} tried", flush=True)
            for slip in found.missed:
                print(f"{slip.path}:{slip.line}: {slip.before!r} -> {slip.after!r}", flush=True)
            for text in found.fails:
                print(f"fails: {text}", flush=True)
    return 1 if left else 0


def _of_helpers(some: list[Rule]) -> set[code.Slip]:
    """The slips of helpers that no example of these rules shows."""
    alive = {slip for rule in some for slip in slips_of(rule)}
    for rule in some:
        for place in own_examples(rule):
            mine = [slip for slip in slips_of(rule) if slip in alive]
            spec = place.spec(rule) if mine else None
            if spec is not None:
                case = Case(spec, place.today(rule))
                told = told_by(rule, case)
                alive -= {slip for slip in mine if told_with(slip, rule, case) != told}
    return alive


_SEARCHES: dict[str, Search] = {}
#: Slips by the file of a helper.
_SHARED: dict[str, list[code.Slip]] = {}


def _try_seeds(searches: Iterable[Search]) -> None:
    """Reads each once for all rules."""
    for place in seeds():
        spec = place.spec()
        assert spec is not None
        case = Case(spec)
        for search in searches:
            if search.alive:
                search.shown(place, case)


def _search(work: tuple[str, float]) -> Found:
    name, longer = work
    return _SEARCHES[name].run(longer)


def _search_helper(work: tuple[str, float]) -> Found:
    """By one rule after the other that uses it, as long as there is time."""
    path, longer = work
    alive = _SHARED[path]
    found = Found({}, 0, [], [])
    ends = time.process_time() + longer * _LONG_OF_HELPER
    using = [rule for rule in rules() if path in helpers_of(path_of(rule))]
    random.Random(path).shuffle(using)
    for rule in using:
        if alive and rule.family != "predicted" and time.process_time() < ends:
            one = Search(rule, alive, own=False).run(longer)
            alive = one.missed
            fails = [*found.fails, *one.fails]
            found = Found(found.rows | one.rows, found.tried + one.tried, [], fails)
    return found._replace(missed=alive)


if __name__ == "__main__":
    raise SystemExit(main())
