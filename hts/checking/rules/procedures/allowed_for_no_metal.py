"""What a procedure allows is something a code has for the metal."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.demand_lines import Forbids
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import CONDITION, Formula, FormulaError, UnknownFact

#: By option, the P-numbers for which any code has it: ASME B31.3 and VIII-1.
_METALS = {"lower-temperature hold": ("1", "3"), "thin-wall hold": ("15E",)}
#: P-numbers looked at where the procedure names none.
_ALL = ("1", "3", "4", "5A", "5B", "15E")
_FORBIDS = "  forbids          lower-temperature hold"

RULE = Rule(
    "R128",
    "allowed-for-no-metal",
    "warning",
    summary="A procedure that allows a lower or a thin-wall hold for metals alone for which no code has "
    "one.",
    why="`allows` for `forbids` opens what the owner meant to close: a job may hold steel that hardens "
    "below its range.",
    fix="Write `forbids`, or turn the condition round.",
    source="ASME B31.3-2018 tables 331.1.1 and 331.1.2, ASME VIII-1 tables UCS-56: P-numbers with such "
    "rows",
    basis="memory",
    bad=(
        Bad(
            ((_FORBIDS, "  allows lower-temperature hold when not p_number = 1"),),
            base="owner",
            at="lower-temperature hold",
            says="P-4, P-5A",
        ),
    ),
    good=(
        Good(((_FORBIDS, "  allows lower-temperature hold when p_number = 1"),), base="owner"),
        Good(((_FORBIDS, "  allows lower-temperature hold"),), base="owner"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line in procedure.allows:
            having = _METALS.get(line.option or "", ())
            metals = _allowed_for(procedure, line) if having else []
            if metals and not set(metals) & set(having):
                named = ", ".join(f"P-{metal}" for metal in metals)
                case.add(
                    RULE.found(
                        f"{procedure.name} allows a {line.option} for {named}, and no code has one "
                        "for them",
                        line.place("option"),
                        address=procedure.name,
                        basis=RULE.basis,
                    )
                )


def _allowed_for(procedure: Procedure, line: Forbids) -> list[str]:
    """The P-numbers a line is for; none where its condition hangs on more than these."""
    metals = procedure.p_numbers.each if procedure.p_numbers is not None else _ALL
    if line.when is None:
        return list(metals)
    condition = Formula.parse(line.when.text, CONDITION)
    try:
        return [metal for metal in metals if condition.evaluate({"p_number": metal})]
    except (UnknownFact, FormulaError):
        return []
