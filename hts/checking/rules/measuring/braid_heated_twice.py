"""Glass-braided wire serves for one heat treatment."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest, treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_COVER = '    junction cover      "refractory putty"\n'
_AGAIN = (
    "controller C1 {",
    """cycle again for W12 {
  recorded by         R1
  controlled by       C1
  powered by          PS1
  start of control    300 degC
  heat  to 315 degC
  heat  to 715 degC   at most 200 degC/h
  hold  700 .. 730 degC for 1 h 30 min
  cool  to 315 degC   at most 200 degC/h
  cool  in still air
  end of control      300 degC
  rate margin         10 %
  hold counts         while all in range
  interrupted hold    adds up
  sensor break        upscale
  on power loss       resume at the present temperature
  on thermocouple loss  change to the spare
}

controller C1 {""",
)

RULE = Rule(
    "C129",
    "braid-heated-twice",
    "advice",
    summary="Glass-braided wire left on for a second heat treatment above what the braid bears.",
    why="The braid crumbles in the first heat; bare wires that touch measure where they touch.",
    fix="Attach new wires for the second heat, or use wire insulated with vitreous silica.",
    source="common practice, no source (makers give 482 to 510 degC; one heat above is accepted)",
    basis="practice",
    bad=(
        Bad(
            (_AGAIN, (_COVER, f"{_COVER}    wire insulation glass braid\n")),
            at="glass braid",
            says="510 degC (950 degF) … 2 times",
        ),
    ),
    good=(Good((_AGAIN, (_COVER, f"{_COVER}    wire insulation vitreous silica\n"))),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or block.wire_insulation is None or len(treated(joint)) < 2:
        return
    from hts.science.thermocouples.wire import insulation_limit

    limit = insulation_limit(block.wire_insulation)
    heats = [hold for hold in (hottest(case, cycle) for cycle in treated(joint)) if hold]
    hot = [hold for hold, top in heats if top.to("degC") > limit.high]
    if limit.single_use and len(hot) > 1:
        most = Quantity.of(limit.high, "degC", TEMPERATURE)
        case.add(
            RULE.found(
                f"{block.wire_insulation} bears {most.both('down')}, and the wires of "
                f"{joint.name} are heated above it {len(hot)} times",
                block.place("wire_insulation"),
                address=f"{joint.address}/thermocouples",
                others=[Label(hold.place("range"), "a hold") for hold in hot],
                basis=RULE.basis,
            )
        )
