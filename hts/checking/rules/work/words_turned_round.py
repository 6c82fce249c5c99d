"""A sentence has things as they have to be while the metal is hot, and not the other way round."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.instructions import (
    AFTER,
    ALWAYS,
    BEFORE,
    DURING,
    instructions,
)
from hts.checking.rules.helpers.sentences import denied, of_a_neighbour
from hts.checking.rules.rule import Bad, Good, Rule

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)
_LINE = "  holding spread   at most 25 K"


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


def _check(text: str, topic: str) -> tuple[tuple[str, str], ...]:
    checks = _CHECKS.replace("  caution", f'  check "{text}" about {topic}\n  caution')
    return (("controller C1 {", checks.format("Hot surfaces")),)


def _hung(text: str) -> tuple[tuple[str, str], ...]:
    """A check of a joint that hangs on a spring."""
    spring = ('"rod hanger" 1.2 m upstream fixed', '"spring hanger" 1.2 m upstream locked')
    return (spring, *_check(text, "supports"))


RULE = Rule(
    "K145",
    "words-turned-round",
    "warning",
    summary="A sentence that has lines under pressure or full, hangers loose, cables at the coil, watchers gone, "
    "attachments put on or supports welded fast while the metal is hot; or that goes by the side that is hot first.",
    why="One word turned round, and the crew does what the sentence was written against.",
    fix="Turn the sentence round.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_check("Main pressurized", "isolation"), at='"Main', says="turned round: Main pressurized"),
        Bad(_check("Bore filled and vented", "drained and vented"), at='"Bore', says="Bore filled"),
        Bad(_caution("Bore purged with gas"), at='"Bore', says="purged with gas"),
        Bad(_hung("Hangers released"), at='"Hangers', says="Hangers released"),
        Bad(_caution("Signal cables wound with the coil"), at='"Signal', says="cables wound with the coil"),
        Bad(_caution("Gas tester leaves the weld while it is hot"), at='"Gas', says="Gas tester leaves"),
        Bad(_caution("Attachments within the band are welded on"), at='"Att', says="welded on"),
        Bad(_caution("Shoe and trestle welded fast"), at='"Shoe', says="welded fast"),
        Bad(_caution("Heat by the quickest"), at='"Heat', says="by the quickest"),
        Bad(_caution("Metal is hosed down with water"), at='"Metal', says="hosed down"),
        Bad(
            ((_LINE, f'{_LINE}\n  requires after heat marking "Welding allowed"'),),
            base="owner",
            at='after heat marking "Welding allowed"',
            says="a demand is turned round: Welding allowed",
        ),
    ),
    good=(
        Good(_caution("Broken heaters are replaced, nothing is missing")),
        Good(_caution("Main isolated and drained, nothing pressurized")),
        Good(_caution("Bore purged with nitrogen gas")),
        Good(_caution("Hangers pinned, and listed for release")),
        Good(_caution("Hangers released when the weld is cold")),
        # Beside it a line is in service.
        Good(_caution("Neighbouring main in service: stay clear")),
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
    r"\bpurged with (?:fuel |natural |town |process |sweet |sour |hydrocarbon |flammable )?(?:gas|air)\b",
    rf"\b{_CABLES} (?:through|around|along|inside) the (?:induction )?coil\b",
    rf"\b{_WATCH} (?:stays?|is|sits|waits) in the (?:control room|office|canteen|cabin|workshop|store)\b",
    r"\bvented? (?:in)?to the (?:weld )?(?:shelter|tent|shop|building|room|enclosure)\b",
    r"\b(?:do not|don't|never|nobody has to) wait for (?:it|the (?:slow\w*|heavy|heavier|thick\w*|header|run))\b",
    rf"\b{_CABLES} (?:\w+ )?(?:wound|run|laid|coiled|bundled|tied|along|together)(?: \w+)? (?:with|along|around|round|on|onto|to"
    r"|through|beside|in|inside|under|over) (?:the |its )?(?:induction )?(?:coil|turns|heaters?)\b",
    rf"\b{_WATCH} (?:leaves? (?:the )?(?:weld|site|set|place|line|it)|goes (?:home|away)|may leave|withdraws?|is sent (?:home|away)|absent|away|stands down)\b",
    r"\battachments?\b.* (?:welded on|put on|added|fitted|tacked on|left on|stay|remain)$",
    r"\b(?:heat|wait|goes?)\b (?:\w+ )?(?:by|for|to) the (?:quickest|fastest|hottest|thinnest|lightest|mean|average)\b",
    r"\bpower of the (?:thin|thinner|light|lighter) side by\b",
    r"\b(?:hosed|doused)(?: down| off)?\b",
    r"\b(?:welding|arc strikes?) (?:is |are )?(?:allowed|permitted|free)\b",
    r"\bweld here\b|\bmay be welded\b|\bfit to weld\b",
    r"\b(?:bypassed|jumpered|bridged)$",
    r"\b(?:nobody|no one)\b.* (?:beneath|under|below) .* (?:while|when) .*\b(?:released|cold|free|freed)\b",
    r"\b(?:weld|metal|joint|surface)s? (?:is |are |left |kept )?(?:wet|damp|oily|greasy|painted)$",
    r"\b(?:ends?|openings?|vents? and ends) (?:are |left |stand |still )?(?:open|uncapped)(?: to the wind)?$",
)  # fmt: skip
#: The same of what a check finds: beside the weld it may well be so.
_CHECKED = (
    rf"\b{_LINES} {_BE}(?:pressuri[sz]ed|under pressure|in service|on line|charged|live)\b",
    rf"\b{_LINES} {_BE}(?:\w+ and )?(?:filled|full)\b(?! (?:with |of )?(?:nitrogen|argon|inert|wool|insulat|blanket))",
)
#: The same until the metal is cold.
_WHILE_HOT = (
    rf"\b{_HANGERS}(?: (?:is|are|hangs?))? (?:free|released|freed|unpinned|unlocked|loose|let go)$",
    r"\b(?:shoes?|trestles?|guides?|saddles?|supports?)\b(?: and \w+)?(?: (?:is|are))? (?:welded|tacked|tack-welded|wedged|bolted"
    r"|clamped|chained|jammed) (?:fast|down|solid|tight|in place|to the steel)\b",
    r"\b(?:permit|permits) (?:is |has )?(?:expired|withdrawn|handed back|closed|cancelled)$",
)
#: States in which no heat is begun.
_BAD = re.compile(
    r"\b(?:interrupted|broken|missing|out of order|expired|lapsed|reversed|crossed|leaking|leaks|defective|faulty|damaged|torn"
    r"|burnt|flooded|seized|overdue|incomplete|disconnected|unplugged|swapped|mixed up|unlabelled|untagged|unearthed"
    r"|out of calibration|out of date)\b"
    r"|\b(?:shoes?|trestles?|slides?|saddles?)\b(?: and \w+)?(?: (?:is|are))? (?:blocked|wedged|jammed|locked|chained|fast|stuck)$"
    r"|\b(?:shields?|screens?|covers?|hoists?|trestles?|barriers?|signs?|extinguishers?|blankets?) (?:\w+ ){0,5}?(?:taken (?:off|away"
    r"|down)|gone|elsewhere)$"
    r"|(?<!no )\b(?:amine|water|oil|product|condensate|caustic|gas|sludge) left$",
    re.IGNORECASE,
)
#: What was wrong and is not any more, or is meant to be so.
_MENDED = re.compile(
    r"\b(?:put right|set right|turned back|tightened|dried|cleaned|replaced|repaired|renewed|mended|exchanged|corrected|listed|cut out|taken out|removed|simulated|spare|circuit is"
    r"|tested|tried|alarm|alarms|trips|trip|shown|shows|would|upscale)\b",
    re.IGNORECASE,
)
_PLAIN, _FOUND, _HOT = (
    re.compile("|".join(each), re.IGNORECASE) for each in (_ALWAYS, _CHECKED, _WHILE_HOT)
)
_PARTS = re.compile(r"[,;:.](?!\d)|\s(?:but|where|which|that|while it)\s")
#: What makes a rule against it, or a thing of another time, of such words.
_BUT = re.compile(
    r"\b(?:after|until|till|before|unless|except|only|if|once|then|cold|again|first|was|were|had been|would|could|lest|instead"
    r"|forbidden|prohibited|away|clear|below \d+|where|in case|for release|to be|no longer|search|look|stopped|stop|ready|outside|beyond|alarm|evacuat\w+)\b",
    re.IGNORECASE,
)
_WAIT = re.compile(r"\bwait for\b", re.IGNORECASE)
_HANGER = re.compile(rf"\b{_HANGERS}\b", re.IGNORECASE)
_NOBODY = re.compile(r"\b(?:nobody|no one)\b.*\b(?:beneath|under|below)\b", re.IGNORECASE)


@RULE.for_spec
def check(case: Case) -> None:
    for each in instructions(case):
        hot = each.stage not in (AFTER, ALWAYS) or each.what == "a caution"
        for clause in map(str.strip, _PARTS.split(each.text)):
            checked = each.what == "a check" and each.stage in (BEFORE, DURING)
            found = checked and _FOUND.search(clause) and not of_a_neighbour(clause)
            if each.free and _HANGER.search(clause):
                continue
            # What a marking says of welding is told of checks.
            if each.what == "a marking":
                continue
            turned = _turned(clause, hot and each.stage != AFTER)
            if turned or (checked and _is_bad(clause)) or (found and _is_plain(clause)):
                message = f"{each.what} is turned round: {clause}"
                case.add(RULE.found(message, each.at, address=each.address, basis=RULE.basis))
                break


def _is_plain(clause: str) -> bool:
    return not denied(clause) and not _BUT.search(clause)


def _is_bad(clause: str) -> bool:
    """Whether a check finds a state that nobody begins with."""
    found = _BAD.search(clause)
    return (
        found is not None
        and not denied(clause)
        and not _BUT.search(clause)
        and not _MENDED.search(clause)
    )


def _turned(clause: str, hot: bool) -> bool:
    found = _PLAIN.search(clause) or (_HOT.search(clause) if hot else None)
    if found is None:
        return False
    rest = clause[: found.start()] + clause[found.end() :]
    if _NOBODY.search(found[0]) or _WAIT.search(found[0]):
        return True
    return not denied(clause) and not _BUT.search(rest)
