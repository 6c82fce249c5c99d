"""A hold lies in the range that is usual for the grade."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Interval
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import broken
from hts.checking.rules.helpers.steps import heats, holds
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.model.side import Side

RULE = Rule(
    "L227",
    "hold-unusual-for-grade",
    "warning",
    summary="A hold outside the range that is usual for the grade, although the limits allow it.",
    why="Too low, and creep-resisting steel is left hard; too high, and it loses its strength.",
    fix="Check the range against the code, the welding procedure and the grade; waive it if meant.",
    source="table of grades: usual range of post-weld heat treatment, with the source of each row",
    basis="practice",
    edges=(
        Edge(
            (
                ('  grade        "A335 P22"', '  grade        "10CrMo9-10"\n  p-number     5A'),
                ("  at least          150 degC", "  at least          200 degC"),
                ("700 .. 730 degC", "690 .. {}"),
            ),
            keeps="720 degC",
            breaks="721 degC",
            says="690 degC .. 721 degC … 670 degC .. 720 degC",
        ),
    ),
    good=(Good((("700 .. 730 degC", "676 .. 730 degC"), ("to 715 degC ", "to 700 degC "))),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or not heats(treatment) or cycle.purpose == "normalize and temper":
        return
    governing = case.limits(treatment.joint, treatment).of("hold temperature")
    for hold, held in holds(case, treatment):
        assert held.low is not None and held.high is not None
        # What a limit in force refuses is told by that limit.
        if governing is not None and (
            broken(governing, "minimum", held.low) or broken(governing, "maximum", held.high)
        ):
            continue
        for side in _judged(case, treatment):
            usual = side.grade.pwht if side.grade is not None else None
            if usual is None or side.grade is None:
                continue
            end = _outside(held, usual.value, longer=_allowed_below(treatment))
            if end:
                case.add(
                    RULE.found(
                        f"{held.show()} is {end} the usual range of {side.grade.name}, {usual.value.show()}",
                        hold.place("range"),
                        address=treatment.address,
                        notes=[f"{usual.source}, basis {usual.basis}", *_note(usual.note)],
                        others=_grade(side),
                    )
                )
                return


def _judged(case: Case, treatment: Treatment) -> list[Side]:
    """The sides; of two ferritic steels the more highly alloyed, whose range a weld takes."""
    facts = case.limits(treatment.joint, treatment).facts
    return [s for s in treatment.joint.sides if facts[s.name].get("more_alloyed") != "no"]


def _allowed_below(treatment: Treatment) -> bool:
    cycle = treatment.cycle
    return cycle is not None and (
        cycle.lower_temperature is not None or cycle.thin_wall is not None
    )


def _outside(held: Interval, usual: Interval, longer: bool) -> str:
    assert held.low is not None and held.high is not None
    assert usual.low is not None and usual.high is not None
    if held.low < usual.low and not longer:
        return "below"
    return "above" if held.high > usual.high else ""


def _note(text: str | None) -> list[str]:
    return [text] if text else []


def _grade(side: Side) -> list[Label]:
    material = side.material
    return [] if material is None else [Label(material.place("grade"), "the grade")]
