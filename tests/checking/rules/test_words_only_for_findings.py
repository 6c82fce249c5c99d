"""A rule that finds nothing words nothing: sentences and figures in two units take longer than
looking does, and most specifications break few rules."""

from __future__ import annotations

from typing import Any

import pytest

from hts.base.quantities import Quantity
from hts.base.text import Source
from hts.checking.checker.packs import checks
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BUTT, PREHEAT
from hts.checking.rules.rule import Rule
from hts.language.model import Spec
from tests.specs.found import SPECS
from tests.texts import examples

TEXTS = {"butt": BUTT, "preheat": PREHEAT}
NAMES = (*TEXTS, "p22-header", "p91-pipe", "branch-unequal", "steam-main-ibr")


@pytest.mark.parametrize("name", NAMES)
def test_no_figure_is_worded_for_nothing(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    worded: list[None] = []

    def counted(known: Any) -> Any:
        def show(self: Quantity, *how: Any, **more: Any) -> Any:
            worded.append(None)
            return known(self, *how, **more)

        return show

    for method in ("both", "show"):
        monkeypatch.setattr(Quantity, method, counted(getattr(Quantity, method)))
    loader = examples()
    if name in TEXTS:
        spec = Spec(Source(TEXTS[name], f"{name}.hts"), loader)
    else:
        spec = Spec(loader.read(str(SPECS / f"{name}.hts")), loader)
    case = Case(spec, "2026-11-25")
    _ = case.authorities
    wordy: set[str] = set()

    def put(rule: Any, *subject: Any) -> None:
        assert isinstance(rule, Rule)
        before, found = len(worded), len(case.report.findings)
        rule.check(case, *subject)
        if len(case.report.findings) == found and len(worded) > before:
            wordy.add(rule.kind.name)

    rules = checks()
    for rule in rules["spec"]:
        put(rule)
    for joint in case.joints():
        for rule in rules["joint"]:
            put(rule, joint)
        for treatment in case.treatments(joint):
            for rule in rules["treatment"]:
                put(rule, treatment)
    assert wordy == set()
