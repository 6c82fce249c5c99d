"""The examples of a pack held against its rules, for the tests of the pack.

from hts.plugin.testing import check_examples
from tern_rules import RULES

def test_examples():
    check_examples(RULES)
"""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.findings import Finding, ordered
from hts.base.text import Source
from hts.checking.checker.packs import Guarded, sound
from hts.checking.checker.run import check_case, judged_by
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model import Loader, Spec

__all__ = ["BASES", "check_examples", "findings"]


def findings(rules: Iterable[Rule], text: str, today: str | None = None) -> list[Finding]:
    """What the rules of a pack find in the text of a specification, in their order.

    Raises AssertionError where a rule fails.
    """
    case = Case(Spec(Source(text, "example.hts"), Loader("/")), today)
    judged_by(case, [Guarded(rule, "the pack") for rule in rules])
    assert not case.faults, case.faults[0]
    codes = {rule.kind.code for rule in rules}
    return ordered(f for f in case.report.findings if f.kind.code in codes)


def check_examples(rules: Iterable[Rule]) -> None:
    """Holds a pack to what it says: each bad example breaks its rule once, at the text it names
    and in the words it says, and no other rule of the pack; each good one breaks none; none has a
    finding of hts itself.

    Raises AssertionError that names rule and example, and PackError for what is no sound rule.
    """
    pack = sound("the pack", rules)
    for rule in pack:
        examples: list[Bad | Good] = [*rule.bad, *rule.good]
        for number, example in enumerate(examples, 1):
            _check(pack, rule, example, f"{rule.kind.code} {rule.kind.name}, example {number}")


def _check(pack: tuple[Rule, ...], rule: Rule, example: Bad | Good, named: str) -> None:
    text = changed(example.base, example.changes)
    found = findings(pack, text, example.today)
    if isinstance(example, Good):
        assert not found, f"{named} is good, but it has {found[0]!r}"
    else:
        names = [finding.kind.name for finding in found]
        assert names == [rule.kind.name], f"{named} is to break this rule once, it breaks {names}"
        at = found[0].at.span.text
        assert example.at in at, f"{named} is to be found at {example.at!r}, it is at {at!r}"
        left = found[0].message
        for words in (part.strip() for part in example.says.split("…")):
            assert words in left, f"{named} is to say {words!r}, it says {found[0].message!r}"
            left = left.partition(words)[2] if words else left
    own = check_case(Case(Spec(Source(text, "example.hts"), Loader("/")), example.today))
    assert not own, f"{named} has a finding of hts: {own[0]!r}"
