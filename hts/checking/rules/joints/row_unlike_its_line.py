"""A row of a weld list is like the other rows of its line."""

from __future__ import annotations

from collections import Counter

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: So many welds of a line that are alike make the one that is not a slip.
_ALIKE = 4
_DATUM = "  datum      top\n"


def _welds(like: str, count: int = _ALIKE) -> tuple[tuple[str, str], ...]:
    """More welds of the line of W12, all like one, the last like another."""
    names = [f"W{20 + number}" for number in range(count)]
    welds = "".join(f'joint {name} like T1 {{ line "12-RH-2012" }}\n' for name in names)
    typical = (
        "joint T1 like W12 { wall 25.4 mm measured }\njoint T2 like W12 { wall 25.4 mm measured }\n"
    )
    last = f'joint W30 like {like} {{ line "12-RH-2012" }}\n\n'
    everything = ", ".join(("W12", "T1", "T2", *names, "W30"))
    return (
        (_DATUM, f'{_DATUM}  line       "12-RH-2099"\n'),
        ("preheat W12 {", f"{typical}{welds}{last}preheat {everything} {{"),
        ("for W12 {", f"for {everything} {{"),
    )


RULE = Rule(
    "J233",
    "row-unlike-its-line",
    "warning",
    summary="A weld of a line that is like another typical weld than all others of the line, four or more.",
    why="The row took the typical weld of its neighbour in the table: it is drawn, heated and measured as another weld.",
    fix="Look at the isometric; where the weld is another one, waive the finding with the reason.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _welds("T2"), at="T2", says="W30 is like T2, and all 4 others of 12-RH-2012 are like T1"
        ),
    ),
    good=(Good(_welds("T1")), Good(_welds("T2", _ALIKE - 1))),
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
    for line, welds in lines.items():
        counts = Counter(like for like, _ in welds)
        if len(counts) != 2 or len(welds) <= _ALIKE:
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
