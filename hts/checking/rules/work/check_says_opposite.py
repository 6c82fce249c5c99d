"""A check does not find the opposite of what it is about."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.plain_words import PlainWords, compiled
from hts.checking.rules.helpers.sentences import clauses, denied
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: What a line is full of that would not hurt, or is a purge.
_HARMLESS = r"(?! (?:air|nitrogen|argon|helium|inert|purge|insulat|wool))"
#: After what is not there: "no fire watch posted".
_THERE = r"(?: (?:posted|named|there|in force|connected|up|hung|in))?$"
#: What is lent to a joint for the heat, and what it carries.
_LENT = r"(?:(?:chain )?hoists?|chain blocks?|cranes?|slings?|jacks?)"
_HELD = r"\b(?:branch|header|pipe|line|nozzle|spool|drain|vent|main)"
#: Words that are plainly the opposite of a topic.
_OPPOSITES = {
    "permit": rf"^no permit{_THERE}|permit (?:has )?(?:expired|lapsed|ended|withdrawn)",
    "isolation": rf"^no (?:isolation|blinds?|spades?){_THERE}|(?:isolation|blinds?|spades?) (?:is |are )?(?:lifted|removed|taken (?:out|away|off))",
    "gas test": r"purge (?:is |left )?(?:open|running|on)$|purge (?:is |left )?open |argon in the bore|gas found",
    "drained and vented": rf"(?:bore|line|header|pipe|main|branch|vessel)s? (?:is |left )?(?:full of|filled with)"
    rf"{_HARMLESS} \w|undrained|unvented|vents? (?:is |are )?(?:closed|shut|plugged|blanked)$",
    "attachments removed": r"attachments?\b.* (?:left (?:on|in place)|still on|stay on)\b",
    "machined faces protected": r"faces?\b.* (?:left )?(?:bare|uncovered|unprotected)$",
    "ends closed": r"\bends (?:are |left |stand |still )?open\b|\bends uncapped",
    "flanges unbolted": r"(?<!un)\bbolted (?:up|tight|together)|flanges? (?:is |are |still )?bolted$",
    "nearby items protected": r"\b(?:above|over|beyond|past|at) (?:its|their|the) limits?\b|\bunprotected$|\bunshielded$",
    "heater continuity": r"(?:heaters?|leads?|circuits?)\b.* (?:broken|discontinuous|open.circuit)$",
    "polarity": r"polarity\b.* (?:reversed|crossed|wrong)$",
    "spares connected": rf"^no spares?{_THERE}|spares?\b.* (?:disconnected|unconnected)$",
    "junctions shielded": r"junctions?\b.* (?:bare|unshielded|exposed)\b",
    "calibration in date": r"calibrations?\b.* (?:expired|lapsed|overdue|out of date)|(?:out of|beyond|past|over|after|without) (?:their |its |the )?calibration$"
    r"|uncalibrated",
    "program matches procedure": r"programs?\b.* (?:differs?|deviates?|disagrees?|departs?|unlike|other than|instead of)\b|program (?:is )?(?:that )?of (?:the |an)?"
    r"(?:last|previous|former|other|another|next) (?:job|weld|sheet|joint|heat)",
    "zones match drawing": r"zones? (?:differ|unlike)",
    "tag matches channel": r"on (?:a|the|one|any) (?:wrong|other|next|same|single) channel|on (?:another|any|one) channel|on all channels",
    "fire watch": rf"^no fire watch{_THERE}|fire watch (?:is )?(?:stood down|sent (?:away|home)|withdrawn|gone|dismissed|absent|elsewhere|off)",
    "barriers and signs": rf"^no (?:barriers?|signs?){_THERE}|(?:barriers?|signs?)\b.* (?:taken down|removed|taken away)$",
    "power and standby": r"(?:standby|second|generator)\b.* (?:out of order|dead|defective|off site|elsewhere)$",
    "insulation complete": r"insulation (?:is )?(?:incomplete|taken off|stripped|removed)$",
    "surface condition": r"(?:weld|surface|metal|pipe)s? (?:is |left |kept )?(?:wet|damp|rusty|dirty)\b",
}
#: The same of supports: many words, of which most checks have none.
_SUPPORTS = PlainWords(
    (
        "taken|removed|let go|lets go|lowered|slack|unhooked|unloaded|released|idle|off|away|gone|leaves|drops|no ",
        rf"{_LENT}\b.* (?:taken (?:off|away|down|out)|removed|let go|lowered|slack|unhooked|unloaded|released|idle|off"
        rf"|away|gone)\b|{_LENT} (?:lets go of|leaves|drops) |^no {_LENT}{_THERE}",
    ),
    ("hang|stand", rf"{_HELD} (?:hangs?|stands?) (?:free|alone|on its own)$"),
    (
        "carries the h|carries the c|carries the s|carries the j|holds the|bears the|takes the",
        rf"{_HELD} (?:carries|holds|bears|takes) the (?:{_LENT}|saddle|shoe|hanger|clamp)\b",
    ),
)
#: What has ended after the heat is no opposite then.
_ENDS = {
    "permit", "isolation", "drained and vented", "ends closed", "flanges unbolted", "fire watch", "barriers and signs",
    "insulation complete", "machined faces protected", "power and standby", "supports",
}  # fmt: skip
#: What a topic finds; denied, it is the opposite.
_FOUND = re.compile(
    r"\b(?:not|never)(?: yet)? (?:in force|calibrated|agreeing|agree(?: with .*)?|match(?: .*)?|loaded|manned|at the weld|there|drained|vented|closed|capped|protected|below (?:its|their|the) limits?"
    r"|connected|shielded|in date|tried|posted|complete|continuous|isolated|unbolted|removed)$",
    re.IGNORECASE,
)
_WELDING = re.compile(
    r"\bwelding (?:is |and arc strikes )?(?:allowed|permitted|free|released)$|\bweld (?:freely|at will|again|here)$|\b(?:fit|ready|free) (?:for|to be) weld(?:ing|ed)$"
    r"|\bmay be welded$",
    re.IGNORECASE,
)
#: Sentences of another time, of a condition or of what is looked for.
_UNSURE = re.compile(
    r"\b(?:before|after|until|till|unless|except|only|if|when|whenever|in case|where|look|looked|search|whether|was|were"
    r"|been|any|anything|would|or|test|tested|at once|again|replaced|reported|only)\b",
    re.IGNORECASE,
)


def _checked(text: str, topic: str) -> tuple[tuple[str, str], ...]:
    block = (
        'before heat W12 {\n  check "Each tag warmed by hand" about tag matches channel\n'
        '  check "Header drained and vented" about drained and vented\n'
        f'  check "{text}" about {topic}\n'
        "  insulation resistance at least 1 Mohm\n}\n\ncontroller C1 {"
    )
    return (("controller C1 {", block),)


def _marked(text: str) -> tuple[tuple[str, str], ...]:
    ((controller, before),) = _checked("Ends closed", "ends closed")
    after = f'after heat W12 {{\n  hardness weld at most 248 HV10 count 3\n  marking "{text}"\n}}'
    blocks = f"during heat W12 {{ reading every 1 h }}\n\n{after}\n\n{controller}"
    return ((controller, before.replace(controller, blocks)),)


RULE = Rule(
    "K124",
    "check-says-opposite",
    "warning",
    summary="A check whose words find the opposite of what it is about, or a marking that allows welding "
    "on what was heat treated.",
    why="Whoever ticks it at the pipe ticks what has to be otherwise.",
    fix="Let the words say what has to be found.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _checked("Both ends open against draught", "ends closed"),
            at='"Both ends open against draught"',
            says="about ends closed finds the opposite: Both ends open",
        ),
        Bad(
            _marked("Heat treated: welding allowed"),
            at='marking "Heat treated: welding allowed"',
            says="allows welding: welding allowed",
        ),
    ),
    good=(
        Good(_checked("Open ends closed, none of the ends open", "ends closed")),
        Good(_checked("Bore not filled with water any more", "drained and vented")),
        Good(_marked("Heat treated: welding allowed only with a new treatment")),
    ),
    agrees=(
        Agreement(
            "before heat.check.about", "before heat.check.text", "found, and not its opposite"
        ),
        Agreement("after heat.marking", "cycle.hold.range", "no welding after the heat"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint):
        return
    for block in (*joint.before, *joint.during, *joint.after):
        for item in block.checks if block.sound else ():
            if block in joint.after and item.about in _ENDS:
                continue
            opposite = _opposite(item.about or "", item.text)
            if opposite:
                message = (
                    f"a check of {joint.name} about {item.about} finds the opposite: {opposite}"
                )
                _add(case, joint, message, item.place("text"), item.place("about"))
    for after in joint.after:
        for text in after.marking if after.sound else ():
            allowed = next((each for each in clauses(text) if _allows_welding(each)), "")
            if allowed:
                message = f"a marking of {joint.name} allows welding: {allowed}"
                _add(case, joint, message, after.place("marking"), joint.place("names"))


def _add(case: Case, joint: Joint, message: str, at: Span, other: Span) -> None:
    others = [Label(other, "what it is about")]
    case.add(
        RULE.found(message, at, address=f"{joint.address}/checks", others=others, basis=RULE.basis)
    )


def _opposite(topic: str, text: str) -> str:
    """The clause of a check that is plainly the opposite of its topic; "" for none."""
    pattern = _OPPOSITES.get(topic)
    if pattern is None and topic != "supports":
        return ""
    for clause in clauses(text):
        if pattern is None:
            found = _SUPPORTS.search(clause)
        else:
            found = compiled(pattern).search(clause)
        if _UNSURE.search(clause):
            continue
        # "No fire watch" is the opposite itself.
        rest = clause[found.end() :] if found and found[0].lower().startswith("no ") else clause
        if _FOUND.search(clause) or (found and not denied(rest)):
            return clause
    return ""


def _allows_welding(clause: str) -> bool:
    return bool(_WELDING.search(clause)) and not denied(clause) and not _UNSURE.search(clause)
