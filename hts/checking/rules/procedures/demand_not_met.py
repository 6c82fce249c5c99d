"""What a procedure requires of the entries of a job is there, and says what it has to."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.demanded import tell
from hts.checking.rules.rule import Bad, Edge, Good, Rule

_LINE = "  requires spare for controlling thermocouples"


def _demand(text: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"  {text}\n{_LINE}"),)


def _monitor(text: str) -> tuple[tuple[str, str], ...]:
    return (("monitor soak edge count 2", f"monitor {text}"),)


_GUARDED = _demand("requires guard band expanded uncertainty")
_INTERVAL = "  recorder interval at most 60 s"

RULE = Rule(
    "R111",
    "demand-not-met",
    "error",
    summary="An entry of a job that a procedure requires is missing, or says something else.",
    why="The owner asked for it: what is not in the job is not on the paper, and nobody does it.",
    fix="Write into the job what the line of the procedure asks for, or ask its owner.",
    source="the procedure that says so",
    basis="derived",
    bad=(
        Bad(_demand("requires heating shelter wind screen"), base="procedure", at="heating"),
        Bad(
            (("monitor soak edge count 2", "monitor soak edge count 4"),),
            base="procedure",
            at="thermocouples",
            says="count 4 … there are 2 of 4",
        ),
        Bad(
            (("monitor soak edge count 2", "monitor soak edge count 2 each side"),),
            base="procedure",
            at="thermocouples",
            says="count 2 … upstream there is 1 of 2",
        ),
        Bad(
            _demand("requires control at 12:00, 3:00"),
            base="procedure",
            at="thermocouples",
            says="12:00, 3:00 … at 3:00",
        ),
        Bad(
            _monitor("soak edge at 12:00 at 9:00"),
            base="procedure",
            at="thermocouples",
            says="12:00 at 9:00 … at 9:00",
        ),
        Bad(
            _monitor("heated edge at 12:00 each side"),
            base="procedure",
            at="thermocouples",
            says="12:00 each side … at 12:00",
        ),
        Bad(
            (("    T2S  spare for T2            at 6:10  on weld              channel 8\n", ""),),
            base="procedure",
            at="T2",
            says="within 20 mm … spare for T2",
        ),
        Bad(_GUARDED, base="procedure", at="stress-relief"),
        Bad(
            (*_GUARDED, ("  rate margin  ", "  guard band one-sided 95 %\n  rate margin  ")),
            base="procedure",
            at="one-sided 95 %",
            says="one-sided 95 %, not expanded uncertainty",
        ),
    ),
    edges=(
        Edge(
            _demand("requires heating insulation layers at least {}"),
            keeps="2",
            breaks="3",
            at="2",
            base="procedure",
            says="at least 3 … is 2 … at least 3",
        ),
        Edge(
            (("interval    60 s", "interval    {}"),),
            keeps="60 s",
            breaks="61 s",
            base="procedure",
            says="at most 60 s … is 61 s … at most 60 s",
        ),
        Edge(
            (
                (_INTERVAL, f"{_INTERVAL}\n  calibration at most {{}}"),
                (
                    "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01",
                    "  resolution  1 K\n  calibrated  2026-03-01 until 2027-03-01",
                ),
            ),
            keeps="215 d",
            breaks="214 d",
            at="calibrated",
            base="procedure",
            says="at most 214 d … 2026-03-01 … until 2026-10-01",
        ),
        Edge(
            (
                ("controlling thermocouples within 20 mm", "controlling thermocouples within {}"),
                ("spare for T1            at 12:10", "spare for T1            at 12:05"),
            ),
            keeps="15 mm",
            breaks="14 mm",
            at="6:10",
            base="procedure",
            says="within 14 mm … T2S is 14.13 mm (0.5562 in), not at most 14 mm (0.551 in)",
        ),
    ),
    good=(
        Good(_demand("requires heating ends closed and vented"), base="procedure"),
        Good(
            _demand("requires thermocouples gauge at least 20 when outside_diameter > 100 mm"),
            base="procedure",
        ),
        Good(
            (*_demand("requires control at 12:00, 6:00"), *_monitor("soak edge at 12:00 at 6:00")),
            base="procedure",
        ),
        Good(_demand("requires control at 3:00 when outside_diameter > 600 mm"), base="procedure"),
        Good(
            (("soak edge count 2", "soak edge count 4 when outside_diameter >= 600 mm"),),
            base="procedure",
        ),
        Good(
            (*_GUARDED, ("  rate margin  ", "  guard band expanded uncertainty\n  rate margin  ")),
            base="procedure",
        ),
        Good(((_INTERVAL, f"{_INTERVAL}\n  calibration at most 183 d"),), base="procedure"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    tell(RULE, case, "requires", "not met")
