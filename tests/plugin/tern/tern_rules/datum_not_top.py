"""TI002: a rule about each joint."""

from hts.plugin import Bad, Case, Good, Joint, Rule

RULE = Rule(
    "TI002",
    "datum-not-top",
    "advice",
    summary="A clock position that does not count from the top.",
    why="The crews of Tern Island mark the top of every pipe before they begin.",
    fix="Count from the top.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("datum      top", "datum      long seam"),), at="long seam"),),
    good=(Good((("  datum      top\n", ""),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    datum = joint.entry.datum
    if datum not in (None, "top"):
        message = f"12:00 is at the {datum}"
        case.add(RULE.found(message, joint.entry.place("datum"), address=joint.name))
