"""A sentence has things as they have to be while the metal is hot, and not the other way round."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.instructions import (
    ALWAYS,
    BEFORE,
    DURING,
    Sentence,
    instructions,
)
from hts.checking.rules.helpers.plain_words import PlainWords, compiled
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
_PLAIN = PlainWords(
    (
        "purged with",
        r"\bpurged with (?:fuel |natural |town |process |sweet |sour |hydrocarbon |flammable )?(?:gas|air)\b",
    ),
    (
        "coil",
        rf"\b{_CABLES} (?:through|around|along|inside) the (?:induction )?coil\b",
    ),
    (
        "control room|office|canteen|cabin|workshop|store",
        rf"\b{_WATCH} (?:stays?|is|sits|waits) in the (?:control room|office|canteen|cabin|workshop|store)\b",
    ),
    (
        "shelter|tent|shop|building|room|enclosure",
        r"\bvented? (?:in)?to the (?:weld )?(?:shelter|tent|shop|building|room|enclosure)\b",
    ),
    (
        "wait for",
        r"\b(?:do not|don't|never|nobody has to) wait for (?:it|the (?:slow\w*|heavy|heavier|thick\w*|header|run))\b",
    ),
    (
        "coil|turns|heater",
        rf"\b{_CABLES} (?:\w+ )?(?:wound|run|laid|coiled|bundled|tied|along|together)(?: \w+)? (?:with|along|around|round|on|onto|to"
        r"|through|beside|in|inside|under|over) (?:the |its )?(?:induction )?(?:coil|turns|heaters?)\b",
    ),
    (
        "leave|goes|withdraw|sent|absent|away|stands",
        rf"\b{_WATCH} (?:leaves? (?:the )?(?:weld|site|set|place|line|it)|goes (?:home|away)|may leave|withdraws?|(?:is |are )?sent (?:home|away)|absent|away|stands down)\b",
    ),
    (
        "attachment",
        r"\battachments?\b(?!.*\b(?:outside|beyond|clear of)\b).* (?:welded on|put on|added|fitted|tacked on|left on|stay|remain)$",
    ),
    (
        "quickest|fastest|hottest|thinnest|lightest|mean|average",
        r"\b(?:heat|wait|goes?)\b (?:\w+ )?(?:by|for|to) the (?:quickest|fastest|hottest|thinnest|lightest|mean|average)\b",
    ),
    (
        "power of the",
        r"\bpower of the (?:thin|thinner|light|lighter) side by\b",
    ),
    (
        "hosed|doused",
        r"\b(?:hosed|doused)(?: down| off)?\b",
    ),
    (
        "welding|arc",
        r"\b(?:welding|arc strikes?) (?:is |are )?(?:allowed|permitted|free)\b",
    ),
    (
        "deg",
        r"\babove \d+ ?deg[CF] (?:\w+ )*(?:is|are) (?:still )?(?:fine|good|safe|all right|harmless)\b",
    ),
    (
        "while|until|when",
        r"\b(?:stays?|remains?|kept)\b.* (?:(?:while|when) (?:it is |they are )?cold|until (?:it is |they are )?hot)$",
    ),
    (
        "pass",
        r"\bpreheat\b.* (?:after (?:each|every|the) pass|before (?:one|the first|the last) pass)$",
    ),
    (
        "coil|steel|rebar",
        rf"\b{_CABLES} (?:\w+ )?(?:beside|close to|near|next to|touching|over) (?:the )?(?:induction )?(?:coil|reinforcing steel|rebars?)\b",
    ),
    ("occupied", r"\b(?:compartments?|spaces?|rooms?)\b.* occupied\b"),
    ("full of", r"\bfull of (?:gas|product|hydrocarbons?)\b"),
    (
        "implant|pacemaker",
        r"\bnobody with(?:out)? an? (?:implant|pacemaker) (?:is |comes )?outside\b|\bnobody without an? (?:implant|pacemaker)\b",
    ),
    (
        "in service",
        r"\b(?:stays?|remains?|kept|left) in service (?:at|while|during|for) (?:\w+ )?(?:start|heat|hold|cycle)",
    ),
    (
        "weld here|welded|fit to",
        r"\bweld here\b|\bmay be welded\b|\bfit to weld\b",
    ),
    (
        "bypassed|jumpered|bridged",
        r"\b(?:bypassed|jumpered|bridged)$",
    ),
    (
        "nobody|no one",
        r"\b(?:nobody|no one)\b.* (?:beneath|under|below) .* (?:(?:while|when) .*\b(?:released|cold|free|freed|unpinned|loose)|until .*\b(?:pinned|locked|hot))\b",
    ),
    (
        "wet|damp|oily|greasy|painted",
        r"\b(?:weld|metal|joint|surface)s? (?:is |are |left |kept )?(?:wet|damp|oily|greasy|painted)$",
    ),
    (
        "open|uncapped",
        r"\b(?:ends?|openings?|vents? and ends) (?:are |left |stand |still )?(?:open|uncapped)(?: to the wind)?$",
    ),
)
#: The same of what a check finds: beside the weld it may well be so.
_FOUND = PlainWords(
    (
        "pressur|in service|on line|charged|live",
        rf"\b{_LINES} {_BE}(?:pressuri[sz]ed|under pressure|in service|on line|charged|live)\b",
    ),
    (
        "fill|full",
        rf"\b{_LINES} {_BE}(?:\w+ and )?(?:filled|full)\b(?! (?:with |of )?(?:nitrogen|argon|inert|wool|insulat|blanket))",
    ),
)
#: The same until the metal is cold.
_HOT = PlainWords(
    (
        "hanger|spring",
        rf"\b{_HANGERS}(?: (?:is|are|hangs?))? (?:free|released|freed|unpinned|unlocked|loose|let go)$",
    ),
    (
        "shoe|trestle|guide|saddle|support",
        r"\b(?:shoes?|trestles?|guides?|saddles?|supports?)\b(?: and \w+)?(?: (?:is|are))? (?:welded|tacked|tack-welded|wedged|bolted"
        r"|clamped|chained|jammed) (?:fast|down|solid|tight|in place|to the steel)\b",
    ),
    (
        "permit",
        r"\b(?:permit|permits) (?:is |has )?(?:expired|withdrawn|handed back|closed|cancelled)$",
    ),
)
#: States in which no heat is begun.
_BAD = PlainWords(
    (
        "interrupted|broken|missing|out of|expired|lapsed|reversed|crossed|leak|defective|faulty|damaged|torn|burnt|flooded|seized"
        "|overdue|incomplete|disconnected|unplugged|swapped|mixed up|unlabelled|untagged|unearthed",
        r"\b(?:interrupted|broken|missing|out of order|expired|lapsed|reversed|crossed|leaking|leaks|defective|faulty|damaged|torn"
        r"|burnt|flooded|seized|overdue|incomplete|disconnected|unplugged|swapped|mixed up|unlabelled|untagged|unearthed"
        r"|out of calibration|out of date)\b",
    ),
    (
        "blocked|wedged|jammed|locked|chained|stuck|tied",
        r"\b(?:shoes?|trestles?|slides?|saddles?)\b(?: and \w+)?(?: (?:is|are))? (?:blocked|wedged|jammed|chained|stuck|tied down|locked)\b",
    ),
    (
        "taken|gone|elsewhere",
        r"\b(?:shields?|screens?|covers?|hoists?|trestles?|barriers?|signs?|extinguishers?|blankets?) (?:\w+ ){0,5}?(?:taken (?:off"
        r"|away|down)|gone|elsewhere)$",
    ),
    ("outside", r"\boutside (?:the|their|its) (?:hour|calibration|limits?|range)\b"),
    ("channel", r"\bon (?:its |a |the )?(?:neighbour'?s|other|another|wrong) channel\b"),
    ("one", r"^one thermocouple\b|\bof one extension\b"),
    ("loose", r"\b(?:clamps?|bolts?|terminals?|connections?|lugs?) (?:is |are )?loose\b"),
    (
        "sealed|shut in",
        r"\b(?:drained|bore|lines?|header)\b.*\b(?:sealed|shut in)$|^dried and sealed$",
    ),
    ("wet|damp", r"^(?:wet|damp)\b"),
    (" left", r"(?<!no )\b(?:amine|water|oil|product|condensate|caustic|gas|sludge) left$"),
)
#: What was wrong and is not any more, or is meant to be so.
_MENDED = (
    r"\b(?:put (?:in|on|right|back)|fitted|set right|turned back|tightened|dried|cleaned|replaced|repaired|renewed|mended|exchanged|corrected|listed"
    r"|cut out|taken out|removed|simulated|spare|circuit is|tested|tried|alarms?|trips?|shown|shows|would|upscale)\b"
)
_PARTS = re.compile(r"[,;:.](?!\d)|\s(?:but|where|which|that|while it)\s")
#: What makes a rule against it, or a thing of another time, of such words.
_BUT = (
    r"\b(?:after|until|till|before|unless|except|only|if|once|then|cold|again|first|was|were|had been|would|could|lest|instead"
    r"|forbidden|prohibited|away|clear|below \d+|where|in case|for release|to be|no longer|search|look|stopped|stop|ready"
    r"|outside|beyond|alarm|evacuat\w+)\b"
)
_HANGER = rf"\b{_HANGERS}\b"
#: What is turned round although it denies something.
_DENIES = r"\bwait for\b|\bnobody with|\b(?:nobody|no one)\b.*\b(?:beneath|under|below)\b"


@RULE.for_spec
def check(case: Case) -> None:
    for each in instructions(case):
        # What a marking says of welding is told of checks.
        if each.what == "a marking":
            continue
        for clause in map(str.strip, _PARTS.split(each.text)):
            if _is_turned(each, clause):
                message = f"{each.what} is turned round: {clause}"
                case.add(RULE.found(message, each.at, address=each.address, basis=RULE.basis))
                break


def _is_turned(each: Sentence, clause: str) -> bool:
    hot = each.stage in (BEFORE, DURING) or (each.stage == ALWAYS and each.what == "a caution")
    found = _PLAIN.search(clause) or (_HOT.search(clause) if hot else None)
    if found is not None and not (each.free and compiled(_HANGER).search(clause)):
        rest = clause[: found.start()] + clause[found.end() :]
        if compiled(_DENIES).search(found[0]):
            return True
        return not denied(clause) and not compiled(_BUT).search(rest)
    if each.what != "a check" or each.stage not in (BEFORE, DURING):
        return False
    if _BAD.search(clause) and not compiled(_MENDED).search(clause):
        return _is_plain(clause)
    return _FOUND.search(clause) is not None and not of_a_neighbour(clause) and _is_plain(clause)


def _is_plain(clause: str) -> bool:
    return not denied(clause) and not compiled(_BUT).search(clause)
