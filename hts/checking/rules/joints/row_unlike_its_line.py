"""A row of a weld list is like the other rows of its line."""

from __future__ import annotations

from collections import Counter

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: So many welds of a line that are alike make the one that is not a slip.
_ALIKE = 4
#: So many lines of one kind make a habit.
_HABIT = 3
_DATUM = "  datum      top\n"


def _welds(like: str, count: int = _ALIKE, line: str = "12-RH-2012") -> tuple[tuple[str, str], ...]:
    """More welds of the line of W12, all like one, the last like another."""
    names = [f"W{20 + number}" for number in range(count)]
    welds = "".join(f'joint {name} like T1 {{ line "12-RH-2012" }}\n' for name in names)
    typical = (
        "joint T1 like W12 { wall 25.4 mm measured }\njoint T2 like W12 { wall 25.4 mm measured }\n"
    )
    for number in range(_HABIT + 1):
        pair = [f"W{4 + number}{each}" for each in "05"]
        names += pair
        welds = (
            "".join(f'joint {name} like T1 {{ line "12-RH-30{number}" }}\n' for name in pair)
            + welds
        )
    last = f'joint W30 like {like} {{ line "{line}" }}\n'
    last += 'joint W31 like T1 { line "12-RH-2012" }\n\n'
    everything = ", ".join(("W12", "T1", "T2", *names, "W30", "W31"))
    return (
        (_DATUM, f'{_DATUM}  line       "12-RH-2099"\n'),
        ("preheat W12 {", f"{typical}{welds}{last}preheat {everything} {{"),
        ("for W12 {", f"for {everything} {{"),
    )


RULE = Rule(
    "J233",
    "row-unlike-its-line",
    "warning",
    summary="A weld of a line that is like another typical weld than all others of the line, four or more; or "
    "that stands alone of its line in the midst of the welds of another.",
    why="The row took the typical weld of its neighbour in the table: it is drawn, heated and measured as another weld.",
    fix="Look at the isometric; where the weld is another one, waive the finding with the reason.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _welds("T1", line="12-RH-2021"),
            at="12-RH-2021",
            says="W30 alone is of 12-RH-2021, in the midst of the welds of 12-RH-2012",
        ),
        Bad(
            _welds("T2"), at="T2", says="W30 is like T2, and all 5 others of 12-RH-2012 are like T1"
        ),
    ),
    good=(Good(_welds("T1")), Good(_welds("T2", _ALIKE - 2))),
    agrees=(Agreement("joint.like", "joint.line", "as the others of the line"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    lines: dict[str, list[tuple[str, Joint]]] = {}
    for joint in case.spec.joints.values():
        entry = joint.entry
        like = entry.like.name if entry.like is not None else ""
        if joint.sound and entry.line and like:
            lines.setdefault(entry.line, []).append((like, joint))
    # Where lines are mixed, the next one may be as well.
    mixed = [line for line, welds in lines.items() if len({like for like, _ in welds}) > 1]
    for line, welds in lines.items() if len(mixed) == 1 and len(lines) > _HABIT else ():
        counts = Counter(like for like, _ in welds)
        if line not in mixed or len(counts) != 2 or len(welds) <= _ALIKE:
            continue
        (usual, _), (odd, alone) = counts.most_common()
        if alone != 1:
            continue
        joint = next(weld for like, weld in welds if like == odd)
        other = next(weld for like, weld in welds if like == usual)
        case.add(
            RULE.found(
                f"{joint.name} is like {odd}, and all {len(welds) - 1} others of {line} are like {usual}",
                joint.place("like"),
                address=joint.address,
                others=[Label(other.place("names"), "another weld of the line")],
                basis=RULE.basis,
            )
        )
    _between(case, {line: len(welds) for line, welds in lines.items()})


def _between(case: Case, counts: dict[str, int]) -> None:
    """Tells a weld alone of its line in the midst of the welds of another, all of one kind."""
    singles = [line for line, count in counts.items() if count == 1]
    joints = [joint for joint in case.spec.joints.values() if joint.entry.like is not None]
    for before, joint, after in zip(joints, joints[1:], joints[2:], strict=False):
        line, other = joint.entry.line, before.entry.line
        if not line or not other or line == other or after.entry.line != other:
            continue
        alike = {
            each.entry.like.name for each in (before, joint, after) if each.entry.like is not None
        }
        if (
            singles != [line]
            or len(counts) <= _HABIT
            or counts.get(other, 0) < _ALIKE
            or len(alike) != 1
        ):
            continue
        case.add(
            RULE.found(
                f"{joint.name} alone is of {line}, in the midst of the welds of {other}",
                joint.place("line"),
                address=joint.address,
                others=[Label(before.place("line"), "the weld before")],
                basis=RULE.basis,
            )
        )
