"""Temperatures in cautions and checks are those of the cycle."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from typing import NamedTuple

from hts.base.findings import Finding, Label
from hts.base.quantities import DIFFERENCE, TEMPERATURE, Quantity, QuantityError
from hts.base.quantities.number import read_number
from hts.base.text import Source, Span
from hts.checking.govern.applying import applies
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import rows
from hts.checking.rules.helpers.critical import criticals
from hts.checking.rules.helpers.rows import own_procedures, place
from hts.checking.rules.helpers.sentences import clauses, denied
from hts.checking.rules.helpers.steps import holds, treated
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.procedure import Procedure

#: What a sentence says of a temperature: up to, above or below a figure.
_FIGURE = re.compile(
    r"(?:\b(up to|above|over|below|under) )?(\d+(?:\.\d+)?) ?(?:deg ?|\u00b0 ?)([CF])\b",
    re.IGNORECASE,
)
_SURFACES = re.compile(r"\bsurfaces?\b", re.IGNORECASE)
#: Surfaces that are not those of the heated metal.
_COOLER = re.compile(
    r"\binsulat|\bout(?:er|side)\b|\bbeside\b|\bnear|\bnext\b|\bcab(?:le|inet)|\bleads?\b|\bblanket|\bboards?\b"
    r"|\bcas(?:e|ing)s?\b|\bjacket|\bunheated\b|\bbeyond\b|\bclad|\btransformer|\btouch",
    re.IGNORECASE,
)
_SCRAP = re.compile(r"\bscrap|\blost\b|\bruin|\bspoil", re.IGNORECASE)
_WELD = re.compile(r"\b(?:welds?|joints?|metal|steel|grade|P\d\d)\b", re.IGNORECASE)
_COOLED = re.compile(r"\b(?:welds?|joints?|metal|steel|cold|cooled|cools?)\b", re.IGNORECASE)
#: Sentences of another temperature of the same weld.
_OF_OTHER_STEPS = re.compile(
    r"\b(?:preheat|interpass|bak(?:e|ed|ing)|hold|held|heat(?:ed|ing)|seats?|packing|gasket|coating|probe|crayon)\b",
    re.IGNORECASE,
)
#: A figure in another unit is a round one: the last degree of it tells nothing.
_ROUNDED = Quantity.of(1, "K", DIFFERENCE)
#: So much colder somebody may want the weld to be before it is heated.
_STRICTER = Quantity.of(20, "K", DIFFERENCE)
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n{}}}\n\ncontroller C1 {{"
)


def _more(line: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(line)),)


RULE = Rule(
    "K121",
    "sentence-unlike-cycle",
    "warning",
    summary="A caution that calls surfaces colder than the hold, or a temperature of the hold itself, "
    "or one far above all limits, the one that spoils the weld; a check of how far the weld has "
    "cooled with another figure than the cycle.",
    why="At the pipe the sentence is read, and not the line of the cycle.",
    fix="Write into the sentence what the cycle says.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                *_more('  check "Weld above 93 degC all round" about other\n'),
                ("  rate margin  ", "  first cool below 93 degC\n  rate margin  "),
            ),
            at='"Weld above 93 degC all round"',
            says="the weld above 93 degC, which the cycle wants below it",
        ),
        Bad(
            _more('  caution "Above 870 degC the weld is scrap"\n'),
            at='"Above 870 degC the weld is scrap"',
            says="spoiled above 870 degC … up to 730 degC",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    '  holding spread at most 25 K\n  hold temperature at most 730 degC\n  caution "Surfaces up to {}"',
                ),
            ),
            keeps="730 degC",
            breaks="729 degC",
            base="owner",
            at='"Surfaces up to 729 degC"',
            says="up to 729 degC … up to 730 degC",
        ),
        Edge(
            _more('  caution "Surfaces up to {}"\n'),
            keeps="730 degC",
            breaks="729 degC",
            at='"Surfaces up to 729 degC"',
            says="up to 729 degC … up to 730 degC",
        ),
        Edge(
            _more('  caution "Below {} the weld is scrap"\n'),
            keeps="700 degC",
            breaks="701 degC",
            at='"Below 701 degC the weld is scrap"',
            says="spoiled below 701 degC … up to 730 degC",
        ),
        Edge(
            _more('  caution "Above {} the weld is scrap"\n'),
            keeps="730 degC",
            breaks="729 degC",
            at='"Above 729 degC the weld is scrap"',
            says="spoiled above 729 degC … up to 730 degC",
        ),
        Edge(
            (
                *_more('  check "Weld below {} all round" about other\n'),
                ("  rate margin  ", "  first cool below 93 degC\n  rate margin  "),
            ),
            keeps="93 degC",
            breaks="94 degC",
            at='"Weld below 94 degC all round"',
            says="below 94 degC … below 93 degC",
        ),
        Edge(
            (
                *_more('  check "Weld below {} all round" about other\n'),
                ("  rate margin  ", "  first cool below 93 degC\n  rate margin  "),
            ),
            keeps="73 degC",
            breaks="72 degC",
            at='"Weld below 72 degC all round"',
            says="below 72 degC … below 93 degC",
        ),
    ),
    good=(
        Good(_more('  caution "Above 770 degC the weld is scrap"\n')),
        Good(_more('  caution "Below 150 degC before the bake the weld is lost"\n')),
        Good(_more('  caution "Leads up to 60 degC"\n')),
        Good(
            _more('  caution "Surfaces beside the insulation up to 120 degC, under it 730 degC"\n')
        ),
        Good(
            (
                *_more(
                    '  check "Weld nowhere above 93 degC" about other\n'
                    '  check "Weld below 199 degF" about other\n'
                    '  check "Cable sheaths below 60 degC" about other\n'
                ),
                ("  rate margin  ", "  first cool below 93 degC\n  rate margin  "),
            )
        ),
    ),
    agrees=(
        Agreement("before heat.caution", "cycle.hold.range", "surfaces are as hot as the hold"),
        Agreement("before heat.check.text", "cycle.first cool below", "the same temperature"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    hot: list[tuple[Joint, _Held]] = []
    for joint in case.joints():
        held = _held(case, joint)
        if held is None:
            continue
        hot.append((joint, held))
        for block in (*joint.before, *joint.during, *joint.after):
            if block.sound:
                _look(case, joint.name, joint, held, block.source, block.start, block.cautions)
        _look_at_checks(case, joint)
    _look_at_own(case)
    for authority in case.authorities:
        procedure = authority.procedure
        if procedure is None or not procedure.cautions:
            continue
        followed = [each for each in hot if applies(procedure, case.limits(each[0]))]
        if followed:
            joint, held = max(followed, key=lambda each: each[1].top)
            lines = procedure.source, procedure.start, procedure.cautions
            _look(case, procedure.name, joint, held, *lines)


def _look_at_own(case: Case) -> None:
    """Cautions of a procedure against the temperatures it allows itself."""
    for procedure in own_procedures(case):
        tops = list(_tops(procedure)) if procedure.cautions else []
        if not tops:
            continue
        top, at = max(tops, key=lambda each: each[0])
        for text in procedure.cautions:
            wrong = _of_surfaces(text, top)
            found = procedure.source.text.find(f'"{text}"', procedure.start) if wrong else -1
            if found >= 0:
                message = f"a caution of {procedure.name} has {wrong}; it allows holds up to {top}"
                at_caution = procedure.source.span(found, found + len(text) + 2)
                others = [Label(at, "the hold")]
                case.add(
                    RULE.found(
                        message, at_caution, address=procedure.name, others=others, basis=RULE.basis
                    )
                )


def _tops(procedure: Procedure) -> Iterator[tuple[Quantity, Span]]:
    """The highest temperatures that rows of a procedure allow, where they state them."""
    for row in rows(procedure):
        if row.quantity == "hold temperature" and row.maximum is not None:
            with suppress(QuantityError):
                yield Quantity.read(row.maximum.text, TEMPERATURE), place(procedure, row, "maximum")


class _Held(NamedTuple):
    """The highest that a joint is held at, where that hold begins, and by which treatment."""

    top: Quantity
    bottom: Quantity
    treatment: Treatment


def _held(case: Case, joint: Joint) -> _Held | None:
    cycles = treated(joint)
    if not all(cycle.entry.sound for cycle in cycles):
        return None
    ranges = [
        _Held(held.high, held.low, each)
        for each in cycles
        for _, held in holds(case, each)
        if held.low is not None and held.high is not None
    ]
    return max(ranges, key=lambda each: each.top, default=None)


def _look(
    case: Case, whose: str, joint: Joint, held: _Held, source: Source, start: int, texts: list[str]
) -> None:
    """At the cautions of a list or a procedure, which begins at ``start``."""
    for text in texts:
        wrong = _of_surfaces(text, held.top) or _of_scrap(joint, text, held)
        if wrong:
            found = source.text.find(f'"{text}"', start)
            if found >= 0:
                message = f"a caution of {whose} has {wrong}; {held.treatment.name} holds up to {held.top}"
                at = source.span(found, found + len(text) + 2)
                case.add(_finding(joint, message, at, held.treatment.place("name")))


def _look_at_checks(case: Case, joint: Joint) -> None:
    asked = _cooled(treated(joint))
    if asked is None:
        return
    for block in joint.before:
        for item in block.checks if block.sound else ():
            for word, figure in _of_the_cold_weld(item.text):
                # The same figure, or another one, from which the weld has to be cold.
                alike = _alike(figure, asked[0])
                turned = word == "above" and alike
                # A little colder than asked for is as well.
                stricter = asked[0] - _STRICTER <= figure <= asked[0]
                if not (turned or (word == "below" and not alike and not stricter)):
                    continue
                wanted = "which the cycle wants below it"
                if not turned:
                    wanted = f"the cycle below {asked[0]} first"
                message = f"a check of {joint.name} has the weld {word} {figure}, {wanted}"
                case.add(_finding(joint, message, item.place("text"), asked[1]))


def _finding(joint: Joint, message: str, at: Span, cycle: Span) -> Finding:
    others = [Label(cycle, "the cycle")]
    return RULE.found(message, at, address=joint.address, others=others, basis=RULE.basis)


def _figures(text: str) -> Iterator[tuple[str, Quantity]]:
    """What a sentence says of temperatures: the word before each, "" for none, and the figure.

    Words of one meaning are one, and what is denied is turned round: `nowhere above` says below.
    """
    for found in _FIGURE.finditer(text):
        word = _SAME.get((found[1] or "").lower(), (found[1] or "").lower())
        if denied(text[: found.start()]):
            word = _TURNED.get(word, word)
        yield word, Quantity.of(read_number(found[2]), f"deg{found[3].upper()}", TEMPERATURE)


_SAME = {"over": "above", "under": "below"}
_TURNED = {"above": "below", "below": "above"}


def _of_the_cold_weld(text: str) -> Iterator[tuple[str, Quantity]]:
    """The figures of the clauses of a check that speak of a weld that has cooled."""
    for clause in clauses(text):
        if _COOLED.search(clause) and not _OF_OTHER_STEPS.search(clause):
            yield from _figures(clause)


def _alike(figure: Quantity, other: Quantity) -> bool:
    """Whether two temperatures are one, up to rounding where one stands in another unit."""
    if figure.unit == other.unit:
        return figure == other
    return other - _ROUNDED <= figure <= other + _ROUNDED


def _of_surfaces(text: str, top: Quantity) -> str:
    """What a caution has wrong of hot surfaces; "" for nothing. The highest figure of it counts."""
    figures = [figure for _, figure in _figures(text)]
    said = any(
        word == "up to"
        for clause in clauses(text)
        if _SURFACES.search(clause) and not _COOLER.search(clause)
        for word, _ in _figures(clause)
    )
    if not said or max(figures) >= top or _alike(max(figures), top):
        return ""
    return f"surfaces up to {max(figures)}"


def _of_scrap(joint: Joint, text: str, held: _Held) -> str:
    """What a caution has wrong of the temperature that spoils a weld; "" for nothing."""
    if not _SCRAP.search(text) or not _WELD.search(text):
        return ""
    lowest = next((each.value for each in criticals(joint)), None)
    for word, figure in _figures(text):
        if word == "below" and figure > held.bottom:
            return f"the weld spoiled below {figure}"
        too_low = figure < held.top and not _alike(figure, held.top)
        too_high = lowest is not None and figure > lowest and not _alike(figure, lowest)
        if word == "above" and (too_low or too_high):
            return f"the weld spoiled above {figure}"
    return ""


def _cooled(cycles: list[Treatment]) -> tuple[Quantity, Span] | None:
    """How cold a weld has to be before its treatment, and where that is said."""
    for each in cycles:
        cycle = each.cycle
        if cycle is not None and cycle.cooled_below is not None:
            return cycle.cooled_below, cycle.place("cooled_below")
    return None
