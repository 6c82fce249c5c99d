"""Every fact of `kept_facts.py` is kept, and every rule keeps one."""

from __future__ import annotations

import inspect
from importlib import import_module

from hts.checking.checker.run import check_spec
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import changed
from hts.job.explain.rules import entries
from tests.checking.rules.fact import Fact
from tests.checking.rules.kept_facts import FACTS
from tests.rows import each_row
from tests.texts import spec_of

KNOWN = {kind.code: kind for kind, _ in entries()}
#: The language's own findings: a text that gets one is not understood.
LANGUAGE = ("W", "Q1", "S")
REFUSED = [fact for fact in FACTS if fact.refused]
ON_PAPER = [fact for fact in FACTS if fact.paper[0]]


def _id(fact: Fact) -> str:
    return fact.fact


def test_a_fact_is_kept_somehow_and_by_findings_there_are() -> None:
    for fact in FACTS:
        assert fact.codes or fact.refused or fact.paper[0], fact
        assert [code for code in fact.codes.split() if code not in KNOWN] == [], fact


@each_row("fact", REFUSED, ids=_id)
def test_the_language_refuses_to_say_otherwise(fact: Fact) -> None:
    text = changed(fact.base, fact.refused)
    found = check_spec(spec_of(text))
    refusals = [f for f in found if f.kind.code.startswith(LANGUAGE) and f.severity == "error"]
    assert len(refusals) == 1, found
    # It points at what was put in, and not at something that suffers from it.
    where = refusals[0].at.span
    new = fact.refused[0][1]
    start = text.index(new)
    assert start <= where.start <= start + len(new)


@each_row("fact", ON_PAPER, ids=_id)
def test_the_paper_that_goes_to_the_pipe_says_it(fact: Fact) -> None:
    module, words = fact.paper
    assert words in inspect.getsource(import_module(f"hts.paper.packet.{module}"))


def test_every_rule_keeps_a_fact() -> None:
    told = {code for fact in FACTS for code in fact.codes.split()}
    assert sorted(rule.kind.code for rule in rules() if rule.kind.code not in told) == []
