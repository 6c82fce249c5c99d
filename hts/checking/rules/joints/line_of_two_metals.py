"""The welds of one line are of one metal and in one service."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_DATUM = "  datum      top\n"


def _beside(line: str) -> tuple[tuple[str, str], ...]:
    return (
        (_DATUM, f'{_DATUM}  line       "12-RH-2041"\n  service    steam\n'),
        ("preheat W12 {", f"joint W13 like W12 {{\n  {line}\n}}\n\npreheat W12, W13 {{"),
        ("for W12 {", "for W12 for W13 {"),
    )


RULE = Rule(
    "J222",
    "line-of-two-metals",
    "warning",
    summary="Two welds of one line without a metal in common, or in two services.",
    why="One of them is on another line or like another weld: its hold, its limits and its metal are "
    "then not its own.",
    fix="Copy the line, the metal and the service from the isometric and the line list.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _beside("service amine"),
            at="amine",
            says="W13 and W12 are of one line, 12-RH-2041, in service amine and steam",
        ),
    ),
    good=(Good(_beside('line "12-RH-2042"\n  service amine')), Good(_beside("service steam"))),
    agrees=(
        Agreement("joint.line", "joint.between", "one metal in one line"),
        Agreement("joint.line", "joint.service", "one service in one line"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    first: dict[str, Joint] = {}
    for joint in case.spec.joints.values():
        line = joint.entry.line
        if not line or not joint.sound:
            continue
        other = first.setdefault(line, joint)
        if other is joint:
            continue
        metals, others = _metals(joint), _metals(other)
        services = " and ".join(joint.entry.service), " and ".join(other.entry.service)
        if metals and others and not metals & others:
            message = f"of {' and '.join(sorted(metals))} and of {' and '.join(sorted(others))}"
            at = joint.place("names")
        elif all(services) and not set(joint.entry.service) & set(other.entry.service):
            message = f"in service {services[0]} and {services[1]}"
            at = joint.place("service")
        else:
            continue
        case.add(
            RULE.found(
                f"{joint.name} and {other.name} are of one line, {line}, {message}",
                at,
                address=joint.address,
                others=[Label(other.place("names"), "the other weld")],
                basis=RULE.basis,
            )
        )


def _metals(joint: Joint) -> set[str]:
    return {
        str(side.material.grade) for side in joint.sides if side.material and side.material.grade
    }
