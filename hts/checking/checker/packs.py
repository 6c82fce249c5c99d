"""Rules of others: packs that another distribution offers under the entry point `hts.rules`.

An entry point names a pack and leads to an iterable of `hts.checking.rules.rule.Rule`. A pack
counts only where the configuration names it; nothing is looked for, and none of its code is run,
before that.
"""

from __future__ import annotations

import os
import re
from functools import lru_cache
from typing import Any, NamedTuple

from hts.base.findings import Kind
from hts.checking.checker.program import digest_of, stamps
from hts.checking.checker.results import PackError
from hts.checking.govern.case import Case
from hts.checking.rules.catalogue import by_subject
from hts.checking.rules.rule import Bad, Rule

GROUP = "hts.rules"
#: Two letters or more, so that no code ever meets one of the program's own.
_CODE = r"[A-Z]{2,8}[0-9]{3}"
_BASES = ("published", "memory", "practice", "derived")
#: The exit code of a program that is being ended from outside, which a rule does not hold up.
TERMINATED = 143
_NAME = r"[a-z0-9]+(-[a-z0-9]+)*"


class Guarded(NamedTuple):
    """A rule of a pack; what goes wrong in it is told as a fault of the pack."""

    rule: Rule
    pack: str

    def check(self, case: Case, *subject: Any) -> None:
        """Puts the rule to its subject. What goes wrong is a line in ``case.faults``, one for each
        rule and text; the other rules keep running."""
        try:
            self.rule.check(case, *subject)
        except KeyboardInterrupt:
            raise
        except BaseException as error:
            if isinstance(error, SystemExit) and error.code == TERMINATED:
                raise
            kind = self.rule.kind
            head = f"rule {kind.name} ({kind.code}) of rule pack {self.pack} failed"
            if not any(fault.startswith(head) for fault in case.faults):
                named = [getattr(each, "address", "") or each.name for each in subject]
                on = f" on {named[0]}" if named else ""
                case.faults.append(f"{head}{on}: {_said(error)}{_line(error, self.rule)}")


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


def rules_of(packs: tuple[str, ...]) -> tuple[Rule, ...]:
    """The rules of the packs alone; the family of each is the name of its pack. Raises
    PackError."""
    return tuple(guarded.rule for guarded in _rules(packs))


@lru_cache(maxsize=8)
def _rules(packs: tuple[str, ...]) -> tuple[Guarded, ...]:
    if not packs:
        return ()
    from hts.checking.checker.all_kinds import all_kinds

    taken = {word: "hts" for kind in all_kinds() for word in (kind.code, kind.name)}
    found = []
    for pack in packs:
        for rule in sound(pack, _load(pack)):
            rule.family = pack
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
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        raise PackError(
            f"rule pack {pack} cannot be imported: {_said(error)}{_line(error)}"
        ) from error


def sound(pack: str, offered: Any) -> tuple[Rule, ...]:
    """The rules of a pack. Raises PackError where one is not what a rule is."""
    try:
        rules = tuple(offered)
    except KeyboardInterrupt:
        raise
    except BaseException:
        raise PackError(f"rule pack {pack} does not give a list of rules but {offered!r}") from None
    for rule in rules:
        if not isinstance(rule, Rule):
            raise PackError(
                f"rule pack {pack} holds {rule!r}, which is not a rule (hts.plugin.Rule)"
            )
        wrong = _wrong(rule)
        if wrong:
            raise PackError(f"rule pack {pack}: {rule.kind.code} {rule.kind.name}: {wrong}")
    return rules


def _wrong(rule: Rule) -> str:
    """What a rule lacks, "" where it is whole."""
    kind = rule.kind
    if not rule.subject:
        return "there is no function for it; tie one to the rule with a decorator"
    if not re.fullmatch(_CODE, kind.code) or not re.fullmatch(_NAME, kind.name):
        return (
            "a code is two to eight capital letters and three digits, a name small letters, digits "
            "and hyphens"
        )
    if kind.severity not in ("error", "warning", "advice"):
        return f"a severity is error, warning or advice, not {kind.severity!r}"
    if not all(
        isinstance(text, str) and text.strip() for text in (kind.summary, kind.why, kind.fix)
    ):
        return "summary, why and fix are sentences"
    if not rule.source.strip() or rule.basis not in _BASES:
        return f"a rule names its source, and its basis: {', '.join(_BASES)}"
    if "no source" in rule.source and rule.basis != "practice":
        return "what has no source is of basis practice"
    if kind.severity == "error" and rule.basis in ("memory", "practice"):
        return f"what rests on {rule.basis} alone warns and is no error"
    if not rule.bad or not all(isinstance(bad, Bad) for bad in rule.bad):
        return "a rule has a bad example at least (hts.plugin.Bad)"
    return ""


def stamp(packs: tuple[str, ...]) -> str | None:
    """A digest that changes with every version and every file of the packs and with the versions
    of what they need; None where that cannot be told, so that nothing is kept. None of their code
    runs."""
    from importlib.metadata import PackageNotFoundError, entry_points, version
    from importlib.util import find_spec

    offered = {point.name: point for point in entry_points(group=GROUP)}
    told: list[str] = []
    for pack in packs:
        point = offered.get(pack)
        if point is None or point.dist is None:
            return None
        told.append(f"{pack} {point.value} {point.dist.name} {point.dist.version}")
        for needed in point.dist.requires or ():
            name = re.split(r"[^A-Za-z0-9._-]", needed, maxsplit=1)[0]
            try:
                told.append(f"{name} {version(name)}")
            except PackageNotFoundError:
                told.append(f"{name} is not installed")
        try:
            found = find_spec(point.module.partition(".")[0])
        except (ImportError, ValueError):
            return None
        if found is None:
            return None
        for folder in found.submodule_search_locations or ():
            told += stamps(folder)
        if found.origin is not None and not found.submodule_search_locations:
            state = os.stat(found.origin)
            told.append(f"{found.origin} {state.st_size} {state.st_mtime_ns}")
    return digest_of("\n".join(told).encode("utf-8", "surrogateescape"))


def _said(error: BaseException) -> str:
    words = " ".join(str(error).split())[:200]
    return f"{type(error).__name__}: {words}" if words else type(error).__name__


def _line(error: BaseException, rule: Rule | None = None) -> str:
    """The last line of the pack's own that was running."""
    # Only what failed needs it, and importing it takes as long as a small check.
    import traceback

    here = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
    frames = traceback.extract_tb(error.__traceback__)
    theirs = [f for f in frames if not f.filename.startswith((here, "<frozen"))]
    if rule is not None:
        file = getattr(getattr(rule.check, "__code__", None), "co_filename", None)
        folder = os.path.dirname(file) if file else None
        theirs = [f for f in theirs if folder and f.filename.startswith(folder)] or theirs
    if not theirs:
        return ""
    return f" ({os.path.basename(theirs[-1].filename)}, line {theirs[-1].lineno})"
