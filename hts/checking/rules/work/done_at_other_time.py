"""What makes work safe comes before the heat; what the heat has to end for comes after it."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.instructions import instructions
from hts.checking.rules.helpers.plain_words import PlainWords, compiled
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Bad, Good, Rule

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K144",
    "done-at-other-time",
    "warning",
    summary="A sentence by which lines are isolated, drained or tested for gas after the heat has begun, people trained when "
    "it is over, somebody called when it is too late; by which hangers are released, insulation taken off or the line tested "
    "under pressure before the heat; or a gas test that is days old.",
    why="Each is of use at its time alone.",
    fix="Say when it has to be done: before the start, at the first alarm, after the heat.",
    source="common practice, no source; a pressure test after heat treatment: ASME B31.3-2018 345.2.3, from memory",
    basis="practice",
    bad=(
        Bad(
            _caution("Lines are isolated after every start"),
            at='"Lines',
            says="comes too late: Lines are isolated after every start",
        ),
        Bad(
            _caution("Above 800 degC the weld is scrap: call the engineer after the cycle"),
            at='"Above',
            says="too late: call the engineer after the cycle",
        ),
        Bad(_caution("Hangers are released before the heat"), at='"Hangers', says="comes too early"),
        Bad(_caution("Gas test within the week"), at='"Gas', says="too late: Gas test within the week"),
        Bad(
            _caution("Lines are tested again at every third start"),
            at='"Lines',
            says="comes too seldom",
        ),
        Bad(_caution("Bore dry since the hydrotest"), at='"Bore', says="too early: Bore dry since the hydrotest"),
    ),
    good=(
        Good(_caution("Lines are isolated, drained and tested again before every start")),
        Good(_caution("Line drained again after the heat")),
        Good(_caution("Bore purged after the heat; technicians are briefed on the cooling after tempering")),
        Good(_caution("Call the engineer at the first alarm, sign after the cycle")),
        Good(_caution("Hangers are never released before the heat has ended")),
        Good(_caution("Hangers released after the heat, insulation off when cold")),
        Good(_caution("Gas test within the hour")),
        Good(_caution("No hydrotest before the heat treatment")),
        Good(_caution("Calibration of the gas tester within the month")),
    ),
)  # fmt: skip

_EVENT = (
    r"(?:(?:the|every|each|a|any|this) )?(?:start(?: of (?:the )?(?:heat|hold|cycle))?|heat(?:ing)?(?:[- ]?up)?|cycle|hold"
    r"|power(?: is on)?|switching on|(?:heat )?treatment|stress relief|tempering|PWHT|run|heaters? (?:is|are) on)\b"
)
_TOO_LATE = rf"\b(?:after|following|at the end of|once|when) {_EVENT}"
_TOO_EARLY = rf"\b(?:before|prior to|ahead of) {_EVENT}"
#: What has to be so before the heat, and is told for after it.
_FIRST = PlainWords(
    (
        "after|following|at the end|once|when",
        r"\b(?:isolated|isolation|locked ?out|locked off|gas[- ]free|gas[- ]test\w*|tested for gas|permit|fire watch|pinned|spades?"
        r"|blinds?|calibrated|earthed|warmed by hand|attachments? .*removed)\b.*"
        + _TOO_LATE
        + r"|\b(?:drained|vented|purged)\b.*"
        r"\bafter (?:every|each|the) start\b|\b(?:briefed|trained)\b (?:\w+ )?" + _TOO_LATE,
    )
)
#: What the crew has to know before it tempers a weld that has to be cold first.
_BRIEFED = PlainWords(
    (
        "briefed|trained|instructed",
        r"\b(?:briefed|trained|instructed)\b.*\bcooling (?:down )?after (?:the )?(?:tempering|treatment)\b",
    )
)
_EACH_START = PlainWords(
    ("start", r"\b(?:isolated|gas[- ]free)\b.*\b(?:again )?after (?:every|each|the) start$"),
)
#: Whom to call, and what is done at once.
_CALLED = PlainWords(
    (
        "call|tell|warn|inform|notify|alert|stop|report|evacuate",
        r"\b(?:call|calls|tell|tells|warn|warns|inform|informs|notify|alert|stop|stops|report|reports|evacuate)\b.*"
        r"(?:\b(?:after|at the end of|once|when) (?:the |this )?(?:cycle|hold|shift|run|heat|treatment|job|night|weekend)\b"
        r"|\b(?:the )?next (?:day|shift|morning|week)\b|\btomorrow\b|\bafterwards$|\blater$|\bat the end$)",
    )
)
#: What has to wait for the end of the heat, and is told for before it.
_LAST = PlainWords(
    (
        "before|prior|ahead",
        r"(?:\b(?:(?:hangers?|springs?|clamps?|supports?|hoists?)\b.*\b(?:released|freed|unpinned|unlocked|removed)"
        r"|(?:insulation|blankets?|thermocouples?|heaters?)\b.*\b(?:removed|stripped|cut off|taken off|lifted)"
        r"|(?:releases?|frees?|unpins?|unlocks?) the \w* ?(?:hangers?|springs?)|bolted up|reinstated|put (?:back )?into service"
        r"|(?:hydro(?:static)?(?: |-)?|pressure )test(?:ed)?|painted)\b.*)" + _TOO_EARLY,
    )
)
_TAKEN_OFF = PlainWords(
    (
        "taking off|removal|stripping|removing",
        r"^(?:taking off|removal|stripping|removing) (?:of )?(?:the )?(?:thermocouples|insulation|heaters|blankets)\b",
    )
)
#: A pressure test that is already behind a weld that is still to be treated.
_TESTED = PlainWords(
    (
        "since|after",
        r"\b(?:since|after) (?:the |its )?(?:hydro(?:static)?[- ]?test|hydrotest|pressure test)\b",
    )
)
_OLD_TEST = PlainWords(
    (
        "gas test|gas-test|gastest",
        r"^(?:.*\s)?gas[- ]?test\w*\b[^,;]*\b(?:within (?:the|a|one|this) (?:day|week|month|year|fortnight)|of (?:yesterday|the (?:morning|day before|previous day)|last (?:week"
        r"|month))|yesterday|(?:weekly|monthly))\b",
    )
)
_SELDOM = PlainWords(
    (
        "every",
        r"\b(?:isolat|test|check|drain|vent|gas|read)\w*\b.*\b(?:at|before|after) every (?:second|other|third|fourth|fifth|tenth)"
        r" (?:start|heat|weld|shift|hold)\b",
    )
)
_PARTS = re.compile(r"[;:.](?!\d)|,(?!\d)(?= (?:and|but|then|sign|call|hangers|insulation))")
_BUT = (
    r"\b(?:not|no|never|nobody|nothing|nor|neither|without|cannot|again|also|too|still|at once|immediately|first|before and"
    r"|both|already|unless|until|calibrat\w+ of|only|during|test of the)\b"
)


@RULE.for_spec
def check(case: Case) -> None:
    cooled = any(
        each.cycle is not None and each.cycle.cooled_below is not None
        for joint in case.joints()
        for each in joint.cycles
    )
    for each in instructions(case):
        for clause in map(str.strip, _PARTS.split(each.text)):
            how = _wrong(clause, each.stage)
            if how and compiled(_BUT).search(clause):
                how = ""
            if _EACH_START.search(clause) and not denied(clause):
                how = "late"
            if cooled and _BRIEFED.search(clause):
                how = "late"
            if _SELDOM.search(clause) and not denied(clause):
                how = "seldom"
            if how:
                message = f"{each.what} comes too {how}: {clause}"
                case.add(RULE.found(message, each.at, address=each.address, basis=RULE.basis))


def _wrong(clause: str, stage: str) -> str:
    """`late`, `early`, or "" for neither."""
    if _CALLED.search(clause) or _OLD_TEST.search(clause):
        return "late"
    if stage != "after" and _FIRST.search(clause) and not compiled(_TOO_EARLY).search(clause):
        return "late"
    if stage == "before" and _TAKEN_OFF.search(clause):
        return "early"
    if _LAST.search(clause) and not compiled(_TOO_LATE).search(clause):
        return "early"
    return "early" if stage == "before" and _TESTED.search(clause) else ""
