"""A sentence finds or leaves things as they are when the heat may go on, not as they do harm."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.instructions import AFTER, ALWAYS, Sentence, instructions
from hts.checking.rules.helpers.plain_words import PlainWords, compiled
from hts.checking.rules.helpers.sentences import clauses, denied
from hts.checking.rules.rule import Bad, Good, Rule

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  caution "{}"\n}}\n\ncontroller C1 {{'
)


def _caution(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K147",
    "left-in-harm",
    "warning",
    summary="A sentence that leaves attachments, argon or draught where they were, hangers pinned for good, shields off, spares in "
    "their box, thermocouples anywhere, watchers elsewhere; or that calls harmless what is not.",
    why="One word for its opposite, and what the sentence was to keep from the weld and the crew is what they sign.",
    fix="Say what has to be found, or done.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_caution("Attachments within the gradient band are kept"), at='"Attachments', says="leaves harm: Attachments within"),
        Bad(_caution("Shoe and trestle free to fall"), at='"Shoe', says="free to fall"),
        Bad(_caution("Argon left in the bore"), at='"Argon', says="Argon left in the bore"),
        Bad(_caution("The field is harmless"), at='"The field', says="field is harmless"),
        Bad(_caution("Thermocouples where there is room"), at='"Thermo', says="where there is room"),
    ),
    good=(
        Good(_caution("Attachments are never left on within the band")),
        Good(_caution("Attachments outside the band stay")),
        Good(_caution("Argon left in the bore suffocates: blow it out")),
        Good(_caution("Shield removed only when cold")),
        Good(_caution("Hangers pinned, and left so until the weld is cold")),
        Good(_caution("No thermocouple off the map")),
    ),
)  # fmt: skip

_HANGERS = r"(?:(?:spring |constant |rod )?hangers?|springs?|clamps?)"
_CABLES = r"(?:cables?|leads?|signal wires?|extension wires?)"
_HAZARD = r"(?:amine|caustic|condensate|steam|argon|nitrogen|hydrogen|gas|ammonia|field|magnetic field|voltage)"
_NEAR = r"(?:tied to|on|onto|against|round|around|along|at|under|touching|towards?|close by|close to|beside)"
#: Whenever it is read before the metal is cold.
_WORDS = PlainWords(
    (
        "permit|isolation",
        r"\b(?:permit|isolation) (?:is |are |has been )?(?:lifted|suspended|pending|applied for|no longer in force|awaited|to follow)$",
    ),
    (
        "plugged|wet|sealed|closed|steam",
        r"\b(?:drained|dried|steamed out)(?: and|,) (?:plugged|wetted|sealed|closed|shut|shut in)$|\bbore wet\b|\bsteam on(?: and\b|$)|\bdrained, wetted\b|^sealed$",
    ),
    (
        "draught|end|ventilated",
        r"\bends? (?:are |is |left )?(?:opened|ventilated|left (?:for|to) the draught)\b|\bclosed with draught\b|^(?:one|neither) end (?:is )?closed\b",
    ),
    ("pin", rf"\bpins? (?:of the {_HANGERS} )?(?:are |is )?(?:taken|pulled|drawn|knocked) out$"),
    ("heater", r"\bheaters and leads (?:are )?(?:separate|open|apart|cut|parted)$"),
    ("zones|supports|thermocouple", r"^(?:zones|supports|thermocouples) (?:are )?(?:as (?:found|convenient|last time|before)|(?:other than|unlike)\b)"),
    ("thermocouple", r"\bthermocouples (?:are )?(?:off the map|where(?:ver)? there is room|where convenient|anywhere|at will)\b"),
    ("spares", r"\bspares (?:are )?(?:(?:kept|left|stored) (?:in|at)\b|cut off|taken off|coiled up)"),
    (
        "junction",
        r"\bjunctions? (?:are )?(?:pressed|open|exposed|bare|held|facing|laid|close) (?:against|to|up to|on)? ?(?:the )?heaters?\b|\bjunctions? (?:are )?in contact with"
        r" (?:the )?heaters?\b",
    ),
    ("standby|second set", r"\b(?:standby|second) (?:set )?(?:is )?(?:untried|on order|switched off|away|in store|hired out|out of fuel|without fuel|empty)$"),
    ("no |barriers", r"\bno (?:barriers?|signs?|gloves|earthing)\b(?= or\b|$|,)|\bbarriers? (?:is |are )?open$"),
    ("surfaces", r"^surfaces down to \d"),
    (
        "beneath|below|under|above",
        r"\b(?:somebody|someone) (?:\w+ )?(?:beneath|below|under) the \w+ while\b|\bnobody (?:\w+ )?(?:above|on top of|on) the"
        r" (?:header|pipe|line|branch) while .*\b(?:pinned|held|locked)\b",
    ),
    ("below", r"\bbelow \d+ ?deg[CF] (?:somewhere|in places|on average|on one side|at (?:the top|one place|one point|one clock))\b"),
    ("dry|rinsed|washed|wetted", r"\bkept dry (?:until|till|before|up to) the \w+$|\b(?:rinsed|washed|wetted|hosed) since\b"),
    ("argon|purge", r"\bargon (?:is )?(?:left|trapped|filling|kept|standing|remains|still) ?(?:in )?the bore$"),
    ("call", r"\bcalls? (?:nobody|no one)\b"),
    ("above", r"\babove \d+ ?deg[CF] (?:the )?(?:weld|joint) is (?:sound|right|complete|done)\b"),
    (
        "shield|screen|cover",
        r"\b(?:heat )?(?:shields?|screens?|covers?) (?:\w+ ){0,6}?(?:removed|in store|in the store|out of place|set aside|laid aside|missing|off)$",
    ),
    ("harmless|safe|no danger|weak|no magnetic", rf"\b{_HAZARD} is (?:an? )?(?:harmless|safe|no danger|no irritant|cold)\b|^(?:weak|no|small|harmless) magnetic field"),
    ("vents", r"\bvents (?:stay|are|remain|kept) (?:closed|shut) while (?:it is )?hot\b"),
    ("shoe|trestle", r"\b(?:shoes?|trestles?)(?: and \w+)? (?:is |are )?free to (?:fall|tip)$"),
    ("purged of", r"\bpurged of (?:air|nitrogen|argon|inert gas)\b"),
    ("gas", r"\bgas test\w* (?:after|in) (?:an|one|two|three|some|\d+) hours?\b|\bgas test\w* .*\b(?:hours? ago|next day|tomorrow|last shift)\b|\bgas test next day\b"),
    ("gas", r"\bgas[- ]filled\b.*$|\blines? (?:are |is )?(?:connected|charged|filled|live), (?:gas|tested|drained|vented).*$"),
    (
        "tester|watch|attendant",
        r"\b(?:gas tester|fire watch\w*|attendant|watcher) (?:stays|is|waits|stands) (?:at the (?:gate|office|truck|road|canteen|stores?)|off|away from|clear of|outside)\b"
        r"|\b(?:gas tester|fire watch\w*) stays .* while it is cold\b",
    ),
    ("reinforcing|rebar", rf"\b{_CABLES} (?:are )?{_NEAR} (?:the )?(?:reinforcing steel|rebars?|scaffold)\b"),
    ("coil", rf"\b(?:signal|extension|thermocouple) (?:cables?|wires?|leads?) (?:are )?{_NEAR} the coil\b"),
    ("implant|pacemaker|rings", r"\bnobody with an? (?:implant|pacemaker) (?:beyond|outside|farther than|more than)\b|\brings (?:stay |kept |left )?on$"),
    ("supports", r"^supports? (?:are )?(?:removed|taken (?:out|away|off|down))$"),
    (
        "attachment",
        r"\battachments? (?:outside|beyond|clear of) the (?:\w+ )?band (?:are |is )?(?:removed|taken off|ground off)\b|\battachments? (?:\w+ ){0,6}?(?:are |is )?(?:left|kept"
        r"|welded|tack[- ]?welded|tacked|added|put on)$|^permanent attachments?\b.* removed\b",
    ),
    ("compartment|space", r"\b(?:compartments?|spaces?)\b.*\b(?:and left|forgotten|manned|in use)$|\b(?:compartments?|spaces?) on this side\b"),
    ("left|forgotten|forgets|leaves|listed", r"\b(?:pin(?:ned|s)|cleared|lock(?:ed|s)|clamp(?:ed|s))\b.*\band (?:left|forgotten|(?:leaves|forgets) (?:them|it))$|^and left$|\bnot listed for release\b"),
    ("releases", r"\breleases the (?:spring |constant )?(?:hangers?|springs?) and (?:then )?pins (?:them|it)\b"),
    ("removes|detaches", r"\b(?:removes|detaches|takes off) thermocouples and heaters, reads\b"),
    ("reads", r"\breads (?:at the end|once|when asked)$"),
    ("sheet", r"\bagrees? with (?:the sheet of|another|the (?:last|previous)|an (?:earlier|older))\b"),
)  # fmt: skip
#: When the metal is cold.
_COLD = PlainWords(
    (
        "hanger|clamp",
        r"\b(?:spring|constant) hangers? (?:is |are )?(?:held|fixed|tight)$|\bclamps? (?:is |are )?(?:on|tight|fast)$",
    ),
    ("heat treated", r"^(?:not|to be) heat[- ]treated\b"),
)
#: What makes a rule against it, a thing of another time, or a warning of such words.
_BUT = (
    r"\b(?:after|until|till|before|unless|except|only|if|once|when|again|was|were|would|could|lest|instead|forbidden"
    r"|prohibited|never|suffocates?|look|search|replaced|put back|stop|stopped|neighbour\w*|for the heat|wherever)\b"
)


@RULE.for_spec
def check(case: Case) -> None:
    for each in instructions(case):
        found = _harm(each)
        if found:
            message = f"{each.what} leaves harm: {found}"
            case.add(RULE.found(message, each.at, address=each.address, basis=RULE.basis))


def _harm(each: Sentence) -> str:
    """The words that leave something in harm; "" for none."""
    words = _COLD if each.stage == AFTER else _WORDS
    if each.stage == ALWAYS and each.what not in ("a caution", "a responsibility", "a demand"):
        return ""
    for part in (*clauses(each.text), each.text):
        found = words.search(part)
        if found is None:
            continue
        rest = f"{part[: found.start()]} {part[found.end() :]}"
        if not denied(rest) and not compiled(_BUT).search(rest):
            return found[0]
    return ""
