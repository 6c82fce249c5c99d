"""What is coated, painted or of rubber is kept as cold as that asks for."""

from __future__ import annotations

import re

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_SUPPORT = '  support    "rod'

RULE = Rule(
    "N130",
    "coating-too-hot",
    "warning",
    summary="A coated or painted item, or one of rubber or plastic, that may get hotter than 150 degC.",
    why="Coatings, linings and seals of this kind blister, harden or melt below that; most often the unit "
    "or a digit of the figure is a slip.",
    fix="Write what its maker allows. Where that is more, waive the finding with the reason.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_SUPPORT, f'  nearby     "coated flange" 2 m downstream at most {{}}\n{_SUPPORT}'),),
            keeps="150 degC",
            breaks="151 degC",
            says="coated flange may get 151 degC (304 degF) hot … about 150 degC (302 degF)",
        ),
    ),
    good=(
        Good(
            ((_SUPPORT, f'  nearby     "gate valve" 2 m downstream at most 200 degC\n{_SUPPORT}'),)
        ),
        Good(
            (
                (
                    _SUPPORT,
                    f'  nearby     "valve, not coated" 2 m downstream at most 200 degC\n{_SUPPORT}',
                ),
            )
        ),
    ),
    agrees=(Agreement("joint.nearby.at most", "joint.nearby.what", "what it is made of bears it"),),
)

_COATED = re.compile(
    r"\b(?:coat(?:ed|ing)|paint(?:ed)?|rubber|elastomer\w*|plastic|epoxy|polyeth\w*|polyprop\w*|PVC|bitumen\w*)\b",
    re.IGNORECASE,
)
#: Some paints, and silicone, are made for more.
_FOR_HEAT = re.compile(
    r"\b(?:silicon\w*|zinc|alumini?um|heat[- ]resist\w*|high[- ]temp\w*|ceramic)\b", re.I
)
_MOST = Quantity.of(150, "degC", TEMPERATURE)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for item in joint.entry.nearby:
        what, most = item.what, item.at_most
        if item.removed or not isinstance(what, str) or not isinstance(most, Quantity):
            continue
        if most <= _MOST or not _COATED.search(what) or denied(what) or _FOR_HEAT.search(what):
            continue
        case.add(
            RULE.found(
                f"{what} may get {most.both()} hot; most of what it is made of bears about {_MOST.both()}",
                item.place("at_most"),
                address=joint.address,
                basis=RULE.basis,
            )
        )
