"""No sentence of a job or a procedure lets go what keeps the weld and those at it from harm."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.instructions import instructions, reasons
from hts.checking.rules.helpers.plain_words import PlainWords, compiled
from hts.checking.rules.rule import Bad, Good, Rule

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)
_AFTER = (
    "after heat W12 {{\n  hardness weld at most 241 HBW count 3\n"
    '  thermocouple spots "{}"\n}}\n\ncontroller C1 {{'
)
_LINE = "  holding spread   at most 25 K"


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


def _owner(line: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"{_LINE}\n  {line}"),)


RULE = Rule(
    "K143",
    "neglected-in-words",
    "warning",
    summary="A sentence by which something is left alone, unattended, unsigned or as it is, done without what it is for, put "
    "off, or switched off although it protects; a reason by which nobody needs it.",
    why="At the pipe it is read as it stands, and done so.",
    fix="Say what has to be done, and by when.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _caution("Spaces on the other side of the plate are closed and left alone"),
            at='"Spaces',
            says="a caution lets go what protects: left alone",
        ),
        Bad(_caution("The weld may stay unattended in the hold"), at='"The weld', says="unattended"),
        Bad(_caution("Alarms are muted while the set runs"), at='"Alarms', says="Alarms are muted"),
        Bad(_caution("Gloves not needed"), at='"Gloves', says="Gloves not needed"),
        Bad(
            (("controller C1 {", _AFTER.format("Left as they are")),),
            at='"Left as they are"',
            says="what becomes of the spots … Left as they are",
        ),
        Bad(
            _owner('hand over "Chart without channel map"'),
            base="owner",
            at='"Chart without channel map"',
            says="what is handed over … without channel map",
        ),
        Bad(
            _owner('hand over "Chart, and hardness of the base metal only"'),
            base="owner",
            at='"Chart, and',
            says="base metal only",
        ),
        Bad(
            _owner('requires straightness within 1 mm per 1 m because "Hubs need not meet the connector"'),
            base="owner",
            at='"Hubs need not',
            says="a reason lets go what protects: Hubs need not meet",
        ),
    ),
    good=(
        Good(_caution("The weld is never left alone")),
        Good(_caution("Nobody works there without a permit")),
        Good(_caution("No chart without channel map; unsigned charts are returned")),
        Good(_caution("A set left alone trips; it must not be bypassed")),
        Good(_caution("Alarms are never muted")),
        Good(_caution("The line need not be moved")),
        Good(_caution("Calibrated last month; spools without insulation are covered")),
        Good(_owner('requires test plate because "The weld need not be cut up"'), base="owner"),
        Good(_caution("Gloves no longer needed below 50 degC")),
        Good(_owner('hand over "Hardness of weld, base metal and heat-affected zone"'), base="owner"),
        Good(_owner('hand over "Chart with channel map"'), base="owner"),
    ),
)  # fmt: skip

_GUARDS = r"(?:alarm|interlock|trip|cut-?out|fuse|breaker|earth(?:ing)?|ground(?:ing)?|guard|protection|emergency stop|detector)"
_NEEDED = (
    r"(?:gloves?|goggles|visors?|masks?|barriers?|signs?|permits?|fire watch(?:er)?s?|watch(?:man)?|earthing|gas tests?"
    r"|insulation|spares?|release|calibration|purge|vents?|drains?|covers?|supports?|channel map|signatures?|checks?|readings?)"
)
_MISSED = (
    r"(?:channel map|signatures?|checking|testing|permit|watch(?:er|man)?|fire watch|release|calibration|barriers?|gloves"
    r"|records?|chart|recorder|insulation|supervision|vent|gas test|thermocouples?|monitors?|spares?|limits?|hardness|report)"
)
#: Words by which something is let go.
_WORDS = PlainWords(
    (
        "left|leave",
        r"\b(?:left|leave|leaves) (?:them |it )?(?:alone|unattended|as (?:they|it) (?:are|is)|to (?:itself|themselves))\b",
    ),
    (
        "unattended|unwatched|unguarded|unsigned|unsupervised|unverified|unmonitored|uncalibrated|unlabelled|unchecked|unmanned",
        r"\bun(?:attended|watched|guarded|signed|supervised|verified|monitored|calibrated|labelled|checked|manned)\b",
    ),
    (
        "without",
        rf"\bwithout (?:(?:a|an|any|the|its|their|further) )?{_MISSED}$",
    ),
    (
        "muted|silenced|bypassed|bridged|disabled|overridden|ignored|disconnected|switched off|taken out",
        rf"\b{_GUARDS}s?\b(?: is| are| may be| can be)? (?:muted|silenced|bypassed|bridged|disabled|overridden|ignored"
        r"|disconnected|switched off|taken out)\b",
    ),
    (
        "mute|silence|bypass|bridge|disable|override|ignore|disconnect",
        rf"\b(?:mute|silence|bypass|bridge|disable|override|ignore|disconnect)s? (?:the |all |each |every |any )?{_GUARDS}s?\b",
    ),
    (
        "needed|required|necessary|optional|dispensable",
        rf"\b{_NEEDED} (?:is |are )?(?:not (?:needed|required|necessary)|unnecessary|optional|dispensable)\b",
    ),
    (
        "need|may be|can be",
        r"\b(?:needs? not|needn't) (?:be (?:checked|tested|watched|signed|recorded|isolated|drained|vented|calibrated|measured"
        r"|closed|protected|worn)|wear|wait|sign|check|test|watch)\b|\b(?:may|can) be (?:skipped|omitted|left out|neglected)\b",
    ),
    (
        "skip|omit|neglect|forget|ignore|disregard",
        r"\b(?:skip|omit|neglect|forget|ignore|disregard)s? (?:the|this|that|it)\b",
    ),
    (
        "convenient|time",
        r"\bwhen (?:convenient|there is time)\b|\bif (?:time allows|there is time|convenient)\b|\bas convenient\b",
    ),
    (
        "later|afterwards|next",
        r"\b(?:signed|recorded|written down|entered|filled in|reported|told|read|logged)"
        r" (?:later|afterwards|the next day|next (?:day|week|shift))\b",
    ),
    (
        "now and then|at times|time to time|sometimes|occasionally",
        r"\b(?:now and then|at times|from time to time|sometimes|occasionally)\b",
    ),
    (
        "one",
        r"\bone of the heat-affected zones\b|\b(?:for|of) one shift\b",
    ),
    (
        "no ",
        r"^no (?:barriers?|gloves|signs|permit|fire watch)$",
    ),
    (
        "base metal",
        r"\bof (?:the )?base metal (?:only|alone)\b",
    ),
    (
        "memory|guess|feel",
        r"\b(?:from|out of) memory\b|\bby (?:guess|guesswork|feel)\b",
    ),
    (
        "alarm|nobody|no one|bare hands",
        r"\blet (?:the )?alarms? (?:run|ring|go)\b|\bby (?:nobody|no one)\b|\bbare hands\b",
    ),
    (
        "painted|welded over|not ground|not dressed",
        r"^painted\b|\bpainted over\b|\bwelded over\b|\bnot (?:ground|dressed)(?: flush)?$",
    ),
)
_PARTS = re.compile(r"[,;:.](?!\d)|\s(?:and|but) (?=\w+ (?:is|are|must|may))")
#: What turns a word of neglect into a rule against it, or tells what comes of it.
_BUT = (
    r"\b(?:never|nobody|no one|nothing|nowhere|none|no(?! longer)|neither|nor|cannot|can't|don't|do not|does not|must not"
    r"|may not|is not|are not|unless|until|only with|otherwise|forbidden|prohibited|returned|refused|rejected|void|trips?"
    r"|fails?|failed|drifts?|cracks?|cracked|stops?|stopped|replaced|reported at once|in case|if (?:it|they|the|a|any)|whoever"
    r"|cut|removed|moved|labelled|listed|covered|kept|neighbour\w*|adjacent|adjoining|nearby|no longer|any (?:more|longer)|instead of|rather than|lest|search|look)\b"
)
#: What a reason says that nobody asks for: a work that is saved is another reason.
_NEED_NOT = PlainWords(("not", r"^[\w ]*\bneeds? not (?!be\b)\w+"))


@RULE.for_spec
def check(case: Case) -> None:
    for each in (*instructions(case), *reasons(case)):
        if each.what == "a reason":
            spared = _NEED_NOT.search(each.text)
            found = spared[0] if spared is not None else ""
        else:
            found = next(filter(None, map(_neglect, _PARTS.split(each.text))), "")
        if not found:
            continue
        message = f"{each.what} lets go what protects: {found}"
        case.add(RULE.found(message, each.at, address=each.address, basis=RULE.basis))


def _neglect(clause: str | None) -> str:
    """The words of a clause by which something is let go; "" for none."""
    found = _WORDS.search(clause or "")
    if found is None or clause is None:
        return ""
    around = clause[: found.start()] + clause[found.end() :]
    return "" if compiled(_BUT).search(around) else found[0]
