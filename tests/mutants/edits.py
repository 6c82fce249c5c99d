"""One edit of a specification, drawn by chance: another figure or word, an entry less or more."""

from __future__ import annotations

import difflib
import random
import re
from collections.abc import Iterable
from datetime import date, timedelta
from functools import lru_cache

from hts.base.text import Source
from tests.checking.rules.nearby import with_less_between
from tests.corruption.changes import Mutant, mutants
from tests.corruption.places import places
from tests.corruption.world import World

_NUMBER = re.compile(r"(?<![\w.:/-])\d+(?:\.\d+)?(?![\w.:/-])")
#: No entry longer than this is put into another text.
_LONGEST = 4000
_QUOTED = re.compile(r'"([^"\n]*)"')
_BETWEEN = ("; ", ", ", ". ", " and ", " not ", " of ", ", except ", " to ")
_DATE = re.compile(r"\b\d{4}-\d\d-\d\d\b")


class Bank:
    """Entries of many texts, by the first word of the block they stand in; of those that differ in
    figures alone the first."""

    def __init__(self, texts: Iterable[str]) -> None:
        found: dict[str, dict[str, str]] = {}
        for text in texts:
            for block, entry in entries(text):
                if len(entry) > _LONGEST:
                    continue
                shape = re.sub(r"\d+(?:\.\d+)?", "#", entry)
                found.setdefault(block, {}).setdefault(shape, entry)
        self.of = {block: list(some.values()) for block, some in found.items()}


def entries(text: str) -> list[tuple[str, str]]:
    """Each entry with its block, if it has one, and the first word of what it stands in."""
    lines = text.split("\n")
    found: list[tuple[str, str]] = []
    inside: list[str] = []
    for number, line in enumerate(lines):
        words = line.split()
        if not words:
            continue
        if words[0] == "}":
            inside = inside[:-1]
            continue
        last = number
        if line.endswith("{"):
            indent = line[: len(line) - len(line.lstrip())]
            last = next(
                (n for n in range(number, len(lines)) if lines[n].startswith(f"{indent}}}")), number
            )
        found.append((inside[-1] if inside else "", "\n".join(lines[number : last + 1])))
        if line.endswith("{"):
            inside.append(words[0])
    return found


class Edits:
    """Edits of texts near a rule. `words`: what lines that matter to it begin with, so that these
    are edited more often than others; `figures`: what its code compares with; `phrases`: free words
    of its examples."""

    def __init__(
        self,
        drawn: random.Random,
        bank: Bank,
        words: set[str],
        figures: set[float],
        phrases: list[str],
    ) -> None:
        self.drawn, self.bank, self.words, self.figures = drawn, bank, words, figures
        self.phrases = phrases

    def edited(self, text: str, compared: list[tuple[float, float]]) -> str | None:
        """The text with one edit; None where the one drawn cannot be made."""
        if not text.strip():
            return None
        ways = ("figure", "grafted", "again", "joints", "date", "words")
        likely = (5, 4, 2, 1, 2 if _DATE.search(text) else 0, 4 if self.phrases else 0)
        way = self.drawn.choices(ways, likely)[0]
        if way == "figure":
            return self._figure(text, compared)
        if way == "date":
            return self._date(text)
        if way == "joints":
            return self._joints(text)
        if way == "words":
            return self._words(text)
        return self._grafted(text) if way == "grafted" else self._again(text)

    def _line(self, text: str) -> tuple[int, int]:
        """Start and end of a line that is likely to matter."""
        spans, weights = [], []
        at = 0
        for line in text.split("\n"):
            if line.strip() not in ("", "}"):
                spans.append((at, at + len(line)))
                weights.append(self._weight(line))
            at += len(line) + 1
        return self.drawn.choices(spans, weights)[0]

    def _weight(self, line: str) -> int:
        return 60 if first_words(line) in self.words else 1

    def number(self, text: str) -> re.Match[str] | None:
        """A number of a line that is likely to matter."""
        found = list(_NUMBER.finditer(text, *self._line(text)))
        return self.drawn.choice(found) if found else None

    def _figure(self, text: str, compared: list[tuple[float, float]]) -> str | None:
        place = self.number(text)
        if place is None:
            return None
        value = float(place[0])
        others = [value + 1, value - 1, value + 0.1, value - 0.1, value * 2, value / 2]
        others += self.drawn.sample(sorted(self.figures), min(2, len(self.figures)))
        others += [float(n) for n in self.drawn.choices(_NUMBER.findall(text), k=3)]
        for one, other in self.drawn.sample(compared, min(4, len(compared))):
            for unit in (1, self.drawn.choice((60, 3600, 25.4, 5 / 9))):
                gap = (one - other) / unit
                others += [value + gap, value - gap, one / unit, other / unit]
                if one and other:
                    others += [value * one / other, value * other / one]
        new = self.drawn.choice(others)
        near = self.drawn.choice((0, 0, 0, 0.1, -0.1, 1, -1))
        return with_figure(text, place, round(new + near, self.drawn.choice((0, 1, 1, 2, 3))))

    def _words(self, text: str) -> str | None:
        """Free words as others of the examples, put together with them, or with a word less."""
        found = list(_QUOTED.finditer(text, *self._line(text))) or list(_QUOTED.finditer(text))
        if not found:
            return None
        place, other = self.drawn.choice(found), self.drawn.choice(self.phrases)
        words = place[1].split()
        ways = [other, f"{place[1]}{self.drawn.choice(_BETWEEN)}{other}"]
        if words:
            gone = self.drawn.randrange(len(words))
            ways.append(" ".join([*words[:gone], *words[gone + 1 :]]))
            ways.append(
                " ".join([*words[:gone], self.drawn.choice(other.split() or [""]), *words[gone:]])
            )
            ways.append(place[1].upper() if self.drawn.random() < 0.3 else place[1].lower())
        return f"{text[: place.start(1)]}{self.drawn.choice(ways)}{text[place.end(1) :]}"

    def _joints(self, text: str) -> str | None:
        """Several joints in place of one, treated alike."""
        found = re.search(r"(?m)^joint (\w+) \{$", text)
        if found is None:
            return None
        more = self.drawn.choice((1, 1, 2, 3, 4, 5, 6, 7))
        names = ", ".join([found[1], *(f"{found[1]}{letter}" for letter in "ABCDEFG"[:more])])
        return re.sub(
            rf"(?m)^((?:joint|preheat|bake|cycle .*for) ){found[1]}\b", rf"\1{names}", text
        )

    def _date(self, text: str) -> str | None:
        """A day as another of the text, or the next one to it."""
        found = list(_DATE.finditer(text, *self._line(text))) or list(_DATE.finditer(text))
        place = self.drawn.choice(found)
        try:
            day = date.fromisoformat(self.drawn.choice(_DATE.findall(text)))
        except ValueError:
            return None
        day += timedelta(days=self.drawn.choice((0, 0, 0, 1, -1)))
        return text[: place.start()] + day.isoformat() + text[place.end() :]

    def spoiled(self, text: str) -> str | None:
        """Any fact changed as the vocabulary knows: costly for a text not edited before."""
        made = _mutants(text)
        if not made:
            return None
        start, end = self._line(text)
        near = [one for one in made if start <= one.start <= end]
        kinds: dict[str, list[Mutant]] = {}
        for one in near or made:
            kinds.setdefault(one.change, []).append(one)
        return self.drawn.choice(kinds[self.drawn.choice(sorted(kinds))]).applied(text)

    def _grafted(self, text: str) -> str | None:
        """An entry of another text, in place of one of the same first words or beside them."""
        every = entries(text)
        weights = [self._weight(entry.split("\n")[0]) for _, entry in every]
        block, old = self.drawn.choices(every, weights)[0]
        some = self.bank.of.get(block, [])
        if self.drawn.random() < 0.6:
            some = [each for each in some if alike(each, old)]
            instead = True
        else:
            new = self.drawn.choices(some, [self._weight(each) for each in some])[0] if some else ""
            same = [other for where, other in every if where == block and alike(other, new)]
            old, instead = (self.drawn.choice(same), True) if same else (old, False)
            some = [new]
        if not some or text.count(old) != 1:
            return None
        new = self.drawn.choice(some)
        return text.replace(old, new if instead else f"{old}\n{new}")

    def _again(self, text: str) -> str | None:
        """An entry a second time, under another name where it has one."""
        every = entries(text)
        block, old = self.drawn.choices(every, [self._weight(e.split("\n")[0]) for _, e in every])[
            0
        ]
        if text.count(old) != 1:
            return None
        new = old
        if old.endswith("}") and block == "":
            head = re.match(r"(\S+ )(\S+)( .*)", old)
            if head is not None and head[2] != "{":
                new = f"{head[1]}{head[2]}X{old[head.end(2) :]}"
                new = new.replace(f"{head[2]} ", f"{head[2]}X ") if head[1] == "joint " else new
                new = f"\n{new}"
        elif (name := re.match(r"\s*(?:zone (\S+)|(T\S+))", old)) is not None:
            known = name[1] or name[2]
            new = re.sub(rf"(?<!\S){re.escape(known)}(?!\S)", f"{known}X", old, count=1)
        if self.drawn.random() < 0.7 and (found := list(_NUMBER.finditer(new))):
            place = self.drawn.choice(found)
            value = float(place[0]) + self.drawn.choice((1, -1, 10, 100, 5))
            new = new[: place.start()] + f"{abs(value):g}" + new[place.end() :]
        return text.replace(old, f"{old}\n{new}")


def with_figure(text: str, place: re.Match[str], value: float) -> str | None:
    """Another number in its place; none below nothing or beyond all measure."""
    if not 0 <= value <= 1e6:
        return None
    shown = f"{value:.6f}".rstrip("0").rstrip(".")
    return text[: place.start()] + shown + text[place.end() :]


@lru_cache(maxsize=100_000)
def first_words(line: str) -> str:
    """What an entry is called: its first word, without figures, and the next where it is one."""
    words = line.split()
    return " ".join(word for word in words[:2] if word.isalpha()) or re.sub(r"\d+", "#", words[0])


def phrases(text: str) -> list[str]:
    return _QUOTED.findall(text)


def alike(one: str, other: str) -> bool:
    """Whether two entries begin with the same word."""
    return one.split(None, 1)[:1] == other.split(None, 1)[:1]


@lru_cache(maxsize=200)
def _mutants(text: str) -> list[Mutant]:
    made: list[Mutant] = []
    try:
        found = places(Source(text, "example.hts"))
        for one in mutants(found, World(found, [])):
            made.append(one)
    except Exception:
        # They are made for texts without a fault, and these may have any.
        pass
    return made


def differences(before: str, after: str) -> tuple[tuple[str, str], ...] | None:
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
        edits.append((with_less_between(text, gone), come))
        text = text.replace(gone, come)
    return tuple(edits) if text == after else None
