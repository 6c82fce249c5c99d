"""Looks near the examples of each rule for a text that shows a slip its examples do not show.

    python -m tests.mutants.nearby                     all rules that nothing is kept of
    python -m tests.mutants.nearby --rule NAME …       these anew

What is found is kept in `tests/checking/rules/nearby.txt`, where a test reads it. Every slip of a
rule's file is tried by the rule alone; those that no text shows are listed.
"""

from __future__ import annotations

import argparse
import ast
import hashlib
import random
import re
import signal
import sys
import time
import types
from collections.abc import Iterator
from pathlib import Path

from hts.base.text import Source
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BASES
from hts.checking.rules.rule import Rule
from hts.language.model import Spec
from tests.checking.rules import nearby
from tests.checking.rules.nearby import Nearby, Row
from tests.corruption.changes import mutants
from tests.corruption.places import places
from tests.corruption.world import World
from tests.mutants import code
from tests.texts import spec_of

_TOP = Path(__file__).parents[2]
#: Texts tried of each of the five ways to change an example.
_MOST = 90
#: Seconds of work on one rule.
_LONGEST = 12
_NUMBER = re.compile(r"(?<![\w.:/-])\d+(?:\.\d+)?(?![\w.:/-])")


def main() -> int:
    """Prints the slips nothing shows; 1 if there are any."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants.nearby", description=__doc__)
    parser.add_argument("--rule", nargs="+", default=[])
    parser.add_argument("--most", type=int, default=_MOST, help="texts tried of each kind")
    asked = parser.parse_args()
    signal.signal(signal.SIGALRM, _late)
    known = dict(nearby.rows())
    left = 0
    for rule in rules():
        # What is predicted takes seconds.
        if rule.family == "predicted" or (asked.rule and rule.kind.name not in asked.rule):
            continue
        if rule.kind.name in known and not asked.rule:
            continue
        found, missed = _search(rule, asked.most)
        known[rule.kind.name] = tuple(found)
        nearby.write(known)
        left += len(missed)
        for slip in missed:
            print(f"{slip.path}:{slip.line}: {slip.before!r} -> {slip.after!r}", flush=True)
    return 1 if left else 0


def _search(rule: Rule, most: int) -> tuple[list[Row], list[code.Slip]]:
    """Texts that show slips, and the slips no text tried shows."""
    path = Path(str(sys.modules[rule.check.__module__].__file__)).relative_to(_TOP).as_posix()
    text = (_TOP / path).read_text("utf-8")
    alive: dict[code.Slip, Rule] = {}
    for slip in code.slips(_TOP, path):
        slipped = _slipped(path, text, slip)
        if slipped is not None and (slipped.bad, slipped.good) == (rule.bad, rule.good):
            alive[slip] = slipped
    own = [Nearby((number,)) for number in range(len(rule.bad) + len(rule.good))]
    for place in own:
        _shown(rule, place, alive)
    found: list[Row] = []
    figures, spoiled = _figures(rule, own, text), _spoiled(rule, own)
    beside = _beside(rule, own)
    several = _several(rule, [*figures, *spoiled, *beside])
    lots = (_together(rule), figures, beside, spoiled, several)
    ends = time.process_time() + _LONGEST
    for lot in lots:
        tried = 0
        for place in lot:
            if not alive or tried == most or time.process_time() > ends:
                break
            tried += place.text(rule) is not None
            if _shown(rule, place, alive):
                found.append(Row(place, nearby.shortened(nearby.told(rule, place) or "")))
    return found, list(alive)


def _slipped(path: str, text: str, slip: code.Slip) -> Rule | None:
    """The rule of a file with a slip; None where it cannot be imported."""
    lines = text.split("\n")
    line = lines[slip.line - 1].encode()
    changed = line[: slip.start] + slip.after.encode() + line[slip.end :]
    lines[slip.line - 1] = changed.decode()
    name = path.removesuffix(".py").replace("/", ".")
    module = types.ModuleType(name)
    module.__package__, module.__file__ = name.rpartition(".")[0], str(_TOP / path)
    try:
        exec(compile("\n".join(lines), path, "exec"), vars(module))
    except Exception:
        return None
    rule: Rule = module.RULE
    rule.family = Path(path).parent.name
    return rule


def _shown(rule: Rule, place: Nearby, alive: dict[code.Slip, Rule]) -> bool:
    """Whether a text shows slips, which are taken from those alive."""
    text = place.text(rule)
    if text is None:
        return False
    spec, today = spec_of(text), place.today(rule)
    told = _told(rule, spec, today)
    shown = [slip for slip, slipped in alive.items() if _told(slipped, spec, today) != told]
    for slip in shown:
        del alive[slip]
    return bool(shown) and not told.startswith("fails")


def _told(rule: Rule, spec: Spec, today: str | None) -> str:
    signal.alarm(5)
    try:
        return nearby.told_of(rule, spec, today)
    except Exception as error:
        return f"fails {error!r}"
    finally:
        signal.alarm(0)


def _late(*_: object) -> None:
    raise TimeoutError


def _together(rule: Rule) -> Iterator[Nearby]:
    """Two examples in one text, and each in the other bases."""
    count = len(rule.bad) + len(rule.good)
    for one in range(count):
        yield from (Nearby((one,), base) for base in BASES)
        yield from (Nearby((one, other)) for other in range(count) if other != one)


def _figures(rule: Rule, own: list[Nearby], text: str) -> list[Nearby]:
    """Figures of the rule, of the example and of what stands beside them in its other lines."""
    tree = ast.parse(text)
    numbers = {
        f"{node.value:g}"
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and type(node.value) in (int, float)
    }
    made: list[Nearby] = []
    for place in own:
        example = place.text(rule) or ""
        others = numbers | {
            f"{float(found[0]) * by:g}" for found in _NUMBER.finditer(example) for by in (1, 0.5, 2)
        }
        for start, end in _lines(rule, place, example):
            line = example[start:end]
            for found in _NUMBER.finditer(line):
                value = float(found[0])
                near = {f"{value + 1:g}", f"{value - 1:g}", f"{value + 0.1:g}", f"{value - 0.1:g}"}
                for new in sorted(others | near):
                    whole = line[: found.start()] + new + line[found.end() :]
                    made.append(_edited(place, example, start, end, whole))
    return _shuffled(rule, made)


def _spoiled(rule: Rule, own: list[Nearby]) -> list[Nearby]:
    """Any fact of an example changed as the vocabulary knows: those it states itself, and what is
    left out of the others, more often than the rest."""
    near, left_out, far = (list[Nearby]() for _ in range(3))
    for place in own:
        example = place.text(rule) or ""
        found = places(Source(example, "example.hts"))
        lines = _lines(rule, place, example)
        for one in mutants(found, World(found, [])):
            is_near = any(start <= one.start < end for start, end in lines)
            edited = _edited(place, example, one.start, one.end, one.new)
            lot = near if is_near else left_out if one.change.endswith("left out") else far
            lot.append(edited)
    near, left_out, far = (_shuffled(rule, lot) for lot in (near, left_out, far))
    made = []
    while near or left_out or far:
        made += [lot.pop() for lot in (near, left_out, left_out, near, far) if lot]
    return made


def _beside(rule: Rule, own: list[Nearby]) -> list[Nearby]:
    """What examples of other rules change, beside an example of this one."""
    bases = {each.base for each in (*rule.bad, *rule.good)}
    others = [
        each.changes
        for other in rules()
        if other is not rule and other.family != "predicted"
        for each in (*other.bad, *other.good)
        if each.base in bases
    ]
    return _shuffled(rule, [place._replace(edits=edits) for place in own for edits in others])


def _several(rule: Rule, single: list[Nearby]) -> Iterator[Nearby]:
    """Two or three of these edits at once."""
    of: dict[tuple[int, ...], list[Nearby]] = {}
    for place in single[: 8 * _MOST]:
        of.setdefault(place.examples, []).append(place)
    drawn = random.Random(rule.kind.name)
    for _ in range(8 * _MOST):
        if not of:
            return
        lot = of[drawn.choice(list(of))]
        some = drawn.sample(lot, min(len(lot), drawn.choice((2, 2, 3))))
        yield some[0]._replace(edits=tuple(edit for place in some for edit in place.edits))


def _shuffled(rule: Rule, made: list[Nearby]) -> list[Nearby]:
    drawn = list(dict.fromkeys(made))
    random.Random(hashlib.sha256(rule.kind.name.encode()).digest()).shuffle(drawn)
    return drawn


def _lines(rule: Rule, place: Nearby, example: str) -> list[tuple[int, int]]:
    """Where the lines of an example stand that its base has not."""
    base = set(BASES[[*rule.bad, *rule.good][place.examples[0]].base].split("\n"))
    found, at = [], 0
    for line in example.split("\n"):
        if line not in base:
            found.append((at, at + len(line)))
        at += len(line) + 1
    return found


def _edited(place: Nearby, example: str, start: int, end: int, new: str) -> Nearby:
    """An edit whose old text stands there once: with what is before it, as far as need be."""
    first = start
    while example.count(example[first:end]) != 1 and first:
        first = example.rfind("\n", 0, max(first - 1, 0)) + 1
    old = example[first:end]
    return place._replace(edits=((old, example[first:start] + new),))


if __name__ == "__main__":
    raise SystemExit(main())
