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
from hts.science.tables.pipe import pipe, schedules

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
        # An area comes first: there is no NPS 41.
        Good(((_DATUM, f'{_DATUM}  line       "41-RH-2041-12"\n'),)),
        Good(((_DATUM, f'{_DATUM}  line       "24-RH-2041-12"\n'),)),
    ),
    agrees=(Agreement("joint.line", "joint.pipe.NPS", "a line number begins with its size"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    line = joint.entry.line
    said = _SIZE.match(line) if line else None
    sizes = {side.nominal_size for side in joint.sides if side.nominal_size is not None}
    meant = set(_sizes(said[1])) if said is not None else set()
    if line is None or said is None or not sizes or not meant or sizes & meant:
        return
    # The number of an area may come first, and the size somewhere behind it.
    behind = re.findall(r"(?<![\w.])\d[\d /]*(?![\w.])", line[said.end() :])
    if any(sizes & set(_sizes(each)) for each in behind):
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
    for size in (f"NPS {text.replace('-', ' ')}", f"DN {text}"):
        try:
            yield Fraction(read_number(pipe(size, schedules(size)[0]).nps))
        except (ValueError, LookupError):
            continue
