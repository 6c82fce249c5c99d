"""A hold is not many times as long as anybody asks for."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "Y135",
    "hold-far-longer-than-asked",
    "warning",
    summary="A hold of more than ten hours, or a bake of more than sixteen, that is five times as "
    "long as what governs it asks for.",
    why="A digit doubled or moved makes 22 h of 2 h; held that long, creep-resisting steel loses "
    "strength and toughness that no test plate has shown.",
    fix="Check the digits. Where it is meant, waive the finding with the reason.",
    source="common practice, no source; ASME IX QW-407.2 counts all time at temperature against that "
    "of the test coupon",
    basis="practice",
    edges=(
        Edge(
            (
                ("730 degC for 2 h", "730 degC for {}"),
                ("hold 8 h condition", "hold 4 h condition"),
            ),
            keeps="600 min",
            breaks="601 min",
            says="601 min … 61 min",
        ),
        # A test piece held half as long shows that it is meant.
        Edge(
            (
                ("730 degC for 2 h", "730 degC for 16 h"),
                ("hold 8 h condition", "hold {} condition"),
            ),
            keeps="480 min",
            breaks="479 min",
            at="16 h",
            says="16 h … 61 min",
        ),
        Edge(
            (("350 degC for 3 h", "350 degC for {}"),),
            base="bake",
            keeps="960 min",
            breaks="961 min",
            says="961 min … 120 min",
        ),
        Edge(
            (
                ("350 degC for 3 h", "350 degC for {}"),
                ("bake time at least 2 h", "bake time at least 4 h"),
            ),
            base="bake",
            keeps="1200 min",
            breaks="1201 min",
            says="1201 min … 240 min",
        ),
    ),
)
#: Times what is asked for, and what no one calls long.
_TIMES, _SHORT = 5, Quantity.of(10, "h", TIME)
#: Hydrogen is often given a night to leave.
_NIGHT = Quantity.of(16, "h", TIME)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    holds = [each for each in treatment.entry.segments if isinstance(each, Hold)]
    governing = case.limits(treatment.joint, treatment).of(
        "bake time" if treatment.is_bake else "hold time"
    )
    # Above what somebody allows at most it is told as that.
    if governing is None or governing.setter("maximum") is not None:
        return
    setter = governing.setter("minimum")
    least = setter.minimum if setter is not None else None
    if len(holds) != 1 or not isinstance(least, Quantity):
        return
    time = holds[0].time
    short = _NIGHT if treatment.is_bake else _SHORT
    if (
        not isinstance(time, Quantity)
        or time <= short
        or Fraction(time.value) <= _TIMES * least.value
    ):
        return
    # A test piece that was held for long shows that the long hold is meant.
    tests = treatment.joint.entry.qualified
    if not treatment.is_bake and any(test.hold and test.hold * 2 >= time for test in tests):
        return
    case.add(
        RULE.found(
            f"{treatment.name} holds for {time}, and {least.show('min', 0, 'up')} are asked for",
            holds[0].place("time"),
            address=treatment.address,
            basis=RULE.basis,
        )
    )
