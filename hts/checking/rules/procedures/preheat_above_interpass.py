"""A greatest preheat lies below the greatest interpass temperature."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import by_quantity, own_procedures, place
from hts.checking.rules.rule import Edge, Rule
from hts.limits import Limit

_INTERPASS = "  interpass        at most 350 degC"

RULE = Rule(
    "R129",
    "preheat-above-interpass",
    "warning",
    summary="A procedure that lets a weld be preheated hotter than it may be between passes.",
    why="One of the two is the other's figure: preheated as hot as is allowed, no pass may follow.",
    fix="Exchange the figures, or correct the one that slipped.",
    source="common practice: what is preheated is within the interpass temperature",
    basis="practice",
    edges=(
        Edge(
            ((_INTERPASS, f"{_INTERPASS}\n  preheat at most {{}}"),),
            keeps="350 degC",
            breaks="351 degC",
            base="owner",
            says="at most 351 degC (664 degF) … at most 350 degC (662 degF)",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        found = by_quantity(procedure)
        for low in found.get("preheat", ()):
            for high in found.get("interpass", ()):
                most, greatest = _most(low), _most(high)
                if most is None or greatest is None or not most > greatest:
                    continue
                # Those of other welds are not compared.
                if high.when is not None and (low.when is None or low.when.text != high.when.text):
                    continue
                case.add(
                    RULE.found(
                        f"preheat at most {most.both()} and interpass at most {greatest.both()}",
                        place(procedure, low, "maximum"),
                        address=procedure.name,
                        others=[Label(place(procedure, high, "maximum"), "between passes")],
                        basis=RULE.basis,
                    )
                )


def _most(row: Limit) -> Quantity | None:
    """The greatest value, where it is one figure for all welds."""
    formula = row.maximum
    if formula is None or formula.names or len(formula.literals) != 1:
        return None
    return formula.literals[0]
