"""The side a place lies on is one the weld has."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ELSEWHERE
from hts.checking.rules.rule import Agreement, Bad, Rule
from hts.language.model.joint import Joint
from hts.language.model.seam import PAD, SIDES, weld_along
from hts.language.vocabulary.joint import Nearby, Support

_PAD = "on pad"

RULE = Rule(
    "Z145",
    "side-not-of-the-weld",
    "error",
    floor="error",
    summary="A thermocouple beside a long seam or a pad on a side that such a weld does not have, or "
    "a support or thing nearby on the pad of a weld without one.",
    why="A long seam has two sides, A and B, and what lies beside a pad lies on the run or on the "
    "pad; any other word leaves open where the thermocouple sits.",
    fix="Write `side A` or `side B` of a long seam, `on run` or `on pad` of a pad.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("along 600 mm, 40 mm side A", "along 600 mm, 40 mm upstream"),),
            at="40 mm upstream",
            base="seam",
            says="side A or side B",
        ),
        Bad((("at 12:00, 40 mm downstream ", "at 12:00, 40 mm on pad "),), at="40 mm on pad"),
        Bad((('"rod hanger" 1.2 m upstream', '"rod hanger" 1.2 m on pad'),), at="1.2 m on pad"),
    ),
    agrees=(
        Agreement("joint.kind", "joint.thermocouples.thermocouple.offset", "a side the weld has"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    kind = joint.entry.kind or ""
    sides = SIDES.get(kind, ())
    if kind in SIDES and weld_along(joint) is None:
        return
    if kind != PAD:
        placed: list[Support | Nearby] = [*joint.entry.supports, *joint.entry.nearby]
        for item in placed:
            if item.where.side == _PAD:
                case.add(
                    RULE.found(
                        f"{item.what} lies {_PAD} of a {kind}, which has no pad",
                        item.place("where"),
                        address=joint.address,
                        others=[Label(joint.entry.place("kind"), "the kind of weld")],
                    )
                )
    for tc in joint.thermocouples:
        offset = tc.entry.offset
        if offset is None or offset.side in sides or tc.entry.monitors in ELSEWHERE:
            continue
        if kind not in SIDES and offset.side != _PAD:
            continue
        has = f"a weld that has {' or '.join(sides)}" if sides else f"a {kind}, which has no pad"
        case.add(
            RULE.found(
                f"{tc.tag} lies {offset.side} of {has}",
                tc.place("offset"),
                address=tc.address,
                others=[Label(joint.entry.place("kind"), "the kind of weld")],
            )
        )
