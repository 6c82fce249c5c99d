"""TI003: a rule about each bake and cycle, with a quantity."""

from hts.plugin import TIME, Bad, Case, Edge, Good, Quantity, Rule, Treatment

SHIFT = Quantity.of(3, "h", TIME)

RULE = Rule(
    "TI003",
    "hold-beyond-a-shift",
    "warning",
    summary="A hold that is longer than what one crew stays for.",
    why="Whoever takes over has not seen the heating.",
    fix="Arrange for a second crew from the start, and say so in the job.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("for 2 h", "for 4 h"),), at="4 h", says="takes 4 h … stays for 3 h"),),
    good=(Good((("for 2 h", "for 180 min"),)),),
    edges=(Edge((("for 2 h", "for {}"),), keeps="180 min", breaks="181 min"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for step in treatment.entry.segments:
        time = getattr(step, "time", None)
        if isinstance(time, Quantity) and time > SHIFT:
            message = f"the hold takes {time}, a crew stays for {SHIFT}"
            case.add(RULE.found(message, step.place("time"), address=treatment.address))
