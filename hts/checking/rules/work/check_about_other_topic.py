"""A check says the topic its words are about."""

from __future__ import annotations

import re
from functools import lru_cache

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.work import Check, Point

#: Words that tell a topic. A text may tell several; one that tells none is not judged.
_TELLING = {
    "documents": r"documents?\b|drawings? on site",
    "permit": r"permit",
    "isolation": r"isolat|blinded|spades?\b|locked out|\bshut\b.*\block",
    "gas test": r"\bgas\b|gas.free|purge|argon|oxygen",
    "drained and vented": r"drain|vented|\bvents? (?:is |are )?open|emptied|liquid",
    "attachments removed": r"attachments?\b|temporary lugs?\b",
    "machined faces protected": r"machined|flange faces?|threads?\b",
    "ends closed": r"\bends?\b|draught|capped",
    "supports": r"hanger|support|hoist|\bshoe|trestle|saddle|\bclamp|crane|\bsling|\bspring",
    "flanges unbolted": r"bolt",
    "nearby items protected": r"\bseats?\b|packing|gasket|coating|nearby|\bvalve|heat shield|\bpaint",
    "heater continuity": r"continu",
    "zones match drawing": r"\bzones?\b",
    "thermocouple map": r"on the map|thermocouples? (as|where)|places? of (the )?thermocouple",
    "tag matches channel": r"\btags?\b|by hand|\bwarmed\b|on its (?:own )?channel",
    "polarity": r"polarity|\breversed\b",
    "spares connected": r"\bspares?\b",
    "junctions shielded": r"junctions?\b",
    "cable rating": r"cables? (rated|rating|size)|rating of (the )?cable",
    "recorder set": r"recorder",
    "channel map": r"\bchannels?\b",
    "calibration in date": r"calibrat",
    "program matches procedure": r"\bprogram",
    "power and standby": r"standby|generator|second supply",
    "fire watch": r"\bfire\b",
    "barriers and signs": r"barrier|\bsigns?\b",
    "lighting and access": r"\blights?\b|lighting|scaffold|\baccess|ladder",
    "insulation complete": r"insulation (complete|laid|in place)|blankets?\b",
    "surface condition": r"\bdry\b|\bclean|\bscale\b|\brust",
    "hot-surface warning": r"hot.surface",
}

#: Tools, clothing and ends of other things: their words tell no topic.
_OTHER_THINGS = re.compile(
    r"\b(?:safety|work|rubber|insulating|brake) (?:shoes?|boots?)|\bshoes?(?=[^;:.]*\bworn\b)"
    r"|\bclamp[ -]?(?:on )?(?:meters?|ammeters?|probes?)|\bmeter clamps?"
    r"|\b(?:earth(?:ing)?|ground(?:ing)?|return|welding|hose|cable|lead|pipe-to-earth|bonding) clamps?"
    r"|\bclamps? of the (?:earth|leads?|cables?|hoses?)|\bspring (?:balance|scale|washer|clip)s?"
    r"|\b(?:stands?|set|sets|lies?|lie|rests?|kept) on (?:its|a|the|their|two) (?:trestles?|saddles?|supports?)"
    r"|\bcable (?:supports?|trestles?|saddles?|hangers?|clamps?)|\b(?:sling|scaffold|ladder) tags?"
    r"|\bsupports? (?:crew|team|of the (?:cables?|leads?))"
    r"|\bneighbou?r[^,;:.]*|[^,;:.]* (?:of|on) (?:the |a )?neighbou?r[^,;:.]*"
    r"|\bgas (?:bottles?|cylinders?|masks?|torch|torches|cutting|heaters?)|\b(?:lead|cable|wire|tail)s?[ -]ends?"
    r"|\bends? of (?:the |each |all )?(?:leads?|cables?|wires?|tails?|shift|heat|hold|work|job)"
    r"|\b(?:heat|hold|shift|work|job|cycle|run) ends?\b|\bto scale\b|\bdry (?:gloves?|clothes|clothing|feet)"
    r"|\bclean (?:gloves?|clothes|clothing|rags?)|\bspare (?:gloves?|batter(?:y|ies)|fuses?|pens?|paper|hands?)",
    re.IGNORECASE,
)

RULE = Rule(
    "K101",
    "check-about-other-topic",
    "warning",
    summary="A check or a point of the inspection plan whose words are plainly about a topic other "
    "than the one stated.",
    why="Rules and papers sort checks by topic: this one counts for something it does not look "
    "at, and what it does look at counts as unchecked.",
    fix="State the topic the words are about.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "controller C1 {",
                    'during heat W12 {\n  check "Rod hanger pinned" about fire watch\n}\n\n'
                    "controller C1 {",
                ),
            ),
            at="fire watch",
        ),
        Bad(
            (
                (
                    "controller C1 {",
                    'during heat W12 {\n  hold point "Rod hanger pinned" about fire watch by "Owner"\n}\n\n'
                    "controller C1 {",
                ),
            ),
            at="fire watch",
        ),
    ),
    good=(
        Good(
            (
                (
                    "controller C1 {",
                    'during heat W12 {\n  check "Rod hanger pinned" about supports\n'
                    '  check "Weld below 93 degC all round" about other\n'
                    '  check "Safety shoes and gloves worn" about other\n'
                    '  check "Clamp meter reads each circuit" about heater continuity\n'
                    '  check "No gas in the bore, vent open" about drained and vented\n'
                    '  check "Power set stands on its trestle" about power and standby\n'
                    '  check "No extension reversed: readings rise when warmed" about polarity\n'
                    '  check "Firewater main shut, locked and emptied" about isolation\n'
                    "}\n\ncontroller C1 {",
                ),
            )
        ),
    ),
    agrees=(
        Agreement("before heat.check.about", "before heat.check.text", "the topic of the words"),
        Agreement("during heat.check.about", "during heat.check.text", "the topic of the words"),
        Agreement("after heat.check.about", "after heat.check.text", "the topic of the words"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    for block in (*file.before, *file.during, *file.after):
        items: list[Check | Point] = [*block.checks, *block.hold_points]
        items += [*block.witness_points, *block.review_points]
        for item in items if block.sound else ():
            told = topics(item.text) if item.about is not None else ()
            if told and item.about not in told:
                case.add(_finding(item, told))


@lru_cache(maxsize=1024)
def topics(text: str) -> tuple[str, ...]:
    """The topics the words of a check tell."""
    lower = _OTHER_THINGS.sub(" ", text.lower())
    return tuple(topic for topic, words in _TELLING.items() if re.search(words, lower))


def _finding(item: Check | Point, told: tuple[str, ...]):  # type: ignore[no-untyped-def]
    return RULE.found(
        f'"{item.text}" is stated to be about {item.about}; its words are about {" and ".join(told)}',
        item.place("about"),
        address=item.address,
        help=f"write: about {told[0]}",
        basis=RULE.basis,
    )
