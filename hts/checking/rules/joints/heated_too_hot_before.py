"""What a joint has been through was a heat treatment its metal bears."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.critical import criticals
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.joint import Earlier

_QUALIFIED = '  qualified  "PQR-31"'
_GRADE = '  grade        "A335 P22"'

RULE = Rule(
    "J228",
    "heated-too-hot-before",
    "warning",
    summary="A joint that has already been heated above the tempering temperature of a part of it, or "
    "above its lower critical temperature.",
    why="The strength of the base metal is gone for good, and another treatment does not bring it back; "
    "or the figure is a slip.",
    fix="Correct the temperature by the chart of that treatment, or let an engineer decide about the part.",
    source="EN 13445-4:2021 11.1 (the actual tempering temperature is not exceeded)",
    basis="practice",
    edges=(
        Edge(
            (
                (_GRADE, f"{_GRADE}\n  tempered at 745 degC"),
                (_QUALIFIED, f"  already heated 2 h at {{}}\n{_QUALIFIED}"),
            ),
            keeps="745 degC",
            breaks="746 degC",
            says="at 746 degC (1375 degF) … tempered at 745 degC (1373 degF)",
        ),
        Edge(
            ((_QUALIFIED, f"  already heated 2 h at {{}}\n{_QUALIFIED}"),),
            keeps="805 degC",
            breaks="806 degC",
            says="at 806 degC (1483 degF) … 805 degC (1481 degF)",
        ),
    ),
    good=(
        Good(((_QUALIFIED, f'  already heated 2 h at 700 degC "shop"\n{_QUALIFIED}'),)),
        # Made anew: normalizing goes above it.
        Good(((_QUALIFIED, f'  already heated 1 h at 920 degC "normalizing"\n{_QUALIFIED}'),)),
    ),
    agrees=(
        Agreement("joint.already heated.at", "material.tempered.at", "not above it"),
        Agreement("joint.already heated.at", "material.lower critical", "below it"),
    ),
)
#: From here on it was meant to be above the critical range: normalizing begins near 880 degC.
_NORMALIZED = 860


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for heated in joint.entry.earlier:
        if heated.at is not None and heated.at.to("degC") < _NORMALIZED:
            _look(case, joint, heated, heated.at)


def _look(case: Case, joint: Joint, heated: Earlier, at: Quantity) -> None:
    others: list[Label] = []
    message = ""
    for side in joint.sides:
        figure = side.figure("tempering_temperature")
        if figure is not None and isinstance(figure.value, Quantity) and at > figure.value:
            message = f"the {side.name} side was tempered at {figure.value.both()}"
            others = [] if figure.at is None else [Label(figure.at, "tempered at")]
            break
    else:
        lowest = next((each for each in criticals(joint) if not each.estimated), None)
        if lowest is None or at <= lowest.value:
            return
        message = f"the lower critical temperature of {lowest.part} is {lowest.value.both()}"
    case.add(
        RULE.found(
            f"{joint.name} has already been heated at {at.both()}, and {message}",
            heated.place("at"),
            address=joint.address,
            others=others,
            basis=RULE.basis,
        )
    )
