"""A caution keeps people from harm; it does not send them there."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.quantities import LENGTH, Quantity, QuantityError
from hts.base.quantities.number import read_number
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.plain_words import PlainWords, compiled
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Bad, Edge, Good, Rule

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K134",
    "caution-turned-round",
    "warning",
    summary="A caution that sends people where it should keep them from: beneath a pipe that is held up for the heat, "
    "to live circuits, near a coil with an implant, or without gloves and barriers.",
    why="At the pipe it is read as it stands.",
    fix="Say what must not be done, and how far off.",
    source="common practice; 2 ft (0.6 m) from what carries the current of welding with an implant, from memory of advice of "
    "makers",
    basis="memory",
    bad=(
        Bad(
            _caution("Stand beneath the header while hangers are pinned"),
            at='"Stand beneath',
            says="sends people into danger: Stand beneath the header while hangers are pinned",
        ),
        Bad(_caution("Anybody beneath the header while it is hot"), at='"Anybody', says="danger"),
        Bad(
            _caution("Circuits are live before anyone connects them"), at='"Circuits', says="danger"
        ),
        Bad(
            _caution("Circuits are isolated and locked out after anyone connects them"),
            at='"Circuits',
            says="danger",
        ),
        Bad(
            _caution("Anybody with an implant within 6 ft of the coil"),
            at='"Any',
            says="within 6 ft",
        ),
        Bad(_caution("Hot surfaces: barriers down, gloves off"), at='"Hot', says="danger"),
        Bad(
            _caution("Amine is an irritant: drains stay open while hot"), at='"Amine', says="danger"
        ),
        Bad(_caution("Grade 91 is soon scrap: call at the last alarm"), at='"Gr', says="danger"),
        Bad(_caution("Surfaces are safe to touch in the hold"), at='"Sur', says="danger"),
    ),
    edges=(
        Edge(
            (
                (
                    "controller C1 {",
                    _CHECKS.format("Nobody with an implant within {} of the coil"),
                ),
            ),
            keeps="0.60 m",
            breaks="0.59 m",
            at='"Nobody with an implant within 0.59 m of the coil"',
            says="0.59 m … at least 0.6 m",
        ),
    ),
    good=(
        Good(_caution("Nobody beneath the header while hangers are pinned")),
        Good(_caution("Stay clear of the area beneath the header")),
        Good(_caution("Work beneath the header only when the hangers are released")),
        Good(_caution("Stand back from the circuits; they are dead before anyone connects them")),
        Good(_caution("Strong magnetic field: nobody with an implant within 6 ft; rings off")),
        Good(_caution("Persons with implants stay 2 m away")),
        Good(_caution("Gloves never off, barriers not down before the metal is cold")),
        Good(_caution("Amine is an irritant: drains stay closed while hot")),
        Good(_caution("Safe to touch below 50 degC")),
        Good(_caution("Watchers stand in front of the cabinet, not under the pipe")),
        Good(_caution("Wait below 50 degC, then strip the blankets")),
        Good(_caution("Anyone beneath the header is sent away")),
    ),
)

#: What is plainly an invitation, as it stands in a clause that denies nothing.
_PLAIN = PlainWords(
    (
        "beneath|under|below|between",
        r"^(?:stand|stay|remain|wait|work|walk|gather|everybody|everyone|anybody|anyone)\b(?: may| can)?(?: (?:stand|work))?"
        r" (?:beneath|under|underneath|below|between) (?:the|a|each|every|hot|suspended|pinned)\b",
    ),
    (
        "live|energi|switched on",
        r"\b(?:live|energi[sz]ed|switched on)\b.*\b(?:before|while|when) (?:any|some)(?:one|body)\b",
    ),
    (
        "isolated|locked out|switched off",
        r"\b(?:isolated|locked out|switched off)\b.*\bafter (?:any|some)(?:one|body)\b",
    ),
    (
        "implant|pacemaker",
        r"^(?:any|every)(?:body|one) with (?:an |a )?(?:implant|pacemaker)",
    ),
    (
        "off|down|removed|away",
        r"\b(?:gloves|goggles|masks|face shields|visors) off$|\b(?:barriers?|signs?) (?:down|off|removed|away)$",
    ),
    (
        "drain",
        r"\bdrains? (?:stay|remain|are left|are kept|are) open(?:ed)? (?:while|when) hot",
    ),
    (
        "alarm",
        r"\bcall\b.* at the (?:last|second|third|next) alarm",
    ),
    (
        "safe to touch",
        r"\bsafe to touch (?:while|when|in|during)\b",
    ),
)
_PARTS = re.compile(r"[,;:.](?!\d)")
#: What makes an invitation a rule of its own.
_BUT = (
    r"\b(?:only|unless|until|after (?:release|cooling)|released|off limits|is sent|are sent|is told|forbidden|prohibited"
    r"|permit|must leave|leaves?|goes|warned|clear|away)\b"
)
_IMPLANT = PlainWords(
    (
        "implant|pacemaker",
        r"\b(?:implant|pacemaker)s?\b.*?\bwithin (\d+(?:\.\d+)?) ?(mm|cm|m|ft|in)\b",
    )
)
_NEAR = Quantity.of("0.6", "m", LENGTH)


@RULE.for_spec
def check(case: Case) -> None:
    told: set[tuple[int, str]] = set()
    for text, at, address in _cautions(case):
        message = _turned(text)
        if message and (at.start, text) not in told:
            told.add((at.start, text))
            case.add(RULE.found(message, at, address=address, basis=RULE.basis))


def _cautions(case: Case) -> Iterator[tuple[str, Span, str]]:
    for joint in case.joints():
        for block in (*joint.before, *joint.during, *joint.after):
            for text in block.cautions if block.sound else ():
                if isinstance(text, str):
                    yield text, block.place("cautions"), f"{joint.address}/checks"
    for procedure in case.spec.file.procedures:
        for text in procedure.cautions if procedure.sound else ():
            if isinstance(text, str):
                yield text, procedure.place("cautions"), procedure.name


def _turned(text: str) -> str:
    """What is wrong with a caution; "" for nothing."""
    for clause in _PARTS.split(text):
        clause = clause.strip()
        if denied(clause):
            continue
        if _PLAIN.search(clause) and not compiled(_BUT).search(clause):
            return f"a caution sends people into danger: {clause}"
    found = _IMPLANT.search(text)
    if found is None:
        return ""
    try:
        near = Quantity.of(read_number(found[1]), found[2].lower(), LENGTH)
    except (QuantityError, ValueError):
        return ""
    if near >= _NEAR:
        return ""
    return f"a caution keeps implants {near} from the coil; usual is at least {_NEAR}"
