"""A step with a slowest rate alone has one because somebody asks for it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import FROM_ABOVE, heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool, Heat

_HEAT = "  heat  to 315 degC\n"

RULE = Rule(
    "Y134",
    "least-rate-alone",
    "warning",
    summary="A step with a slowest rate and no fastest one, which no book or procedure in force "
    "asks for.",
    why="Often `at most` was meant: the one limit that keeps the metal from bending becomes an "
    "order to hurry.",
    fix="Write `at most`, or both.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_HEAT, "  heat  to 315 degC   at least 200 degC/h\n"),),
            at="200 degC/h",
            says="at least 200 degC/h (360 degF/h)",
        ),
    ),
    good=(
        Good(((_HEAT, "  heat  to 315 degC   at most 200 degC/h at least 50 degC/h\n"),)),
        Good(((_HEAT, "  heat  to 315 degC   at most 200 degC/h\n"),)),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if not heats(treatment) or (cycle is not None and cycle.purpose in FROM_ABOVE):
        return
    for segment in treatment.entry.segments:
        if not isinstance(segment, Heat | Cool) or segment.rate is not None:
            continue
        if segment.slowest is None:
            continue
        limits = case.limits(treatment.joint, treatment)
        governing = limits.of("heating rate" if isinstance(segment, Heat) else "cooling rate")
        if governing is not None and governing.setter("minimum") is not None:
            continue
        word = "heats" if isinstance(segment, Heat) else "cools"
        case.add(
            RULE.found(
                f"this step {word} at least {segment.slowest.both()}, and nothing says how fast at "
                "most",
                segment.place("slowest"),
                address=treatment.address,
                basis=RULE.basis,
            )
        )
