"""Rules of others: packs that another distribution offers under the entry point `hts.rules`.

An entry point names a pack and leads to an iterable of `hts.checking.rules.rule.Rule`. A pack
counts only where the configuration names it; nothing is looked for, and none of its code is run,
before that.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, NamedTuple

from hts.base.findings import Kind
from hts.checking.checker.results import PackError
from hts.checking.govern.case import Case
from hts.checking.rules.catalogue import by_subject
from hts.checking.rules.rule import Rule

GROUP = "hts.rules"
#: Two letters or more, so that no code ever meets one of the program's own.
_CODE = r"[A-Z]{2,8}[0-9]{3}"
_NAME = r"[a-z0-9]+(-[a-z0-9]+)*"


class Guarded(NamedTuple):
    """A rule of a pack; what goes wrong in it is told as a fault of the pack."""

    rule: Rule
    pack: str

    def check(self, case: Case, *subject: Any) -> None:
        """Raises PackError."""
        try:
            self.rule.check(case, *subject)
        except Exception as error:
            kind = self.rule.kind
            raise PackError(
                f"rule {kind.name} ({kind.code}) of rule pack {self.pack} failed on "
                f"{case.spec.source.name}: {_said(error)}"
            ) from error


Checks = dict[str, tuple[Rule | Guarded, ...]]


@lru_cache(maxsize=8)
def checks(packs: tuple[str, ...] = ()) -> Checks:
    """The program's own rules and those of the packs, by what they look at. Raises PackError."""
    found: Checks = dict(by_subject())
    for guarded in _rules(packs):
        found[guarded.rule.subject] += (guarded,)
    return found


def kinds(packs: tuple[str, ...] = ()) -> tuple[Kind, ...]:
    """All kinds of finding, those of the packs included. Raises PackError."""
    from hts.checking.checker.all_kinds import all_kinds

    return (*all_kinds(), *(guarded.rule.kind for guarded in _rules(packs)))


@lru_cache(maxsize=8)
def _rules(packs: tuple[str, ...]) -> tuple[Guarded, ...]:
    if not packs:
        return ()
    from hts.checking.checker.all_kinds import all_kinds

    taken = {word: "hts" for kind in all_kinds() for word in (kind.code, kind.name)}
    found = []
    for pack in packs:
        for rule in _sound(pack, _load(pack)):
            for word in (rule.kind.code, rule.kind.name):
                if word in taken:
                    raise PackError(f"rule pack {pack}: {taken[word]} has a rule {word}, too")
                taken[word] = f"rule pack {pack}"
            found.append(Guarded(rule, pack))
    return tuple(sorted(found, key=lambda guarded: guarded.rule.kind.code))


def _load(pack: str) -> Any:
    """What the entry point of a pack leads to."""
    from importlib.metadata import entry_points

    offered = {point.name: point for point in entry_points(group=GROUP)}
    if pack not in offered:
        there = f"installed: {', '.join(sorted(offered))}" if offered else "none is installed"
        raise PackError(f"there is no rule pack {pack}; {there}")
    try:
        return offered[pack].load()
    except Exception as error:
        raise PackError(f"rule pack {pack} cannot be imported: {_said(error)}") from error


def _sound(pack: str, offered: Any) -> Iterable[Rule]:
    """The rules of a pack. Raises PackError where one is not what a rule is."""
    try:
        rules = tuple(offered)
    except Exception:
        raise PackError(f"rule pack {pack} does not give a list of rules but {offered!r}") from None
    for rule in rules:
        if not isinstance(rule, Rule):
            raise PackError(
                f"rule pack {pack} holds {rule!r}, which is not a rule "
                f"(hts.checking.rules.rule.Rule)"
            )
        kind = rule.kind
        if not rule.subject:
            raise PackError(f"rule pack {pack}: there is no function for rule {kind.code}")
        if not re.fullmatch(_CODE, kind.code) or not re.fullmatch(_NAME, kind.name):
            raise PackError(
                f"rule pack {pack}: {kind.code} {kind.name}: a code is two to eight capital "
                "letters and three digits, a name small letters, digits and hyphens"
            )
    return rules


def _said(error: Exception) -> str:
    return f"{type(error).__name__}: {error}"
