"""Places told along a weld need a weld that has ends or corners, and its size."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Rule
from hts.language.model.joint import Joint
from hts.language.model.seam import PAD, SEAM, weld_along

_AT = "controls top            along 600 mm on weld"

RULE = Rule(
    "Z148",
    "weld-length-not-stated",
    "error",
    floor="error",
    summary="A place told along a weld that has no end or corner to count from, or whose size is "
    "not stated.",
    why="Nobody can find the place again: a tape needs an end to be laid from.",
    fix='For a long seam write `seam 2.4 m from "lower head" on the left`, for an attachment '
    "`pad 400 mm by 250 mm`; on a weld round a pipe write the clock position.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((('  seam 2.4 m from "north head" on the left\n', ""),), at="600 mm", base="seam"),
        Bad(
            (
                (
                    "T1   controls top            at 12:00 on weld",
                    "T1   controls top            along 600 mm on weld",
                ),
            ),
            at="600 mm",
            says="goes round",
        ),
        Bad((("  cap width  30 mm\n", "  cap width  30 mm\n  pad 400 mm by 250 mm\n"),), at="pad"),
    ),
    agrees=(
        Agreement("joint.kind", "joint.seam", "only a long seam has one"),
        Agreement("joint.kind", "joint.pad", "only an attachment has one"),
        Agreement("joint.kind", "joint.thermocouples.thermocouple.along", "the weld has ends"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry, kind = joint.entry, joint.entry.kind
    if kind is None:
        return
    for said, word, needed in ((entry.seam, "seam", SEAM), (entry.pad, "pad", PAD)):
        if said is not None and kind != needed:
            _tell(case, joint, f"the {kind} {joint.name} is given a {word}", said.place(), "kind")
    if weld_along(joint) is not None:
        return
    for at, what in (
        *((tc.place("along"), tc.tag) for tc in joint.thermocouples if tc.entry.along is not None),
        *((z.place("along"), f"zone {z.name}") for z in joint.zones if z.entry.along is not None),
    ):
        lacking = {SEAM: "the length of the seam is not stated", PAD: "the pad has no size"}.get(
            kind, f"a {kind} goes round the pipe"
        )
        _tell(case, joint, f"{what} is placed along the weld, and {lacking}", at, "kind")
        return


def _tell(case: Case, joint: Joint, message: str, at: Span, field: str) -> None:
    label = Label(joint.entry.place(field), "the kind of weld")
    case.add(RULE.found(message, at, address=joint.address, others=[label]))
