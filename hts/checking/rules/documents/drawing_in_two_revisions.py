"""A job goes by one revision of a drawing."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_DATUM = "  datum      top\n"
_SECOND = 'joint W13 like W12 {{\n  drawing "{}"\n}}\n\npreheat W12'


def _drawn(second: str) -> tuple[tuple[str, str], ...]:
    return (
        (_DATUM, f'{_DATUM}  drawing    "TI-ISO-012 rev 2"\n'),
        ("preheat W12 {", f"{_SECOND.format(second)}, W13 {{"),
        ("for W12 {", "for W12, W13 {"),
    )


RULE = Rule(
    "D126",
    "drawing-in-two-revisions",
    "warning",
    summary="Two welds of one job on one drawing, in two of its revisions.",
    why="One of the two numbers or revisions was copied from another row: the weld is looked for on a drawing that does not show "
    "it.",
    fix="Correct the number or the revision.",
    source="common practice, no source: of a drawing the latest revision is in force",
    basis="practice",
    bad=(
        Bad(
            _drawn("TI-ISO-012 rev 3"),
            at="TI-ISO-012 rev 3",
            says="W13 is on TI-ISO-012 in revision 3, and W12 in revision 2",
        ),
    ),
    good=(Good(_drawn("TI-ISO-013 rev 3")), Good(_drawn("TI-ISO-012 rev 2"))),
    agrees=(Agreement("joint.drawing", "joint.drawing", "one revision of a drawing"),),
)

_REVISION = re.compile(r"(.+?)[ ,]+(?:rev(?:ision|\.)? ?)(\w+)$", re.IGNORECASE)


@RULE.for_spec
def check(case: Case) -> None:
    known: dict[str, tuple[str, Joint]] = {}
    for joint in case.spec.joints.values():
        drawing = joint.entry.drawing
        found = _REVISION.match(drawing.strip()) if joint.sound and drawing else None
        if found is None:
            continue
        number, revision = found[1].strip().upper(), found[2].upper()
        first, other = known.setdefault(number, (revision, joint))
        if first != revision:
            case.add(
                RULE.found(
                    f"{joint.name} is on {found[1]} in revision {revision}, and {other.name} in revision {first}",
                    joint.place("drawing"),
                    address=joint.address,
                    others=[Label(other.place("drawing"), "the other weld")],
                    basis=RULE.basis,
                )
            )
