"""Every quantity lies in the range the trade would call plausible."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import Interval, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.vocabulary.declare import ENTRY
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.usual import Strange, strange

RULE = Rule(
    "Q203",
    "implausible-value",
    "warning",
    summary="A quantity far outside what the trade would call plausible for it.",
    why="It is the sign of a slip in the unit or the digits: a cap of 30 in for 30 mm, a lead of "
    "1.2 mm, "
    "1 ohm for 1 Mohm. Whatever is worked out from it is wrong by as much.",
    fix="Check digits and unit. Where the value is meant, waive the finding with the reason.",
    source="common practice, no source; the ranges stand beside each entry in the language "
    "reference",
    basis="practice",
    edges=(
        Edge(
            (("support    ", "unsupported span {}\n  support    "),),
            keeps="20 m",
            breaks="21 m",
            says="21 m (68.9 ft) … 0.2 m to 20 m",
        ),
        Edge(
            (
                (
                    "  support    ",
                    '  nearby "gauge" {} upstream at most 200 degC removed\n  support    ',
                ),
            ),
            keeps="50.0 mm",
            breaks="49.9 mm",
            says="49.9 mm (1.965 in) … 50 mm to 15 m",
        ),
    ),
    good=(Good((("wall       25.4 mm measured", "wall       1 in measured"),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for found in strange(case.spec.file):
        other = found.other_unit
        case.add(
            RULE.found(
                f"{_called(found)} {_shown(found.value)} is far from what is usual, "
                f"{' or '.join(map(_range, found.usual))}",
                found.entry.place(found.field.name),
                address=found.entry.address,
                help=f"did you mean {other}? if not, waive the finding and give the reason"
                if other
                else "",
                basis=RULE.basis,
            )
        )


def _called(found: Strange) -> str:
    """The entry and the clause as they are written: `zone power`, `composition C`."""
    field = found.field
    words = list(field.words) if field.form == ENTRY else [title(type(found.entry)), *field.words]
    return " ".join([*words, found.what]).rstrip()


def _shown(value: Quantity | Fraction) -> str:
    return value.both() if isinstance(value, Quantity) else str(value)


def _range(usual: Interval) -> str:
    assert usual.low is not None and usual.high is not None
    return f"{usual.low} to {usual.high}" if usual.low != usual.high else str(usual.low)
