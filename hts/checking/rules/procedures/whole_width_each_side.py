"""A formula of whole widths is one in total, not for each side."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule

_LINE = "  holding spread   at most 25 K"


def _with(line: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"{_LINE}\n  {line}"),)


RULE = Rule(
    "R138",
    "whole-width-each-side",
    "warning",
    summary="A width of a procedure for each side whose formula adds up whole widths: the cap, the soak or the heated band.",
    why="It comes out twice as wide as was meant, and jobs that do it right are blamed.",
    fix="Write `total`, or half of the width in the formula.",
    source="arithmetic: cap and bands are total widths",
    basis="derived",
    bad=(
        Bad(
            _with("soak band at least cap_width + 2 * min(t, 50 mm) each side"),
            base="owner",
            at="cap_width + 2 * min(t, 50 mm) each side",
            says="adds the whole cap_width to each side",
        ),
        Bad(
            _with("gradient band at least heated_band + 4 * sqrt(inside_radius * wall) each side"),
            base="owner",
            at="heated_band + 4 * sqrt(inside_radius * wall) each side",
            says="adds the whole heated_band to each side",
        ),
    ),
    good=(
        Good(_with("soak band at least cap_width + 2 * min(t, 50 mm) total"), base="owner"),
        Good(_with("soak band at least cap_width / 2 + min(t, 50 mm) each side"), base="owner"),
        Good(_with("soak band at least min(t, 50 mm) + 0.5 * cap_width each side"), base="owner"),
        Good(_with("heated band at least 5 * sqrt(inside_radius * wall) each side"), base="owner"),
    ),
)

#: A width that is added whole: at the head of a sum, or behind a plus, and not divided.
_WHOLE = re.compile(r"(?:^|[(+,]) *(cap_width|soak_band|heated_band)\b(?! *[/*])", re.IGNORECASE)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line in procedure.limits:
            for field in ("minimum", "maximum"):
                formula = getattr(line, field)
                if formula is None or not line.sound:
                    continue
                at = line.place(field)
                written = at.text
                found = _WHOLE.search(re.sub(r"^at (?:least|most) +", "", written))
                if found is not None and written.rstrip().endswith("each side"):
                    case.add(
                        RULE.found(
                            f"the {line.quantity} of {procedure.name} adds the whole {found[1]} to each side",
                            at,
                            address=procedure.name,
                            basis=RULE.basis,
                        )
                    )
