"""Preheat is not much lower than that of the test piece."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.examples import PREHEAT
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_DROP = Quantity.of(100, "degF", DIFFERENCE)
#: What a weld without preheat is made at, at the most: a warm day.
_AMBIENT = Quantity.of(20, "degC", TEMPERATURE)
#: degC; what asks for more is told where no preheat is written.
_WARM = 50
_BLOCK = PREHEAT[PREHEAT.index("preheat D3 {") :]

RULE = Rule(
    "J203",
    "preheat-below-qualification",
    "error",
    summary="A preheat more than 100 degF (55 K) below that of the qualification, or none.",
    why="The test piece does not represent a weld that cools so much faster.",
    fix="Raise the preheat, or use another qualification.",
    source="ASME IX QW-406 (as quoted elsewhere): a drop of more than 100 degF requalifies",
    basis="published",
    edges=(
        Edge(
            (
                (_BLOCK, ""),
                ('"PQR-07" condition', '"PQR-07" preheat {} condition'),
            ),
            keeps="168 degF",
            breaks="169 degF",
            base="preheat",
            says="has no preheat … at 169 degF (76.1 degC)",
        ),
        Edge(
            (("hold 8 h condition", "hold 8 h preheat {} condition"),),
            keeps="205 degC",
            breaks="206 degC",
            says="is 150 degC (302 degF) … 206 degC (403 degF)",
        ),
    ),
    good=(Good((("hold 8 h condition", "hold 8 h preheat 205 degC condition"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for qualified in joint.entry.qualified:
        if qualified.preheat is None:
            continue
        if joint.preheat is None:
            if _welded_cold(case, joint, qualified.preheat):
                case.add(
                    RULE.found(
                        f"{joint.name} has no preheat, {qualified.record} was qualified at "
                        f"{qualified.preheat.both()}",
                        qualified.place("preheat"),
                        address=joint.address,
                    )
                )
            continue
        least = limits_of(case, joint).preheat()
        if least is not None and qualified.preheat - least > _DROP:
            case.add(
                RULE.found(
                    f"the preheat of {joint.name} is {least.both('down')}, {qualified.record} was "
                    f"qualified at {qualified.preheat.both()}",
                    qualified.place("preheat"),
                    address=joint.address,
                    others=[Label(joint.preheat.place("at_least"), "the preheat")],
                )
            )


def _welded_cold(case: Case, joint: Joint, qualified: Quantity) -> bool:
    """Whether a weld that was qualified with preheat is made without, and no limit says so."""
    if case.spec.file.job is None:
        return False
    if joint.entry.weld_is == "made already" or qualified - _AMBIENT <= _DROP:
        return False
    # A preheat that could not be read whole may be the one for this joint; one that a book or a
    # procedure asks for is told with it.
    whole = joint.entry.sound and all(block.sound for block in case.spec.file.preheats)
    asked = limits_of(case, joint).preheat()
    return whole and (asked is None or asked.to("degC") <= _WARM)
