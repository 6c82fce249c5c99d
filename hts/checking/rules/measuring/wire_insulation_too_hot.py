"""The insulation of the wires bears the hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest, treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_COVER = '    junction cover      "refractory putty"\n'


def _wires(insulation: str) -> tuple[tuple[str, str], ...]:
    return ((_COVER, f"{_COVER}    wire insulation {insulation}\n"),)


RULE = Rule(
    "C141",
    "wire-insulation-too-hot",
    "warning",
    summary="Wires whose insulation bears less than the hold they measure.",
    why="The braid goes brittle in the heat; legs that touch where it has crumbled measure where they touch, "
    "and the weld is hotter or colder than it reads.",
    fix="Use wire insulated with vitreous silica, or with ceramic fibre.",
    source="common practice, no source (makers give 482 to 510 degC for glass braid; some let it go through "
    "one heat, if nobody moves the wires)",
    basis="practice",
    bad=(
        Bad(
            _wires("glass braid"),
            at="glass braid",
            says="to 730 degC (1346 degF), and glass braid bears 510 degC (950 degF)",
        ),
    ),
    good=(Good(_wires("vitreous silica")), Good(_wires("ceramic fibre"))),
    agrees=(
        Agreement("joint.thermocouples.wire insulation", "cycle.hold.range", "it bears the hold"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or block.wire_insulation is None or not treated(joint):
        return
    from hts.science.thermocouples.wire import insulation_limit

    limit = insulation_limit(block.wire_insulation)
    heats = [top for top in (hottest(case, cycle) for cycle in treated(joint)) if top is not None]
    hot = [(hold, top) for hold, top in heats if top.to("degC") > limit.high]
    # More than one is told by itself.
    if not hot or (limit.single_use and len(hot) > 1):
        return
    hold, top = max(hot, key=lambda each: each[1].value)
    most = Quantity.of(limit.high, "degC", TEMPERATURE).in_unit(top.unit.symbol)
    case.add(
        RULE.found(
            f"the hold goes to {top.both()}, and {block.wire_insulation} bears {most.both('down')}",
            block.place("wire_insulation"),
            address=f"{joint.address}/thermocouples",
            others=[Label(hold.place("range"), "the hold")],
            basis=RULE.basis,
        )
    )
