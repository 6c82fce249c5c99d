"""Checks speak of supports the joint has."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: Words that tell one kind of support from another.
_WORDS = re.compile(
    r"\b(spring|constant|rod|clamp|hoist|trestle|shoe|saddle|trunnion|bracket|jack|hanger)s?\b",
    re.IGNORECASE,
)
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about supports\n'
    "  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{"
)


def _checked(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K119",
    "support-not-there",
    "warning",
    summary="A check that speaks of a kind of support, such as a spring or a hoist, of which the "
    "joint states none.",
    why="What is to be pinned, let go or taken away is on no drawing and in no list: it is left as it "
    "is while the line grows hot.",
    fix="State the support with where it stands and its state, or correct the check.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_checked("Spring hanger pinned"), at="supports", says="a check of W12 says `spring`"),
    ),
    good=(Good(_checked("Rod hanger as drawn")), Good(_checked("Supports as drawn"))),
    agrees=(
        Agreement("before heat.check.text", "joint.support.what", "what is checked is stated"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for joint in case.joints():
        _look(case, joint)


def _look(case: Case, joint: Joint) -> None:
    if not joint.entry.supports or not treated(joint):
        return
    # One list of checks may be for several joints, each with supports of its own.
    known = " ".join(
        support.what.casefold()
        for each in case.spec.joints.values()
        for support in each.entry.supports
        if support.what is not None
    )
    for text, at in _checks(joint):
        for found in _WORDS.finditer(text):
            word = found[1].casefold()
            if word not in known:
                case.add(
                    RULE.found(
                        f"a check of {joint.name} says `{word}`, and none of its supports does",
                        at,
                        address=f"{joint.address}/checks",
                        others=[
                            Label(support.place("what"), "stated")
                            for support in joint.entry.supports
                        ],
                        basis=RULE.basis,
                    )
                )
                return


def _checks(joint: Joint) -> Iterator[tuple[str, Span]]:
    """The checks of supports, before the heat, in it and after it."""
    for block in (*joint.before, *joint.during, *joint.after):
        for item in block.checks if block.sound else ():
            if item.about == "supports":
                yield item.text, item.place("about")
