"""A treated weld names the welding procedure and the test that qualified it with this treatment."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import open_point_on
from hts.checking.rules.helpers.fellows import listed
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

_QUALIFIED = '  qualified  "PQR-31" hold 8 h condition below lower critical\n'
_WELDING = '  welding    "WPS-12" layers multiple process "GTAW and SMAW"\n'

RULE = Rule(
    "J208",
    "treated-without-qualification",
    "advice",
    summary="A joint that is heat treated and names no welding procedure or no qualification, or a "
    "qualification with heat treatment that does not say how long it was.",
    why="Hold time, condition and preheat cannot be put to what was tested: a weld can be made "
    "softer or more brittle than any that was.",
    fix="Write `welding` with the procedure and `qualified` with the record, its hold and condition.",
    source="common practice, no source",
    basis="practice",
    about=("joint.qualified.hold",),
    bad=(
        Bad(((_QUALIFIED, ""),), at="W12"),
        Bad(((_WELDING, ""),), at="W12"),
        Bad(((_QUALIFIED, ""), (_WELDING, "")), at="W12"),
        Bad(((_QUALIFIED, _QUALIFIED.replace(" hold 8 h", "")),), at="PQR-31"),
    ),
)


#: The word, its field, and what an open point about it says.
_ASKED = (
    ("qualified", "qualified", ("qualification", "pqr")),
    ("welding", "welding", ("welding procedure", "wps")),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if not joint.sound or not entry.sound or not treated(joint):
        return
    words = [
        word
        for word, field, points in _ASKED
        if not entry.says(field) and not open_point_on(case, *points)
    ]
    if words:
        case.add(
            RULE.found(
                f"{joint.name} is to be heat treated and does not state {listed(words)}",
                joint.place("names"),
                address=joint.address,
                basis=RULE.basis,
            )
        )
    for record in entry.qualified:
        if record.condition == "below lower critical" and record.hold is None:
            case.add(
                RULE.found(
                    f"{record.record} does not say how long its test piece was held",
                    record.place("record"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
