"""Every rule against its own examples, and the texts every rule owes its reader."""

from __future__ import annotations

import inspect
import re

import pytest

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.govern.case import Case
from hts.checking.rules.catalogue import by_subject, rules
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Bad, Good, Rule
from tests.texts import spec_of

RULES = rules()
BAD = [(rule, n, bad) for rule in RULES for n, bad in enumerate(rule.bad, 1)]
GOOD = [(rule, n, good) for rule in RULES for n, good in enumerate(rule.good, 1)]


def _findings(text: str, today: str | None = None) -> list[Finding]:
    return check_spec(spec_of(text), today)


def _id(value: object) -> str | None:
    return value.kind.name if isinstance(value, Rule) else None


@pytest.mark.parametrize("base", BASES)
def test_the_bases_have_no_finding(base: str) -> None:
    assert _findings(BASES[base]) == []


@pytest.mark.parametrize(("rule", "number", "bad"), BAD, ids=_id)
def test_a_bad_example_breaks_this_rule_and_no_other(rule: Rule, number: int, bad: Bad) -> None:
    found = _findings(changed(bad.base, bad.changes), bad.today)
    assert [finding.kind.name for finding in found] == [rule.kind.name], found
    assert bad.at in found[0].at.span.text


@pytest.mark.parametrize(("rule", "number", "good"), GOOD, ids=_id)
def test_a_good_example_has_no_finding(rule: Rule, number: int, good: Good) -> None:
    assert _findings(changed(good.base, good.changes), good.today) == []


def test_codes_and_names_are_unique() -> None:
    codes = [rule.kind.code for rule in RULES]
    names = [rule.kind.name for rule in RULES]
    assert len(set(codes)) == len(codes)
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("rule", RULES, ids=_id)
def test_a_rule_is_filled_in(rule: Rule) -> None:
    kind = rule.kind
    assert re.fullmatch(r"[A-Z][1-9]\d\d", kind.code)
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", kind.name)
    file = inspect.getsourcefile(rule.check)
    assert file is not None
    assert file.endswith(f"/{rule.family}/{kind.name.replace('-', '_')}.py")
    for text in (kind.summary, kind.why, kind.fix):
        assert text.endswith(".")
        assert text[0].isupper() or text[0] == "`"
    assert rule.source
    assert rule.basis in ("published", "memory", "practice", "derived")
    assert rule.bad, "a rule without an example of what it finds"


def test_no_source_means_common_practice() -> None:
    """A rule never claims more than it has: one without a source is common practice."""
    for rule in RULES:
        if "no source" in rule.source:
            assert rule.basis == "practice", rule.kind.name


def test_every_rule_is_run() -> None:
    assert sum(len(found) for found in by_subject().values()) == len(RULES)


def test_the_order_of_rules_does_not_matter() -> None:
    """Two runs over one text give the same findings in the same order."""
    text = changed("butt", (("at most 200 degC/h\n  hold", "at most 400 degC/h\n  hold"),))
    assert [repr(f) for f in _findings(text)] == [repr(f) for f in _findings(text)]


def test_nothing_is_judged_by_the_date_unless_one_is_given() -> None:
    case = Case(spec_of(BASES["butt"]))
    assert case.today is None
