"""A line has one metal and one service, and its number begins with its size."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities.number import read_number, short_text
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.science.tables.pipe import pipe

_DATUM = "  datum      top\n"
#: A size, then a hyphen and letters: 24-RH-2041, 1-1/2"-FW-0012.
_SIZE = re.compile(r"(\d{1,2}(?:[ -]\d/\d)?|\d/\d)[\"\u2033]?-(?=[A-Za-z]{1,5}-)")

RULE = Rule(
    "J221",
    "line-of-other-weld",
    "warning",
    summary="A line number that begins with a size no side of the weld has.",
    why="The weld, its size or its line was copied from another row: the crew looks for it on the "
    "wrong pipe.",
    fix="Copy line and size from the isometric.",
    source="common practice, no source: line numbers begin with the nominal size",
    basis="practice",
    bad=(
        Bad(
            ((_DATUM, f'{_DATUM}  line       "24-RH-2041"\n'),),
            at='"24-RH-2041"',
            says="24-RH-2041 begins with NPS 24, and W12 is NPS 12",
        ),
    ),
    good=(
        Good(((_DATUM, f'{_DATUM}  line       "12-RH-2041"\n'),)),
        Good(((_DATUM, f'{_DATUM}  line       "2041-RH-12"\n'),)),
    ),
    agrees=(Agreement("joint.line", "joint.pipe.NPS", "a line number begins with its size"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    line = joint.entry.line
    said = _SIZE.match(line) if line else None
    sizes = {side.nominal_size for side in joint.sides if side.nominal_size is not None}
    if said is None or not sizes or sizes & set(_sizes(said[1])):
        return
    case.add(
        RULE.found(
            f"line {line} begins with NPS {said[1]}, and {joint.name} is "
            f"{' and '.join(f'NPS {short_text(size, 3)}' for size in sorted(sizes))}",
            joint.place("line"),
            address=joint.address,
            others=[Label(joint.place("names"), "the weld")],
            basis=RULE.basis,
        )
    )


def _sizes(text: str) -> Iterator[Fraction]:
    """The nominal sizes a line number may mean: in inches, or as DN."""
    try:
        yield Fraction(read_number(text.replace("-", " ")))
        yield Fraction(read_number(pipe(f"DN {text}", "STD").nps))
    except (ValueError, LookupError):
        return
