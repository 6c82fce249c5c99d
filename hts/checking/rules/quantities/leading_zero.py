"""No figure begins with a nought that says nothing."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
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

#: Text and remarks, which are passed over, or such a figure with its unit. Dates, clock times and
#: names hold digits, too.
_FIGURE = re.compile(
    r'"[^"\n]*"|#[^\n]*|(?<![\w.:/"-])0\d+(?:\.\d+)? (?:%|deg[CF]|[a-zA-Z]+)(?![\w-])'
)
_SUSPECT = re.compile(r"[\s(]0\d")


@RULE.for_spec
def check(case: Case) -> None:
    source = case.spec.source
    # Few texts have one: the others are passed over at once.
    if _SUSPECT.search(source.text) is None:
        return
    for found in _FIGURE.finditer(source.text):
        if found[0][0] in '"#' or not _is_unit(found[0].split()[1]):
            continue
        case.add(
            RULE.found(
                f"{found[0]} begins with a nought",
                source.span(found.start(), found.end()),
                address="",
                basis=RULE.basis,
            )
        )


def _is_unit(word: str) -> bool:
    from hts.base.quantities.units import is_unit

    return is_unit(word)
