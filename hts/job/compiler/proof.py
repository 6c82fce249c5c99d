"""What a loop must read when it is proved: millivolts at the hold, and the error allowed."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.job.compiler.assumed import REFERENCE_JUNCTION
from hts.job.compiler.program import Program
from hts.job.compiler.tolerance import WireError, wire_error
from hts.job.compiler.why import Why, practice, stated
from hts.language.model.joint import Joint
from hts.science.thermocouples.errors import ThermocoupleError
from hts.science.thermocouples.reference import emf

_SOURCE = "NIST ITS-90 thermocouple tables"


class Proof(NamedTuple):
    """The check of one joint's loops at the hold of one treatment.

    `millivolts` has three decimals, None outside the reference function of the type.
    """

    program: str
    at: Quantity
    reference: Quantity
    reference_why: Why
    millivolts: str | None
    millivolts_why: Why
    wire: WireError | None


def proof(joint: Joint, program: Program) -> Proof | None:
    """None for a joint without thermocouples or a treatment without a hold."""
    block, target = joint.entry.thermocouples, program.target
    if block is None or block.type is None or target is None:
        return None
    if block.reference_junction is not None:
        reference = block.reference_junction
        reference_why = stated(block, "reference_junction", str(reference))
    else:
        reference = REFERENCE_JUNCTION
        reference_why = practice(str(reference), "assumed: the text states none")
    try:
        volts = f"{emf(block.type, target.value, reference.value):.3f}"
        millivolts: str | None = volts.replace("-0.000", "0.000")
    except ThermocoupleError:
        millivolts = None
    why = Why(
        "E(hold) − E(reference junction)",
        f"E({target}) − E({reference}), type {block.type}",
        _SOURCE,
        "",
        "ITS-90 reference function",
        "published",
        "high",
    )
    return Proof(
        program.name, target, reference, reference_why, millivolts, why, wire_error(joint, target)
    )
