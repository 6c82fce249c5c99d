"""All temperatures of one treatment are written in one unit."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool, Heat

RULE = Rule(
    "Q202",
    "mixed-temperature-units",
    "warning",
    summary="One treatment with some temperatures in degC and others in degF.",
    why="A 300 degF among figures in degC is read as 300 degC at the controller: a step half as hot "
    "or twice as hot as meant.",
    fix="Write all temperatures of the treatment in one unit; paper can show both.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("  heat  to 315 degC\n", "  heat  to 599 degF\n"),), at="599 degF"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    written = list(_written(treatment))
    units = {quantity.unit.symbol for quantity, _ in written}
    if len(units) < 2:
        return
    # The unit used less often is the likely slip.
    counts = {unit: sum(q.unit.symbol == unit for q, _ in written) for unit in units}
    odd = min(sorted(counts), key=lambda unit: counts[unit])
    strange, at = next((q, at) for q, at in written if q.unit.symbol == odd)
    usual, other = next((q, at) for q, at in written if q.unit.symbol != odd)
    case.add(
        RULE.found(
            f"{strange.both()} is given among temperatures in {usual.unit.symbol}",
            at,
            address=treatment.address,
            others=[Label(other, "for example")],
        )
    )


def _written(treatment: Treatment) -> list[tuple[Quantity, Span]]:
    """Where heating and cooling go; the hold itself is judged by its plausible range."""
    return [
        (segment.to, segment.place("to"))
        for segment in treatment.entry.segments
        if isinstance(segment, Heat | Cool) and segment.to is not None
    ]
