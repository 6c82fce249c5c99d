"""A chart bears the joint and the day, so that it is the record of something."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint


def _shows(words: str) -> tuple[tuple[str, str], ...]:
    return (
        ("controller C1 {", f"during heat W12 {{\n  chart shows {words}\n}}\n\ncontroller C1 {{"),
    )


_NEEDED = ("joint", "date")

RULE = Rule(
    "K113",
    "chart-of-nobody",
    "warning",
    summary="A list of what the chart shows without the joint or the date.",
    why="A chart that does not say which weld it is of, and when, is the record of none.",
    fix="Add `joint` and `date`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_shows("document number, date"), at="document number", says="the joint"),
        Bad(_shows("document number, joint"), at="document number", says="the date"),
    ),
    good=(Good(_shows("joint, date")),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for block in joint.during:
        shown = block.chart_shows
        missing = [f"the {word}" for word in _NEEDED if word not in shown]
        if shown and missing and block.sound:
            case.add(
                RULE.found(
                    f"the chart of {joint.name} is not to show {' or '.join(missing)}",
                    block.place("chart_shows"),
                    address=f"{joint.address}/during-heat",
                    basis=RULE.basis,
                )
            )
            return
