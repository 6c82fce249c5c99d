"""A role is called the same wherever it signs, answers or accepts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.declare import BLOCK, Entry, Field
from hts.language.vocabulary.types import Text

_CHECKED = '    checked    "Welding engineer"'

RULE = Rule(
    "D120",
    "role-spelt-two-ways",
    "warning",
    summary="Two roles of a text that differ in one letter of one word.",
    why="Whoever looks for the role that has to sign or release finds nobody of that name, and two roles "
    "seem to have looked where one did.",
    fix="Spell it the same in all places.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_CHECKED, '    checked    "Owner\'s enginer"'),),
            at="engineer",
            says="Owner's enginer and Owner's engineer",
        ),
    ),
    good=(Good(((_CHECKED, '    checked    "Owner\'s inspector"'),)),),
)
#: Fields that hold a role say so in what they are for.
_ROLE = re.compile(r"\brole\b|\bacceptance of\b", re.IGNORECASE)
#: A shorter word may be another one with a letter changed: day and bay, NDT and NDE.
_LEAST = 5
_PLANS: dict[type[Entry], tuple[tuple[Field, ...], tuple[Field, ...]]] = {}


@RULE.for_spec
def check(case: Case) -> None:
    found: dict[str, tuple[Entry, Span]] = {}
    for entry, field, role in _roles(case.spec.file):
        found.setdefault(" ".join(role.split()), (entry, entry.place(field.name)))
    for first, second in combinations(found, 2):
        if _one_letter_apart(first.casefold(), second.casefold()):
            entry, at = found[second]
            case.add(
                RULE.found(
                    f"{first} and {second} are one letter apart",
                    at,
                    address=entry.address,
                    others=[Label(found[first][1], "the other one")],
                    basis=RULE.basis,
                )
            )


def _roles(entry: Entry) -> Iterator[tuple[Entry, Field, str]]:
    """The roles that an entry and all below it name."""
    roles, blocks = _plan(type(entry))
    for field in roles:
        role = getattr(entry, field.name) if field.name in entry.places else None
        if isinstance(role, str):
            yield entry, field, role
    for field in blocks:
        if field.name in entry.places:
            value = getattr(entry, field.name)
            for each in value if field.many else (value,):
                if isinstance(each, Entry) and each.sound:
                    yield from _roles(each)


def _plan(cls: type[Entry]) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    """The fields of an entry that hold a role, and those that hold entries."""
    known = _PLANS.get(cls)
    if known is None:
        fields = tuple(cls.fields.values())
        roles = tuple(f for f in fields if isinstance(f.type, Text) and _ROLE.search(f.doc))
        known = _PLANS[cls] = roles, tuple(f for f in fields if f.form == BLOCK)
    return known


def _one_letter_apart(first: str, second: str) -> bool:
    """Whether one word of the two differs, by one letter changed, lost, or changed places."""
    one, other = first.split(), second.split()
    if len(one) != len(other):
        return False
    apart = [(a, b) for a, b in zip(one, other, strict=True) if a != b]
    if len(apart) != 1:
        return False
    a, b = sorted(apart[0], key=len)
    if len(a) < _LEAST or a.isdigit() or len(b) - len(a) > 1:
        return False
    if b in (f"{a}s", f"{a}s'"):
        return False
    if len(a) < len(b):
        return any(b[:n] + b[n + 1 :] == a for n in range(len(b)))
    differ = [n for n in range(len(a)) if a[n] != b[n]]
    if len(differ) == 1:
        return a[differ[0]].isalpha() and b[differ[0]].isalpha()
    return len(differ) == 2 and a[differ[0]] == b[differ[1]] and a[differ[1]] == b[differ[0]]
