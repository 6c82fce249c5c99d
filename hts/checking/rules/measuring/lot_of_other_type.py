"""A lot of thermocouple wire is of the type that is attached."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.thermocouples import TYPES

_LEAD = "    lead at least       1 m\n"


def _lot(number: str) -> tuple[tuple[str, str], ...]:
    return ((_LEAD, f'{_LEAD}    wire lot            "{number}"\n'),)


RULE = Rule(
    "C144",
    "lot-of-other-type",
    "warning",
    summary="A lot of wire whose number begins with the letter of another type of thermocouple than the one attached.",
    why="Lots are called by their type: it is the certificate of other wire, and the error of what is attached is unknown.",
    fix="Copy the number from the spool that is used.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_lot("N-0417"), at="N-0417", says="lot N-0417 … type N, and type K is attached"),),
    good=(
        Good(_lot("K-2291")),
        Good(_lot("N0417-TC")),
        Good(_lot("0417")),
        Good(_lot("JB-0417")),
    ),
    agrees=(Agreement("joint.thermocouples.wire lot", "joint.thermocouples.type", "of that type"),),
)

_TYPE = re.compile(r"(?:type )?([A-Z])[- /]?\d+")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or not isinstance(block.lot, str) or block.type is None:
        return
    found = _TYPE.fullmatch(block.lot.strip())
    if found is None or found[1] not in TYPES or found[1] == block.type:
        return
    case.add(
        RULE.found(
            f"the lot {block.lot} is called by type {found[1]}, and type {block.type} is attached at {joint.name}",
            block.place("lot"),
            address=f"{joint.address}/thermocouples",
            others=[Label(block.place("type"), "the type")],
            basis=RULE.basis,
        )
    )
