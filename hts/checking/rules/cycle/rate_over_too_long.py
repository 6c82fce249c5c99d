"""A rate is judged over a time in which the metal cannot run away unseen."""

from __future__ import annotations

from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment

#: Readings by hand are hourly at the most seldom; the charts of a recorder are judged over a quarter
#: of an hour, seldom over half of one. Common practice, no source.
_MOST = Quantity.of(30, "min", TIME)
_MARGIN = "  rate margin         10 %\n"

RULE = Rule(
    "Y145",
    "rate-over-too-long",
    "warning",
    summary="A rate that is judged over more than half an hour of a recorded treatment.",
    why="Over so long a time a jump at full power and the wait after it make a rate that passes.",
    fix="Judge it over a quarter of an hour.",
    source="common practice, no source (a quarter of an hour)",
    basis="practice",
    edges=(
        Edge(
            ((_MARGIN, f"{_MARGIN}  rate over  {{}}\n"),),
            keeps="30 min",
            breaks="31 min",
            says="over 31 min … 15 min, at most 30 min",
        ),
    ),
    good=(Good(((_MARGIN, f"{_MARGIN}  rate over  15 min\n"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    window = treatment.entry.window
    if window is None or window <= _MOST or treatment.recorder is None:
        return
    case.add(
        RULE.found(
            f"rates of {treatment.name} are judged over {window}; common practice is 15 min, "
            f"at most {_MOST}",
            treatment.place("window"),
            address=treatment.address,
            basis=RULE.basis,
        )
    )
