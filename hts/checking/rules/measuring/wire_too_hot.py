"""The wire and its insulation bear the temperature of the hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment


def _type_j(gauge: int) -> tuple[tuple[str, str], ...]:
    return (
        ("thermocouples type K class 1 ", "thermocouples type J class 1 "),
        ("channels    12 type K", "channels    12 type J"),
        ("channels           6 type K", "channels           6 type J"),
        ("extension           KX class 1", "extension           JX class 1"),
        (" gauge 20", f" gauge {gauge}"),
    )


RULE = Rule(
    "C110",
    "wire-too-hot",
    "warning",
    summary="A hold above the temperature that wire of this type and gauge should see.",
    why="Thin wire and the wrong type drift or break before the hold is over.",
    fix="Use thicker wire, or another type.",
    source="ASTM E230 (suggested upper temperatures of protected wire)",
    basis="published",
    bad=(
        Bad(_type_j(24), at="24", says="to 730 degC (1346 degF) … to 370 degC (698 degF)"),
        # Not listed: the next thinner wire that is, gauge 24, counts.
        Bad(_type_j(22), at="22", says="to 730 degC (1346 degF) … to 370 degC (698 degF)"),
    ),
    good=(Good(((" gauge 20", " gauge 24"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    block = treatment.joint.entry.thermocouples
    top = hottest(case, treatment)
    if block is None or block.type is None or block.gauge is None or top is None:
        return
    from hts.science.thermocouples.errors import ThermocoupleError
    from hts.science.thermocouples.wire import safe_wire_limit

    hold, high = top
    try:
        listed, limit = safe_wire_limit(block.type, block.gauge)
    except ThermocoupleError:
        return
    if high.to("degC") > limit.celsius:
        most = Quantity.of(limit.celsius, "degC", TEMPERATURE).in_unit(high.unit.symbol)
        case.add(
            RULE.found(
                f"the hold goes to {high.both()}; type {block.type} wire of gauge {block.gauge} is "
                f"good to {most.both('down')}",
                block.place("gauge"),
                address=f"{treatment.joint.address}/thermocouples",
                others=[Label(hold.place("range"), "the hold")],
                notes=[str(limit.origin), *_borrowed(block.gauge, listed)],
            )
        )


def _borrowed(gauge: int, listed: int) -> list[str]:
    """Says whose figure it is where the table leaves this wire out."""
    if gauge == listed:
        return []
    return [f"no figure is listed for gauge {gauge}: that of the next thinner wire, gauge {listed}"]
