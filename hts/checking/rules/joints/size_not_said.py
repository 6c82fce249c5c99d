"""A weld round a pipe says what size the pipe is."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.fellows import listed
from hts.checking.rules.helpers.missing import already_told
from hts.checking.rules.helpers.places import ROUND
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_PIPE = "  pipe       NPS 6 schedule 80\n"
_WALL = "  wall       0.432 in measured\n"

RULE = Rule(
    "J211",
    "size-not-said",
    "advice",
    summary="A weld round a pipe that does not say how large the pipe is, or how thick.",
    why="Heaters, bands, places on the clock and every limit by thickness hang on it; without it "
    "nothing of that is held against anything.",
    fix="Write `pipe NPS … schedule …`, or `pipe outside diameter …` with `wall …`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_PIPE, ""),), at="D3", base="preheat"),),
    good=(
        Good(((_PIPE, "  pipe       outside diameter 168.3 mm\n"),), base="preheat"),
        Good(((_WALL, ""),), base="preheat"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if case.spec.file.job is None or entry.kind not in ROUND or not joint.sides:
        return
    if not entry.sound or "wall" in already_told(joint):
        return
    words = []
    if all(side.outside_diameter is None for side in joint.sides):
        words.append("outside diameter")
    if all(side.wall is None for side in joint.sides):
        words.append("wall")
    if words and not _asked_for(case, joint):
        case.add(
            RULE.found(
                f"{joint.name} does not state {listed(words)}",
                joint.place("names"),
                address=joint.address,
                basis=RULE.basis,
            )
        )


def _asked_for(case: Case, joint: Joint) -> bool:
    """Whether the joint is treated: what its limits lack is told with them."""
    return bool(joint.cycles or joint.bakes)
