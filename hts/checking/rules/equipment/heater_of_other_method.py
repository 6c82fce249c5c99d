"""Heaters are of a kind the heating method has."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_ZONE = "    gap at         12:00\n"
_WARM = ("flexible pad", "finger", "cable", "band")
_KINDS = {"resistance": _WARM, "induction": ("coil", "cable"), "gas": ("burner",)}


def _heater(kind: str) -> tuple[tuple[str, str], ...]:
    row = f"    heater H{{}} in {{}} kind {kind} power 4.5 kW count 2\n"
    return ((_ZONE, row.format(1, "top") + row.format(2, "bottom") + _ZONE),)


RULE = Rule(
    "E113",
    "heater-of-other-method",
    "warning",
    summary="A heater of a kind that the stated heating method does not have: a coil or a burner "
    "with resistance heating, pads with induction.",
    why="Either the method or the heater is wrong: what is loaded on the truck cannot be fed, and "
    "bands and powers were worked out for the other.",
    fix="Correct `kind`, or `heating by`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_heater("coil"), at="coil", says="heated by resistance"),),
    good=(Good(_heater("flexible pad")), Good(_heater("finger"))),
    agrees=(Agreement("joint.heating.heater.kind", "joint.heating.by", "a kind the method has"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    kinds = _KINDS.get(heating.method or "") if heating is not None else None
    if heating is None or kinds is None:
        return
    wrong = [each for each in heating.heaters if each.kind is not None and each.kind not in kinds]
    if wrong:
        first = wrong[0]
        case.add(
            RULE.found(
                f"{first.name} is a {first.kind}; {joint.name} is heated by {heating.method}",
                first.place("kind"),
                address=f"{joint.address}/heating/{first.name}",
                others=[
                    Label(heating.place("method"), "the method"),
                    *(Label(each.place("kind"), each.name) for each in wrong[1:]),
                ],
                basis=RULE.basis,
            )
        )
