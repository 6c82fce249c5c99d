"""Thermocouples come off last: when the insulation is off and the metal can be touched."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

#: Nobody works at hotter metal with bare tools.
_HOT = Quantity.of(100, "degC", TEMPERATURE)
_AFTER = (
    "before heat W12 {{\n"
    '  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n}}\n\nduring heat W12 {{ reading every 1 h }}\n\n"
    "after heat W12 {{\n  hardness weld at most 241 HBW count 3\n  remove thermocouples below {}\n}}\n\ncontroller C1 {{"
)
_STRIP = (
    "  rate margin  ",
    "  finally power off\n  remove insulation below 80 degC\n  rate margin  ",
)


def _off(below: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _AFTER.format(below)),)


RULE = Rule(
    "K132",
    "taken-off-while-hot",
    "warning",
    summary="Thermocouples that come off while the insulation still has to stay on, or from metal hotter than 100 degC.",
    why="They lie under it: the blankets are pulled off hot metal, and its last course is read by nobody.",
    fix="Take thermocouples off when the weld has cooled, after the insulation.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (*_off("95 degC"), _STRIP),
            at="95 degC",
            says="come off W12 below 95 degC (203 degF), the insulation below 80 degC (176 degF)",
        ),
    ),
    edges=(
        Edge(
            (("controller C1 {", _AFTER.format("{}")), _STRIP),
            keeps="80 degC",
            breaks="81 degC",
            says="below 81 degC (178 degF), the insulation below 80 degC (176 degF)",
        ),
        Edge(
            (("controller C1 {", _AFTER.format("{}")),),
            keeps="100 degC",
            breaks="101 degC",
            says="from metal of up to 101 degC (214 degF) … 100 degC",
        ),
    ),
    good=(Good((*_off("120 degF"), _STRIP)), Good(_off("200 degF"))),
    agrees=(
        Agreement(
            "after heat.remove thermocouples below",
            "cycle.remove insulation below",
            "no hotter than the insulation",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    cycles = [each.cycle for each in treated(joint) if each.cycle is not None]
    stripped = [each for each in cycles if each.strip_below is not None]
    for block in joint.after:
        off = block.removed_at
        if not cycles or off is None:
            continue
        last = stripped[-1] if stripped else None
        others = []
        if last is not None and last.strip_below is not None and off > last.strip_below:
            message = (
                f"thermocouples come off {joint.name} below {off.both()}, the insulation below "
                f"{last.strip_below.both()}"
            )
            others = [Label(last.place("strip_below"), "the insulation")]
        elif off > _HOT:
            message = f"thermocouples come off {joint.name} from metal of up to {off.both()}; usual is at most {_HOT}"
        else:
            continue
        case.add(
            RULE.found(
                message,
                block.place("removed_at"),
                address=f"{joint.address}/after-heat",
                others=others,
                basis=RULE.basis,
            )
        )
