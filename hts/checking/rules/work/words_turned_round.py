"""A sentence has things as they have to be while the metal is hot, and not the other way round."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.instructions import AFTER, ALWAYS, instructions
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Bad, Good, Rule

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)
_LINE = "  holding spread   at most 25 K"


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K145",
    "words-turned-round",
    "warning",
    summary="A sentence that has lines under pressure or full, hangers loose, circuits live, cables at the coil, watchers gone, "
    "attachments put on or supports welded fast while the metal is hot; or that goes by the side that is hot first.",
    why="One word turned round, and the crew does what the sentence was written against.",
    fix="Turn the sentence round.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_caution("Main pressurized"), at='"Main', says="turned round: Main pressurized"),
        Bad(_caution("Bore filled and vented"), at='"Bore', says="Bore filled"),
        Bad(_caution("Bore purged with gas"), at='"Bore', says="purged with gas"),
        Bad(_caution("Hangers released"), at='"Hangers', says="Hangers released"),
        Bad(_caution("Signal cables wound with the coil"), at='"Signal', says="cables wound with the coil"),
        Bad(_caution("Gas tester leaves the weld while it is hot"), at='"Gas', says="Gas tester leaves"),
        Bad(_caution("Attachments within the band are welded on"), at='"Att', says="welded on"),
        Bad(_caution("Shoe and trestle welded fast"), at='"Shoe', says="welded fast"),
        Bad(_caution("Heat by the quickest"), at='"Heat', says="by the quickest"),
        Bad(_caution("Circuits are live when anyone connects them"), at='"Cir', says="are live"),
        Bad(_caution("Metal is hosed down with water"), at='"Metal', says="hosed down"),
        Bad(
            ((_LINE, f'{_LINE}\n  requires after heat marking "Welding allowed"'),),
            base="owner",
            at='after heat marking "Welding allowed"',
            says="a demand is turned round: Welding allowed",
        ),
    ),
    good=(
        Good(_caution("Main isolated and drained, nothing pressurized")),
        Good(_caution("Bore purged with nitrogen gas")),
        Good(_caution("Hangers pinned, and listed for release")),
        Good(_caution("Hangers released when the weld is cold")),
        Good(_caution("Signal cables away from the coil")),
        Good(_caution("Gas tester stays at the weld while it is hot")),
        Good(_caution("Gas tester leaves when the weld is cold")),
        Good(_caution("Attachments that were welded on are removed")),
        Good(_caution("Shoe welded to the pipe is free to slide")),
        Good(_caution("Heat by the slowest, not by the quickest")),
        Good(_caution("Circuits are dead when anyone connects them")),
        Good(_caution("Pressurized water is drained first")),
    ),
)  # fmt: skip

_LINES = r"(?:bore|main|line|header|pipe|piping|branch|vessel|return|system|bottom|drum)s?"
_BE = r"(?:is |are |stays? |left |kept |remains? |still )?"
_HANGERS = r"(?:(?:spring |constant |rod )?hangers?|springs?|spring supports?)"
_CABLES = r"(?:cables?|leads?|signal wires?|extension wires?)"
_WATCH = r"(?:gas tester|fire watch(?:er|man)?|watch(?:er|man|men)|attendants?|technicians?|standby man|sentry|crew)"
#: What is plainly the opposite, whenever it is read.
_ALWAYS = (
    rf"\b{_LINES} {_BE}(?:pressuri[sz]ed|under pressure|in service|on line|charged|live)\b",
    rf"\b{_LINES} {_BE}(?:filled|full)\b(?! (?:with |of )?(?:nitrogen|argon|inert|wool|insulat|blanket))",
    r"\bpurged with (?:fuel |natural |town |process |sweet |sour |hydrocarbon |flammable )?(?:gas|air)\b",
    rf"\b{_CABLES} (?:\w+ )?(?:wound|run|laid|coiled|bundled|tied|along|together)(?: \w+)? (?:with|along|around|round|on|onto|to"
    r"|through|beside|in|inside|under|over) (?:the |its )?(?:induction )?(?:coil|turns|heaters?)\b",
    rf"\b{_WATCH} (?:leaves?|goes (?:home|away)|may leave|withdraws?|is sent (?:home|away)|absent|away|stands down)\b",
    r"\battachments?\b.* (?:welded on|put on|added|fitted|tacked on|left on|stay|remain)$",
    r"\b(?:heat|wait|go|goes|steer|set|control|judge|judged)\w* (?:\w+ )?(?:by|for|to) the (?:quickest|fastest|hottest|thinnest"
    r"|lightest|first|highest)\b",
    r"\bpower of the (?:thin|thinner|light|lighter) side by\b",
    r"\b(?:circuits?|heaters?|leads?|cables?|secondar(?:y|ies)|terminals?)\b.*\b(?:live|energi[sz]ed|on|under power)"
    r" (?:when|while|as) (?:any|some)(?:one|body)\b",
    r"\b(?:hosed|quenched|doused|sprayed)(?: down| off)?\b(?! with argon)|\bcooled (?:down )?(?:with|by|in) (?:cold )?water\b",
    r"\b(?:welding|arc strikes?|grinding|peening) (?:is |are )?(?:allowed|permitted|free)\b",
    r"\bweld here\b|\bmay be welded\b|\bfit to weld\b",
    r"\b(?:bypassed|jumpered|bridged)$",
    r"\b(?:nobody|no one)\b.* (?:beneath|under|below) .* (?:while|when) .*\b(?:released|cold|free|freed)\b",
    r"\b(?:weld|metal|joint|surface)s? (?:is |are |left |kept )?(?:wet|damp|oily|greasy|painted)\b",
    r"\b(?:ends?|openings?|vents? and ends) (?:are |left |stand |still )?(?:open|uncapped)(?: to the wind)?$",
    r"\b(?:doors?|ports?|lids?) (?:are |is |left )?(?:open|ajar) (?:while|during)\b",
)  # fmt: skip
#: The same until the metal is cold.
_WHILE_HOT = (
    rf"\b{_HANGERS}(?: (?:is|are|hangs?))? (?:free|released|freed|unpinned|unlocked|loose|let go)$",
    r"\b(?:shoes?|trestles?|guides?|saddles?|supports?)\b(?: and \w+)?(?: (?:is|are))? (?:welded|tacked|tack-welded|wedged|bolted"
    r"|clamped|chained|jammed) (?:fast|down|solid|tight|in place|to the steel)\b",
    r"\b(?:flanges?) (?:is |are )?(?:bolted|made) (?:up|tight)\b",
    r"\b(?:insulation|blankets?) (?:is |are )?(?:off|removed|lifted|open|stripped)$",
    r"\b(?:barriers?|signs?) (?:is |are )?(?:down|off|removed|away|taken down)$",
    r"\b(?:permit|permits) (?:is |has )?(?:expired|withdrawn|handed back|closed|cancelled)$",
)
_PLAIN, _HOT = (re.compile("|".join(each), re.IGNORECASE) for each in (_ALWAYS, _WHILE_HOT))
_PARTS = re.compile(r"[,;:.](?!\d)|\s(?:but|where|which|that|while it)\s")
#: What makes a rule against it, or a thing of another time, of such words.
_BUT = re.compile(
    r"\b(?:after|until|till|before|unless|except|only|if|once|then|cold|again|first|was|were|had been|would|could|lest|instead"
    r"|forbidden|prohibited|away|clear|below \d+|where|in case|for release|to be|no longer|search|look|stopped|stop|ready)\b",
    re.IGNORECASE,
)
_NOBODY = re.compile(r"\b(?:nobody|no one)\b.*\b(?:beneath|under|below)\b", re.IGNORECASE)


@RULE.for_spec
def check(case: Case) -> None:
    for each in instructions(case):
        hot = each.stage not in (AFTER, ALWAYS) or each.what == "a caution"
        for clause in map(str.strip, _PARTS.split(each.text)):
            if _turned(clause, hot and each.stage != AFTER):
                message = f"{each.what} is turned round: {clause}"
                case.add(RULE.found(message, each.at, address=each.address, basis=RULE.basis))
                break


def _turned(clause: str, hot: bool) -> bool:
    found = _PLAIN.search(clause) or (_HOT.search(clause) if hot else None)
    if found is None:
        return False
    rest = clause[: found.start()] + clause[found.end() :]
    if _NOBODY.search(found[0]):
        return True
    return not denied(clause) and not _BUT.search(rest)
