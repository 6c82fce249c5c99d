"""TI002: a rule about each joint."""

from hts.plugin import Bad, Case, Good, Joint, Rule

RULE = Rule(
    "TI002",
    "viewed-against-flow",
    "advice",
    summary="A weld that is looked at against the flow.",
    why="The crews of Tern Island look along the flow at every weld before they count the hours.",
    fix="Look along the flow.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("viewed     with flow", "viewed     against flow"),), at="against flow"),),
    good=(Good((("  cap width  30 mm\n", "  cap width  31 mm\n"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.viewed == "against flow":
        message = "3:00 is on the other hand than along the flow"
        case.add(RULE.found(message, joint.entry.place("viewed"), address=joint.name))
