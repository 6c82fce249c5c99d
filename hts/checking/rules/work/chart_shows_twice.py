"""What the chart is to show is named once."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.checking.rules.work.chart_shows_unknown import _chart
from hts.language.model.joint import Joint

RULE = Rule(
    "K114",
    "chart-shows-twice",
    "advice",
    summary="A list of what the chart is to show that names one thing twice.",
    why="Something else was meant in its place, and the chart leaves without it.",
    fix="Name the other thing, or leave the second one out.",
    source="arithmetic",
    basis="derived",
    bad=(
        Bad(
            _chart("joint, date, operator, date"),
            at="joint, date, operator, date",
            says="names date twice",
        ),
    ),
    good=(Good(_chart("joint, date, operator")),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for stage in joint.during:
        shown = stage.chart_shows
        twice = [item for number, item in enumerate(shown) if item in shown[:number]]
        if twice and stage.sound:
            case.add(
                RULE.found(
                    f"the list of what the chart shows of {joint.name} names {twice[0]} twice",
                    stage.place("chart_shows"),
                    address=f"{joint.address}/during-heat",
                )
            )
