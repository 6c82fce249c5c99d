"""A drawing shows one line, where every other one of the list does."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_DATUM = "  datum      top\n"
#: So many drawings of one line each are a habit; common practice, no source.
_HABIT = 5


def _welds(last: str) -> tuple[tuple[str, str], ...]:
    """The base with further welds, each of another line and on a drawing of its own."""
    numbers = range(13, 13 + _HABIT + 1)
    welds = "".join(
        f'joint W{number} like W12 {{\n  drawing "ISO-{number}"\n  line "12-RH-20{number}"\n}}\n\n'
        for number in numbers[:-1]
    )
    welds += f'joint W{numbers[-1]} like W12 {{\n  drawing "{last}"\n  line "12-RH-2099"\n}}\n\n'
    named = ", ".join(f"W{number}" for number in numbers)
    return (
        (_DATUM, f'{_DATUM}  drawing    "ISO-12"\n  line       "12-RH-2012"\n'),
        ("preheat W12 {", f"{welds}preheat W12, {named} {{"),
        ("for W12 {", "for W12" + "".join(f" for W{number}" for number in numbers) + " {"),
    )


RULE = Rule(
    "J230",
    "drawing-of-other-line",
    "warning",
    summary="Two welds of two lines on one drawing, where each other drawing shows one line.",
    why="Two figures of one of the numbers were swapped, or a row copied: the crew goes by the drawing "
    "of another weld.",
    fix="Copy drawing and line from the isometric.",
    source="common practice, no source: an isometric shows one line",
    basis="practice",
    bad=(
        Bad(
            _welds("ISO-12"),
            at="ISO-12",
            says="W18 and W12 are on one drawing, ISO-12, and of two lines, 12-RH-2099 and 12-RH-2012",
        ),
    ),
    good=(Good(_welds("ISO-18")),),
    agrees=(Agreement("joint.drawing", "joint.line", "one line on a drawing, as on the others"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    welds: dict[str, dict[str, list[Joint]]] = {}
    for joint in case.spec.joints.values():
        drawing, line = joint.entry.drawing, joint.entry.line
        if joint.sound and drawing and line:
            welds.setdefault(drawing, {}).setdefault(line, []).append(joint)
    shared = [(drawing, lines) for drawing, lines in welds.items() if len(lines) > 1]
    if len(shared) != 1 or len(welds) <= _HABIT:
        return
    drawing, lines = shared[0]
    if len(lines) != 2:
        return
    first, second = (each[0] for each in lines.values())
    # An isometric may show where a branch begins, which is another line.
    if first.entry.kind != second.entry.kind or _sizes(first) != _sizes(second):
        return
    case.add(
        RULE.found(
            f"{second.name} and {first.name} are on one drawing, {drawing}, and of two lines, "
            f"{second.entry.line} and {first.entry.line}",
            second.place("drawing"),
            address=second.address,
            others=[Label(first.place("drawing"), "the other weld")],
            notes=["each other drawing shows one line"],
            basis=RULE.basis,
        )
    )


def _sizes(joint: Joint) -> set[Fraction | None]:
    return {side.nominal_size for side in joint.sides}
