"""A search for texts that show slips of one rule: one edit after the other, further where a
condition of the rule came out as in no text before."""

from __future__ import annotations

import ast
import random
import re
import signal
import time
from collections.abc import Callable, Iterable
from functools import partial
from typing import NamedTuple

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Rule
from tests.checking.rules import nearby
from tests.checking.rules.nearby import Nearby, Row
from tests.mutants import code
from tests.mutants.edits import Edits, differences, entries, first_words, phrases, with_figure
from tests.mutants.seeds import bank
from tests.mutants.slipped_helpers import living
from tests.mutants.slipped_rules import TOP, Noting, path_of, slipped
from tests.texts import spec_of

#: Seconds of work on one rule, and more for each slip that is still alive.
_LONG, _LONGER = 5.0, 2.0
#: Texts of a rule that are edited further.
_MOST = 60


class Found(NamedTuple):
    rows: dict[str, list[Row]]
    tried: int
    missed: list[code.Slip]
    fails: list[str]


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
                self.alive[slip] = partial(told_by, made)
        for slip in of_helpers:
            self.alive[slip] = partial(told_with, slip, rule)
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
        edits = Edits(drawn, bank(), words, self._figures(), self._phrases())
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
        told_by(self.noting.rule, Case(spec_of(text), place.today(self.rule)))
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
        edits = differences(before, made)
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
        told = told_by(self.rule, case)
        if told.startswith("fails"):
            self.fails.append(f"{told} of {self.rule.kind.name} {place}")
            return
        self.noting.begin()
        told_by(self.noting.rule, case)
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
        return spec is not None and told_by(self.rule, Case(spec, place.today(self.rule))) == told

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
        told = told_by(self.rule, case)
        if told.startswith("fails"):
            return set()
        return {slip for slip in slips if self.by_examples[slip](case) != told}


def own_examples(rule: Rule) -> list[Nearby]:
    return [Nearby((number,)) for number in range(len(rule.bad) + len(rule.good))]


def told_with(slip: code.Slip, rule: Rule, case: Case) -> str:
    """What a rule tells with a slip in a helper."""
    with living(slip).put():
        return told_by(rule, case)


def _length(place: Nearby) -> int:
    return sum(len(old) + len(new) for old, new in place.edits)


def told_by(rule: Rule, case: Case) -> str:
    signal.alarm(5)
    try:
        return "\n".join(map(nearby.in_full, nearby.told_of(rule, case)))
    except Exception as error:
        return f"fails {error!r}"
    finally:
        signal.alarm(0)


def ends_late() -> None:
    """Whoever tells something for too long fails."""
    signal.signal(signal.SIGALRM, _late)


def _late(*_: object) -> None:
    raise TimeoutError
