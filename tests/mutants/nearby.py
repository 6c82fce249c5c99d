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
import ast
import difflib
import gc
import os
import random
import re
import signal
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache, partial
from multiprocessing import get_context
from typing import NamedTuple

from hts.checking.govern.case import Case
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Rule
from hts.generate.requirement_kinds import kinds
from tests.checking.rules import nearby
from tests.checking.rules.nearby import Nearby, Row
from tests.mutants import code
from tests.mutants.edits import Bank, Edits, entries, first_words, phrases, with_figure
from tests.mutants.slipped_helpers import helpers_of, living, slips_of
from tests.mutants.slipped_rules import TOP, Noting, path_of, slipped
from tests.texts import spec_of

#: Seconds of work on one rule, and more for each slip that is still alive.
_LONG, _LONGER = 5.0, 2.0
#: And on one helper.
_LONG_OF_HELPER = 60.0
#: Texts of a rule that are edited further.
_MOST = 60


class Found(NamedTuple):
    rows: dict[str, list[Row]]
    tried: int
    missed: list[code.Slip]
    fails: list[str]


def main() -> int:
    """Prints the slips nothing shows; 1 if there are any."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants.nearby", description=__doc__)
    parser.add_argument("--rule", nargs="+", default=[])
    parser.add_argument("--helpers", action="store_true", help="slips in what rules share")
    parser.add_argument("--longer", type=float, default=1.0, help="times as long")
    parser.add_argument("--processes", type=int, default=os.cpu_count())
    asked = parser.parse_args()
    signal.signal(signal.SIGALRM, _late)
    # What is predicted takes seconds.
    some = [rule for rule in rules() if rule.family != "predicted"]
    names = [r.kind.name for r in some if not asked.rule or r.kind.name in asked.rule]
    _bank()
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


@lru_cache(maxsize=1)
def _seeds() -> list[Nearby]:
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
def _bank() -> Bank:
    lines = [f"  {line}" for row in kinds(str(TOP)) for line in (row.met, row.broken)]
    procedure = "\n".join(["procedure K {", *lines, "}"])
    predicted = (
        changed(each.base, each.changes)
        for rule in rules()
        for each in (*rule.bad, *rule.good)
        if rule.family == "predicted"
    )
    return Bank([*(seed.text() or "" for seed in _seeds()), *predicted, procedure])


class Further(NamedTuple):
    """A text to be edited further: the lines of the rule whose conditions were asked, and the
    figures compared there."""

    place: Nearby
    text: str
    lines: frozenset[int]
    compared: list[tuple[int, float, float]]


class Search:
    """Texts that show slips of one rule."""

    def __init__(self, rule: Rule, of_helpers: list[code.Slip], own: bool = True) -> None:
        self.rule = rule
        self.source = (TOP / path_of(rule)).read_text("utf-8")
        self.noting = Noting(rule)
        #: What is told with each slip that is not shown yet.
        self.alive: dict[code.Slip, Callable[[Case], str]] = {}
        self.came_out: set[object] = set()
        self.further: list[Further] = []
        self.found: list[Nearby] = []
        self.fails: list[str] = []
        self.tried = 0
        for slip in code.slips(TOP, path_of(rule)) if own else ():
            made = slipped(rule, slip, self.source)
            if made is not None:
                self.alive[slip] = partial(_told, made)
        for slip in of_helpers:
            self.alive[slip] = partial(_told_with, slip, rule)
        for place in own_examples(rule):
            self.look(place, keep=False)
        self.by_examples = dict(self.alive)
        for row in nearby.rows().get(rule.kind.name, ()):
            self.look(row.place)
        if own:
            # What is kept for the sake of a helper stays; no more is looked for.
            for slip in of_helpers:
                self.alive.pop(slip, None)

    def run(self, longer: float) -> Found:
        drawn = random.Random(self.rule.kind.name)
        words = self._words() if self.alive else set()
        edits = Edits(drawn, _bank(), words, self._figures(), self._phrases())
        lines = {slip: self._lines(slip) for slip in self.alive}
        ends = time.process_time() + longer * (_LONG + _LONGER * min(len(self.alive), 10))
        while self.alive and self.further and time.process_time() < ends:
            wanted = lines[drawn.choice(list(self.alive))]
            nearest = [each for each in self.further if wanted & each.lines]
            seed = drawn.choice(nearest if nearest and drawn.random() < 0.8 else self.further)
            line = drawn.choice(sorted(wanted & seed.lines or seed.lines or {0}))
            compared = [(a, b) for at, a, b in seed.compared if at == line] or [
                (a, b) for _, a, b in seed.compared
            ]
            made: str | None = seed.text
            count = drawn.choice((1, 1, 1, 2, 2, 3))
            if drawn.random() < 0.4:
                made = edits.spoiled(seed.text)
                count -= 1
            for _ in range(count):
                made = edits.edited(made, compared) if made else None
            if made and drawn.random() < 0.5:
                for equal in self._at_the_limit(edits, made, line, seed.place):
                    self._edited(seed.place, equal)
            elif made and made != seed.text:
                self._edited(seed.place, made)
        return Found({self.rule.kind.name: self._few()}, self.tried, list(self.alive), self.fails)

    def _lines(self, slip: code.Slip) -> set[int]:
        """The line of a slip; where it is outside functions, those that use what is named there."""
        tree = ast.parse(self.source)
        named = {
            name.id
            for node in tree.body
            if isinstance(node, ast.Assign | ast.AnnAssign)
            and node.lineno <= slip.line <= (node.end_lineno or 0)
            for name in ast.walk(node)
            if isinstance(name, ast.Name) and isinstance(name.ctx, ast.Store)
        }
        uses = (n.lineno for n in ast.walk(tree) if isinstance(n, ast.Name) and n.id in named)
        return {slip.line, *uses}

    def _at_the_limit(self, edits: Edits, text: str, line: int, place: Nearby) -> list[str]:
        """Another figure, with which two that are compared in a line of the rule are the same, and
        those just beside it."""
        number = edits.number(text)
        if number is None:
            return []
        value, step = float(number[0]), 1.0
        further = with_figure(text, number, value + step)
        before, after = (self._compared(each or "", line, place) for each in (text, further))
        moved = [
            ((one - other), (two - another) - (one - other))
            for (one, other), (two, another) in zip(before, after, strict=False)
            if abs((two - another) - (one - other)) > 1e-9
        ]
        if not moved:
            return []
        gap, each_step = edits.drawn.choice(moved)
        equal = value - gap / each_step
        beside = edits.drawn.choice((0.05, 0.5, 1)) * min(1.0, abs(1 / each_step))
        tried = (equal, round(equal, 1), equal + beside, equal - beside)
        made = (with_figure(text, number, each) for each in tried)
        return [each for each in dict.fromkeys(made) if each is not None]

    def _compared(self, text: str, line: int, place: Nearby) -> list[tuple[float, float]]:
        self._notes(text, place)
        return [(one, other) for at, one, other in self.noting.figures if at == line]

    def _words(self) -> set[str]:
        """What the lines begin with without which the conditions come out otherwise."""
        words: set[str] = set()
        for place in own_examples(self.rule)[:6]:
            text = place.text(self.rule) or ""
            before = self._notes(text, place)
            for _, entry in entries(text):
                without = text.replace(f"{entry}\n", "")
                if first_words(entry) not in words and self._notes(without, place) != before:
                    words.add(first_words(entry))
        return words

    def _notes(self, text: str, place: Nearby) -> object:
        self.noting.begin()
        _told(self.noting.rule, Case(spec_of(text), place.today(self.rule)))
        return self.noting.came_out, self.noting.figures

    def _phrases(self) -> list[str]:
        """The free words its examples put into their bases, and those of its code."""
        examples = (*self.rule.bad, *self.rule.good)
        new = "\n".join(new for each in examples for _, new in each.changes)
        of_code = [
            node.value
            for node in ast.walk(ast.parse(self.source))
            if isinstance(node, ast.Constant) and isinstance(node.value, str)
        ]
        plain = [each for each in of_code if re.fullmatch(r"[A-Za-z][\w /-]{1,40}", each)]
        said = phrases(new)
        return list(dict.fromkeys([*said, *plain])) if said else []

    def _figures(self) -> set[float]:
        return {
            float(node.value)
            for node in ast.walk(ast.parse(self.source))
            if isinstance(node, ast.Constant) and type(node.value) in (int, float)
        }

    def _edited(self, seed: Nearby, made: str) -> None:
        start = seed._replace(edits=()) if seed.examples else seed
        before = start.text(self.rule)
        if before is None:
            return
        edits = _differences(before, made)
        if edits is not None:
            self.look(start._replace(edits=(*start.edits, *edits)))

    def look(self, place: Nearby, keep: bool = True) -> None:
        """At a text of its own."""
        spec = place.spec(self.rule)
        if spec is not None:
            self.shown(place, Case(spec, place.today(self.rule)), keep)

    def shown(self, place: Nearby, case: Case, keep: bool = True) -> None:
        """Takes the slips from those alive that a text shows."""
        self.tried += 1
        told = _told(self.rule, case)
        if told.startswith("fails"):
            self.fails.append(f"{told} of {self.rule.kind.name} {place}")
            return
        self.noting.begin()
        _told(self.noting.rule, case)
        new = self.noting.came_out - self.came_out
        self.came_out |= new
        shown = [slip for slip, made in self.alive.items() if made(case) != told]
        if shown and keep and not self._same_again(place, told):
            return
        if (new or shown or not keep) and len(self.further) < _MOST:
            lines = frozenset(at // 100 for at, _ in self.noting.came_out)
            text = case.spec.source.text
            self.further.append(Further(place, text, lines, self.noting.figures[-60:]))
        if shown and keep:
            self.found.append(place)
        for slip in shown:
            del self.alive[slip]

    def _same_again(self, place: Nearby, told: str) -> bool:
        """Whether the rule tells the same where no slip was put to the case before."""
        spec = place.spec(self.rule)
        return spec is not None and _told(self.rule, Case(spec, place.today(self.rule))) == told

    def _few(self) -> list[Row]:
        """Of the texts found few that show the same slips."""
        shows = {place: self._shows(place, self.by_examples) for place in dict.fromkeys(self.found)}
        # Of two that show as many, the one that can be read whole.
        sound = {place: not getattr(place.spec(self.rule), "findings", ()) for place in shows}
        kept: list[Row] = []
        left = set().union(*shows.values())
        while left:
            best = max(shows, key=lambda p: (len(shows[p] & left), sound[p], -_length(p)))
            place = self._less(best, shows[best] & left).shorter(self.rule)
            left -= self._shows(place, left)
            kept.append(Row(place, nearby.shortened(nearby.told(self.rule, place) or [])))
        return sorted(kept)

    def _less(self, place: Nearby, shown: set[code.Slip]) -> Nearby:
        """The text without edits that are not needed to show these slips."""
        for edit in place.edits:
            edits = tuple(other for other in place.edits if other != edit)
            less = place._replace(edits=edits)
            if shown <= self._shows(less, shown):
                place = less
        return place

    def _shows(self, place: Nearby, slips: Iterable[code.Slip]) -> set[code.Slip]:
        spec = place.spec(self.rule)
        if spec is None:
            return set()
        case = Case(spec, place.today(self.rule))
        told = _told(self.rule, case)
        if told.startswith("fails"):
            return set()
        return {slip for slip in slips if self.by_examples[slip](case) != told}


def own_examples(rule: Rule) -> list[Nearby]:
    return [Nearby((number,)) for number in range(len(rule.bad) + len(rule.good))]


def _of_helpers(some: list[Rule]) -> set[code.Slip]:
    """The slips of helpers that no example of these rules shows."""
    alive = {slip for rule in some for slip in slips_of(rule)}
    for rule in some:
        for place in own_examples(rule):
            mine = [slip for slip in slips_of(rule) if slip in alive]
            spec = place.spec(rule) if mine else None
            if spec is not None:
                case = Case(spec, place.today(rule))
                told = _told(rule, case)
                alive -= {slip for slip in mine if _told_with(slip, rule, case) != told}
    return alive


def _told_with(slip: code.Slip, rule: Rule, case: Case) -> str:
    """What a rule tells with a slip in a helper."""
    with living(slip).put():
        return _told(rule, case)


_SEARCHES: dict[str, Search] = {}
#: Slips by the file of a helper.
_SHARED: dict[str, list[code.Slip]] = {}


def _try_seeds(searches: Iterable[Search]) -> None:
    """Reads each once for all rules."""
    for place in _seeds():
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


def _length(place: Nearby) -> int:
    return sum(len(old) + len(new) for old, new in place.edits)


def _told(rule: Rule, case: Case) -> str:
    signal.alarm(5)
    try:
        return "\n".join(map(nearby.in_full, nearby.told_of(rule, case)))
    except Exception as error:
        return f"fails {error!r}"
    finally:
        signal.alarm(0)


def _late(*_: object) -> None:
    raise TimeoutError


def _differences(before: str, after: str) -> tuple[tuple[str, str], ...] | None:
    """Edits by whole lines that make one text of another; None where they cannot be told."""
    old, new = before.split("\n"), after.split("\n")
    edits: list[tuple[str, str]] = []
    text = before
    for tag, a, b, c, d in difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        done = "\n".join([*new[:c], *old[a:b]])
        first = a
        while first == b or text.count("\n".join([*old[first:b], ""])) != 1:
            if first == 0:
                return None
            first -= 1
        lines = [*old[first:b], ""], [*old[first:a], *new[c:d], ""]
        gone, come = ("\n".join(each) for each in lines)
        if not text.startswith(done):
            return None
        edits.append((nearby.with_less_between(text, gone), come))
        text = text.replace(gone, come)
    return tuple(edits) if text == after else None


if __name__ == "__main__":
    raise SystemExit(main())
