"""The side that words call the slower one is the thicker."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.model.side import Side

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K138",
    "slower-side-of-words",
    "warning",
    summary="A caution or a check that calls the thinner side of a branch the one that lags.",
    why="The crew then waits for the side that is hot first, and counts the hold while the heavy one is still cold.",
    fix="Name the thicker side.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                *_caution("The branch takes longer than the header: heat by the slowest"),
                ("pipe NPS 10 wall 21 mm", "pipe NPS 10 wall {}"),
            ),
            keeps="25.4 mm",
            breaks="25.3 mm",
            base="branch",
            at='"The branch takes longer than the header: heat by the slowest"',
            says="calls the branch slower than the header … of 25.3 mm (0.996 in) and 25.4 mm (1 in)",
        ),
    ),
    good=(
        Good(_caution("The header takes longer than the branch"), base="branch"),
        Good(_caution("The branch is quicker than the header"), base="branch"),
        Good(_caution("The branch never lags behind the header"), base="branch"),
    ),
    agrees=(Agreement("before heat.caution", "joint.side.wall", "the thicker side is the slower"),),
)

_SLOWER = re.compile(
    r"\b(\w+) (?:takes longer|needs longer|lags|heats (?:up )?(?:more slowly|slower)|is (?:slower|thicker|heavier))"
    r" (?:than|behind) the (\w+)\b",
    re.IGNORECASE,
)
_QUICKER = re.compile(
    r"\b(\w+) (?:takes less time|(?:is|heats|gets hot) (?:quicker|faster|sooner|thinner|lighter)) than the (\w+)\b",
    re.IGNORECASE,
)
_SIDES = {
    "run": ("run", "header", "main", "shell"),
    "branch": ("branch", "nozzle", "drain", "vent", "connection"),
}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    sides = {side.name: side for side in joint.sides}
    if joint.entry.kind != "branch" or "run" not in sides or "branch" not in sides:
        return
    for text, at in _texts(joint):
        said = [(found[1], found[2]) for found in _SLOWER.finditer(text)]
        said += [(found[2], found[1]) for found in _QUICKER.finditer(text)]
        for words in said:
            slow, fast = (_side(sides, word) for word in words)
            if slow is None or fast is None or slow is fast or denied(text):
                continue
            walls = [side.wall.value for side in (slow, fast) if side.wall is not None]
            known = [wall for wall in walls if isinstance(wall, Quantity)]
            if len(known) < 2 or known[0] >= known[1]:
                continue
            case.add(
                RULE.found(
                    f"the text calls the {words[0]} slower than the {words[1]}, and they are of {known[0].both()} and "
                    f"{known[1].both()}",
                    at,
                    address=f"{joint.address}/checks",
                    others=[Label(joint.place("sides"), "the sides")],
                    basis=RULE.basis,
                )
            )


def _side(sides: dict[str, Side], word: str) -> Side | None:
    return next((sides[name] for name, words in _SIDES.items() if word.lower() in words), None)


def _texts(joint: Joint) -> Iterator[tuple[str, Span]]:
    for block in (*joint.before, *joint.during, *joint.after):
        for item in block.checks if block.sound else ():
            yield item.text, item.place("text")
        for text in block.cautions if block.sound else ():
            yield text, block.place("cautions")
