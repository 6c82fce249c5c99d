"""Which values a text leaves to the rules, and what counts as a change of the paper."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from hts.job.comparison.issue import _is_content
from hts.job.comparison.limits_in_force import by_rule
from hts.job.comparison.registry import NOTE, REAPPROVE, REVIEW
from tests.rows import each_row
from tests.texts import spec_of

HOLD = "hold  700 .. 730 degC for 2 h"
BY_RULE = "hold  by rule for by rule"
HEAT = "heat  to 715 degC   at most 200 degC/h"
COOL = "cool  to 315 degC   at most 200 degC/h"
FREE = ((HEAT, "heat  to 715 degC"), (COOL, "cool  to 315 degC"))
PREHEAT = "at least          150 degC"
WIDTH = "width             75 mm each side"


def _by_rule(quantity: str, way: str, of_cycle: bool, *changes: tuple[str, str]) -> bool:
    case = Case(spec_of(changed("butt", changes)))
    joint = next(iter(case.joints()))
    treatment = next(iter(case.treatments(joint))) if of_cycle else None
    return by_rule(joint, treatment, quantity, way)


@each_row(
    ("quantity", "way", "of_cycle", "changes", "left_to_rules"),
    [
        ("governing thickness", "exactly", False, (), True),
        ("heated band", "minimum", False, (), True),
        ("heated band", "minimum", False, (("heated band    by rule", "heated band 600 mm total"),),
         False),
        ("soak band", "minimum", False, (("heated band    by rule", "heated band 600 mm total"),),
         True),
        ("zones", "minimum", False, (), False),
        ("preheat", "minimum", False, (), False),
        ("preheat", "minimum", False, ((PREHEAT, "at least  by rule"),), True),
        ("interpass", "maximum", False, (), False),
        ("interpass", "maximum", False, (("at most 315 degC", "at most by rule"),), True),
        ("preheat width", "minimum", False, (), False),
        ("preheat width", "minimum", False, ((WIDTH, "width  by rule"),), True),
        ("hold temperature", "minimum", True, (), False),
        ("hold time", "minimum", True, (), False),
        ("hold time", "maximum", True, (), True),
        ("hold time", "minimum", True, ((HOLD, "hold  700 .. 730 degC for by rule"),), True),
        ("hold time", "maximum", True, ((HOLD, f"{HOLD} at most 4 h"),), False),
        ("heating rate", "maximum", True, (), True),
        ("cooling rate", "maximum", True, (("  cool  in still air\n", ""),), False),
        ("heating rate", "minimum", True, (), True),
        ("cooling rate", "maximum", True, FREE, True),
        ("spread while holding", "maximum", True, (), False),
    ],
)  # fmt: skip
def test_what_is_left_to_the_rules(
    quantity: str, way: str, of_cycle: bool, changes: Any, left_to_rules: bool
) -> None:
    assert _by_rule(quantity, way, of_cycle, *changes) is left_to_rules


def test_what_is_not_there_is_not_left_to_the_rules() -> None:
    joint: Any = Stub(entry=Stub(heating=None), preheat=None)
    for quantity in ("soak band", "zones", "preheat", "interpass", "preheat width"):
        assert not by_rule(joint, None, quantity, "minimum")


@each_row(
    ("area", "kind", "verdict", "content"),
    [
        # A limit is on paper where it is stricter or looser for the work, not where it is a note.
        ("limit", "lower limit in force", REAPPROVE, True),
        ("limit", "lower limit in force", REVIEW, True),
        ("limit", "lower limit in force", NOTE, False),
        ("treatment", "rate", NOTE, True),
        ("procedure", "row", REAPPROVE, False),
        ("document", "revision kept", REAPPROVE, False),
        ("document", "scope", NOTE, True),
    ],
)
def test_what_asks_for_a_new_revision(area: str, kind: str, verdict: str, content: bool) -> None:
    assert _is_content(Stub(area=area, kind=kind, verdict=verdict)) is content  # type: ignore[arg-type]
