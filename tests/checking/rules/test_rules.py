"""Every rule against its own examples, and the texts every rule owes its reader."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.govern.case import Case
from hts.checking.rules.catalogue import by_subject, rules
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Bad, Rule
from tests import told
from tests.checking.rules.figures_told import compares, figures, form, steps_apart, untold
from tests.rows import each_row
from tests.sampling import whose_turn
from tests.texts import spec_of

RULES = rules()
#: What is predicted takes seconds for each example.
TRIED = [
    *(rule for rule in RULES if rule.family != "predicted"),
    *whose_turn([rule for rule in reversed(RULES) if rule.family == "predicted"], 3),
]
#: What the examples of each rule are told, word for word: see `tests.told`.
KEPT = Path(__file__).with_name("told") / "messages.txt"

#: Messages that set two values side by side and have no edge, by words of them, and why.
_PREDICTED = (
    "what is predicted hangs on the whole joint; its physics is held in tests/science/field"
)
NO_EDGE: dict[str, dict[str, str]] = {
    "B129": {"bears about": "materials go in steps, and no hold lies beside what one bears"},
    "B104": {"the soak band": "just wider than the soak band, heated-band-below-practice tells"},
    "C145": {"a lead of": "from there to 1 m short-lead tells"},
    "C104": {"class 3": "a class has one range: no job comes near its end"},
    "C141": {"glass braid bears": "no book lets metal be held as cold as glass braid bears"},
    "C110": {"is good to": "holds lie far from the limits of wire; tests/science/thermocouples"},
    "D101": {"in the history": "two dates that have to be equal"},
    "J210": {"single layer": "the wall decides treatment and bands, and these tell before it"},
    "L216": {"no hold temperature": "a range of one temperature has findings of its own"},
    "M204": {", Mo": "two elements at once, each as in the edge"},
    "N109": {"downstream; the nearest": "the side is another, at the same distance"},
    "P103": {"the preheat": "just above the preheat, narrow-interpass-window tells"},
    "P105": {"two units": "figures in two units, whatever their size"},
    "P111": {"was tempered": "implausible-value tells of so low a tempering temperature"},
    "R104": {"/ t never counts": "a formula is put to typical welds, which lie apart"},
    "Q201": {"the figures fit": "just within what is plausible, rules of the hold tell"},
    "R126": {"stand together": "the two are told as they are written; the larger says all"},
    "R135": {"of pipe that lies": "places on a clock are not compared"},
    "R116": {
        "zones at least": "sizes of pipe go in steps",
        "max(": "the formula has figures of its own",
        "preheat at least": "the row is what it comes to; a good example is the next figure",
    },
    "T101": {"is predicted": _PREDICTED},
    "T102": {"endless": _PREDICTED},
    "T104": {"is predicted": _PREDICTED},
    "T109": {"lag": _PREDICTED, "axial": _PREDICTED},
    "Y104": {"outside": "just within, the end of the range is told"},
    "Y115": {"lower critical": "far above the range of the hold, which is told sooner"},
    "Z103": {"the heaters reach": "control-beside-weld tells of any that stand off the weld"},
    "R111": {
        "there are 2 of 4": "more thermocouples are more lines, not another value",
        "no thermocouple says": "a thermocouple is at a place or is not",
    },
}
#: Rules that two equal values break, or whose message tells one value twice, and why.
ALIKE_IS_WRONG = {
    "C103": "a range that ends where the hold does shows nothing above it",
    "N113": "what is as thick as the pipe is no heavier",
    "P115": "no pass can follow where both are the same",
    "P122": "no pass can follow where both are the same",
    "R104": "one of two equal demands has no effect",
    "R126": "a part that asks for as much as the other never counts",
    "R111": "tells the demand as it is written, and what falls short of it",
    "R117": "tells the wall of both rows",
    "Y101": "a step of heating that does not heat",
    "Y102": "a step of cooling that does not cool",
    "Y104": "a setpoint at the end of its range",
    "Y115": "an alarm at the setpoint comes at once",
    "Y121": "an alarm at the setpoint comes at once",
}


def _findings(text: str, today: str | None = None) -> list[Finding]:
    return check_spec(spec_of(text), today)


def _id(value: object) -> str | None:
    return value.kind.name if isinstance(value, Rule) else None


@each_row("base", BASES)
def test_the_bases_have_no_finding(base: str) -> None:
    assert _findings(BASES[base]) == []


@pytest.mark.parametrize("rule", TRIED, ids=_id)
def test_bad_examples_break_this_rule_and_no_other_and_good_ones_none(rule: Rule) -> None:
    """And what is told of the bad ones tells their figures."""
    findings = {bad: _found(rule, bad) for bad in rule.bad}
    messages = {bad: finding.message for bad, finding in findings.items()}
    told.one_line(KEPT, rule.kind.name, list(_told(findings.values())))
    for bad, message in messages.items():
        assert untold(message, bad.says) == [], f"says=… leaves them out of {message!r}"
    at_the_limit = {form(messages[edge.bad]) for edge in rule.edges}
    for message in messages.values():
        if compares(message) and form(message) not in at_the_limit:
            assert any(words in message for words in NO_EDGE.get(rule.kind.code, {})), (
                f"{message!r} sets two values side by side: an Edge shows where the limit lies"
            )
    for good in rule.good:
        assert _findings(changed(good.base, good.changes), good.today) == [], good


def _told(findings: Iterable[Finding]) -> Iterator[str]:
    """Each message; beside the first of a form what else is told, and where."""
    known: set[str] = set()
    for finding in findings:
        yield f"{finding.address}: {finding.message}"
        if form(finding.message) not in known:
            known.add(form(finding.message))
            yield from (
                f"  {each.text} at {' '.join(each.span.text.split())[:60]}"
                for each in (finding.at, *finding.others)
            )
            yield from (f"  note {note}" for note in finding.notes)
            if finding.help != finding.kind.fix:
                yield f"  do {finding.help}"


def _found(rule: Rule, bad: Bad) -> Finding:
    found = _findings(changed(bad.base, bad.changes), bad.today)
    assert [finding.kind.name for finding in found] == [rule.kind.name], found
    assert bad.at in found[0].at.span.text
    return found[0]


def test_the_two_values_of_an_edge_are_neighbours() -> None:
    for rule, edge in [(each, edge) for each in RULES for edge in each.edges]:
        assert steps_apart(edge) == 1, edge
        told = [f for f in figures(re.sub(r" \([^()]*\)", "", edge.says)) if " " in f]
        assert len(set(told)) == len(told) or rule.kind.code in ALIKE_IS_WRONG, (
            "the figure beyond the limit is shown as the limit"
        )


def test_codes_and_names_are_unique() -> None:
    codes = [rule.kind.code for rule in RULES]
    names = [rule.kind.name for rule in RULES]
    assert len(set(codes)) == len(codes)
    assert len(set(names)) == len(names)


def test_a_rule_is_filled_in() -> None:
    for rule in RULES:
        kind = rule.kind
        assert re.fullmatch(r"[A-Z][1-9]\d\d", kind.code), kind.code
        assert re.fullmatch(r"[a-z]+(-[a-z]+)+", kind.name), kind.name
        file = inspect.getsourcefile(rule.check)
        assert file is not None
        assert file.endswith(f"/{rule.family}/{kind.name.replace('-', '_')}.py"), kind.name
        for text in (kind.summary, kind.why, kind.fix):
            assert text.endswith("."), kind.name
            assert text[0].isupper() or text[0] == "`", kind.name
        assert rule.source, kind.name
        assert rule.basis in ("published", "memory", "practice", "derived"), kind.name
        assert rule.bad, f"{kind.name} is without an example of what it finds"


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
