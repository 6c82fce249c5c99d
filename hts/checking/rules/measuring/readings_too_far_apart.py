"""A recorder reads often enough for what is judged by its readings."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment

_MARGIN = "  rate margin         10 %"
_WINDOW = (_MARGIN, f"{_MARGIN}\n  rate over  15 min")
_EXCURSION = (_MARGIN, f"{_MARGIN}\n  excursion  at most 10 min in total")

RULE = Rule(
    "C126",
    "readings-too-far-apart",
    "warning",
    summary="A recorder with more time between readings than a rate or an excursion is judged over.",
    why="Between two readings nobody knows what the metal did.",
    fix="Set a shorter interval.",
    source="arithmetic: the interval of the recorder against the times stated",
    basis="derived",
    edges=(
        Edge(
            (
                ("  rate margin         10 %", "  rate margin         10 %\n  rate over  5 min"),
                ("interval    60 s", "interval    {}"),
            ),
            keeps="300 s",
            breaks="301 s",
            says="every 301 s … over 5 min",
        ),
        Edge(
            (_EXCURSION, ("interval    60 s", "interval    {}")),
            keeps="10 min",
            breaks="11 min",
            says="every 11 min … lasts 10 min",
        ),
    ),
    good=(Good((_WINDOW, ("interval    60 s", "interval    5 min"))),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    recorder, entry = treatment.recorder, treatment.entry
    if recorder is None or recorder.interval is None:
        return
    judged = [(entry.window, entry.place("window"), "rates are judged over")]
    judged += [
        (excursion.at_most, excursion.place("at_most"), "an excursion lasts")
        for excursion in entry.excursion
    ]
    for time, place, what in judged:
        if time is not None and recorder.interval > time:
            case.add(
                RULE.found(
                    f"{recorder.name} reads every {recorder.interval}, and {what} {time}"
                    + (" at most" if what.startswith("an") else ""),
                    recorder.place("interval"),
                    address=recorder.name,
                    others=[Label(place, "judged by the readings")],
                )
            )
            return
