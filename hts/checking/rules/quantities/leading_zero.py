"""No figure begins with a nought that says nothing."""

from __future__ import annotations

import re

from hts.base.quantities.units import is_unit
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.figures import figures
from hts.checking.rules.rule import Bad, Good, Rule

_MARGIN = "  rate margin         10 %"

RULE = Rule(
    "Q204",
    "leading-zero",
    "warning",
    summary="A figure that begins with a nought before other digits, such as `020 A`.",
    why="Nobody writes it so: the digits changed places, and 200 A became 20 A.",
    fix="Check the digits, and leave the nought out where the figure is meant.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_MARGIN, _MARGIN.replace("10 %", "01 %")),), at="01 %", says="01 %"),),
    good=(Good(((_MARGIN, _MARGIN.replace("10 %", "10.0 %")),)),),
)

#: Such a figure, its unit beside it or behind a blank, wherever it begins: not within `600 degF` and
#: `0.05 %`.
_SUSPECT = re.compile(r"0(?<!\d0)(?<!\d\.0)\d+(?:\.\d+)?[ \t]*(%|°?[a-zA-Z]+)")
#: The same in a figure that has been read.
_NOUGHT = re.compile(r"(?<![\d.])0\d+(?:\.\d+)? \S+")


@RULE.for_spec
def check(case: Case) -> None:
    source = case.spec.source
    # Few texts have one: the others are passed over at once.
    if not any(is_unit(word) for word in _SUSPECT.findall(source.text)):
        return
    for figure, place in figures(source):
        if nought := _NOUGHT.search(figure):
            message = f"{nought[0]} begins with a nought"
            case.add(RULE.found(message, place, address="", basis=RULE.basis))
