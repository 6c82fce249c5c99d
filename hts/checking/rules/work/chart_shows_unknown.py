"""What the chart is to show is told by the text."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.model.on_chart import on_chart


def _chart(shows: str) -> tuple[tuple[str, str], ...]:
    return (
        ("controller C1 {", f"during heat W12 {{\n  chart shows {shows}\n}}\n\ncontroller C1 {{"),
    )


RULE = Rule(
    "K107",
    "chart-shows-unknown",
    "advice",
    summary="A chart that is to show what the text does not say, such as the welder.",
    why="Whoever writes it on the chart has to ask, or leaves it out.",
    fix="Say it in the entry it belongs to, or take it off the list.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_chart("joint, welder, date"), at="joint, welder, date", says="welder of W12"),
        Bad(_chart("joint, date, client"), at="client"),
    ),
    good=(Good(_chart("joint, heat number, document number, recorder serial, date, operator")),),
    agrees=(
        Agreement("during heat.chart shows", "joint.welding.welder", "what is to be shown is said"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for stage in joint.during:
        unknown = [item for item in stage.chart_shows if on_chart(item, case.spec, joint) is None]
        if unknown and stage.sound:
            case.add(
                RULE.found(
                    f"the chart is to show {', '.join(unknown)} of {joint.name}, "
                    "and nothing here says it",
                    stage.place("chart_shows"),
                    address=f"{joint.address}/during-heat",
                    basis=RULE.basis,
                )
            )
