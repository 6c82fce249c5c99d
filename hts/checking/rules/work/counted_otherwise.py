"""Checks count what there is: zones, thermocouples, spares, supports, heaters."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import NUMBERS, clauses, denied, of_a_neighbour
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about {}\n'
    "  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{"
)


def _checked(text: str, about: str = "other") -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text, about)),)


RULE = Rule(
    "K131",
    "counted-otherwise",
    "warning",
    summary="A check or a caution that counts other zones, thermocouples, spares, hangers or heaters than "
    "the joint has.",
    why="Whoever counts at the pipe looks for what is not there, or stops before the last one.",
    fix="Correct the number, or the entries.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _checked("All four zones lit", "zones match drawing"),
            at='"All four zones lit"',
            says="four zones … W12 has 2",
        ),
        Bad(
            _checked("Three spares connected", "spares connected"),
            at='"Three spares connected"',
            says="three spares … W12 has 2",
        ),
        Bad(
            _checked("Two rod hangers free", "supports"),
            at='"Two rod hangers free"',
            says="two rod hangers … W12 has 1",
        ),
    ),
    good=(
        Good(_checked("Both zones lit, all eight thermocouples read", "zones match drawing")),
        Good(_checked("At least one thermocouple of each zone reads", "zones match drawing")),
        Good(
            _checked(
                "Two control thermocouples, two spares and four monitors read", "spares connected"
            )
        ),
        Good(_checked("Three zones of the line beside it are off", "zones match drawing")),
    ),
    agrees=(
        Agreement("before heat.check.text", "joint.heating.zone.name", "as many as there are"),
        Agreement("before heat.check.text", "joint.support.what", "as many as there are"),
    ),
)

_COUNTED = re.compile(
    rf"\b({'|'.join(NUMBERS)}|both) ((?:[a-z]+ )?)(zones?|thermocouples?|spares?|monitors?|hangers?|heaters?|pads?)\b",
    re.IGNORECASE,
)
#: Where a number is not that of all.
_PART = re.compile(
    r"\b(?:each|every|per|other|others|more|next|first|last|rest|among|least|most|than|any|of the|if|when|up to|only"
    r"|in turn|neighbouring|faulty|broken|lost)\b",
    re.IGNORECASE,
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for text, at in _texts(joint):
        for clause in clauses(text):
            if _PART.search(clause) or denied(clause) or of_a_neighbour(clause):
                continue
            for found in _COUNTED.finditer(clause):
                told = _told(joint, *found.groups())
                if told is not None and _number(found[1]) not in told:
                    case.add(
                        RULE.found(
                            f"a check or caution counts {found[0].lower()}; {joint.name} has {max(told)}",
                            at,
                            address=f"{joint.address}/checks",
                            others=[Label(joint.place("names"), "the weld")],
                            basis=RULE.basis,
                        )
                    )
                    return


def _told(joint: Joint, number: str, kind: str, what: str) -> set[int] | None:
    """How many there are, by each way to count; None where nothing is known of them."""
    kind, what = kind.strip().lower(), what.lower().rstrip("s")
    heating = joint.entry.heating
    counts: set[int] = set()
    if what == "zone":
        counts = {len(joint.zones)} if not kind else set()
    elif what in ("thermocouple", "spare", "monitor"):
        counts = _thermocouples(joint, kind, what)
    elif what == "hanger":
        words = [each.what.lower() for each in joint.entry.supports if isinstance(each.what, str)]
        counts = {sum("hanger" in each and kind in each for each in words)}
    elif not kind:
        rows = heating.heaters if heating is not None else []
        counts = {sum(row.count or 1 for row in rows), len(rows)}
        counts |= {sum(zone.entry.heaters or 0 for zone in joint.zones)}
    return counts if any(counts) else None


def _thermocouples(joint: Joint, kind: str, what: str) -> set[int]:
    spares = sum(tc.entry.spare_for is not None for tc in joint.thermocouples)
    control = sum(tc.entry.controls is not None for tc in joint.thermocouples)
    monitors = sum(tc.entry.monitors is not None for tc in joint.thermocouples)
    if what == "spare" or kind == "spare":
        return {spares} if kind in ("", "spare") else set()
    if what == "monitor" or kind == "monitoring":
        return {monitors} if kind in ("", "monitoring") else set()
    if kind in ("control", "controlling"):
        return {control}
    return {len(joint.thermocouples), control + monitors} if not kind else set()


def _number(word: str) -> int:
    return 2 if word.lower() == "both" else NUMBERS.index(word.lower()) + 1


def _texts(joint: Joint) -> Iterator[tuple[str, Span]]:
    for block in (*joint.before, *joint.during, *joint.after):
        # A list for several joints counts those of one of them.
        if not block.for_one:
            continue
        for item in block.checks if block.sound else ():
            yield item.text, item.place("text")
        for text in block.cautions if block.sound else ():
            yield text, block.place("cautions")
