"""The figures that the words of a job give are those of its entries."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from hts.base.findings import Label
from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Dimension, Quantity
from hts.base.quantities.number import NumberError, read_number
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.job_words import headings, latest_change
from hts.checking.rules.helpers.sentences import clauses, denied, of_itself
from hts.checking.rules.helpers.topics import ANY, SIZE, TOPICS, WAIT, Known, Topic
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_SHOW = "  show         SI and US\n"
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about other\n'
    "  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{"
)


def _purpose(text: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, f'{_SHOW}  scope {{\n    purpose "{text}"\n  }}\n'),)


def _history(text: str) -> tuple[tuple[str, str], ...]:
    return (("First issue", text),)


def _checked(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "D122",
    "figure-of-other-words",
    "warning",
    summary="A title, a purpose, the last line of the history or a check that gives a temperature, a time, a "
    "width or a size of the work otherwise than the entries do.",
    why="One of the two is a slip; whoever signs goes by the words, and the crew by the entries.",
    fix="Correct the words, or the entry that is wrong.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _purpose("Stress relief at 740 degC"),
            at='"Stress relief at 740 degC"',
            says="the purpose of the job has the hold at 740 degC … 700 .. 730 degC",
        ),
        Bad(
            _history("Hold changed from 2 to 4 h"),
            at='"Hold changed from 2 to 4 h"',
            says="the history of the job has the hold at 4 h … 2 h",
        ),
        Bad(
            _history("Preheat raised to 200 degC"),
            at='"Preheat raised to 200 degC"',
            says="the preheat at 200 degC … 150 degC",
        ),
        Bad(
            _purpose("Stress relief of a header, NPS 10"),
            at='"Stress relief of a header, NPS 10"',
            says="the size at NPS 10 … NPS 12",
        ),
        Bad(
            _checked("Preheat of 100 degC all round"),
            at='"Preheat of 100 degC all round"',
            says="a check of W12 has the preheat at 100 degC … 150 degC",
        ),
    ),
    edges=(
        Edge(
            _purpose("Stress relief at {}"),
            keeps="730 degC",
            breaks="731 degC",
            at='"Stress relief at 731 degC"',
            says="at 731 degC … 700 .. 730 degC",
        ),
        Edge(
            _history("Preheat raised to {}"),
            keeps="150 degC",
            breaks="151 degC",
            at='"Preheat raised to 151 degC"',
            says="at 151 degC … 150 degC",
        ),
        Edge(
            _history("Hold changed from 1 to {}"),
            keeps="2.04 h",
            breaks="2.05 h",
            at='"Hold changed from 1 to 2.05 h"',
            says="at 2.05 h … 2 h",
        ),
        Edge(
            (
                *_history("Wait between welding and stress relief limited to {}"),
                ("  rate margin  ", "  begin within 48 h\n  rate margin  "),
            ),
            keeps="48.9 h",
            breaks="49 h",
            at='"Wait between welding and stress relief limited to 49 h"',
            says="has the wait at 49 h … 48 h",
        ),
        Edge(
            _checked("Preheat of {} all round"),
            keeps="150 degC",
            breaks="149 degC",
            at='"Preheat of 149 degC all round"',
            says="at 149 degC … 150 degC",
        ),
    ),
    good=(
        Good(_purpose("Stress relief at 1320 degF")),
        Good(_purpose("Stress relief with a margin of 20 degC")),
        Good(_purpose("Stress relief of a header NPS 12 beside a header NPS 10")),
        Good(_history("Hold lowered from 760 degC")),
        Good(_history("Wait between preheat and stress relief limited to 48 h")),
        Good(_checked("Preheat read on a probe up to 400 degC")),
    ),
    agrees=(
        Agreement("job.scope.purpose", "cycle.hold.range", "the figures of the words"),
        Agreement("job.history.history line.change", "cycle.hold.for", "the figures of the words"),
        Agreement("before heat.check.text", "preheat.at least", "the figures of the words"),
    ),
)


_NPS = re.compile(r"\bNPS (\d{1,2}(?: \d/\d)?|\d/\d)(?![\w/.]| (?:to|and|or|-|\.\.) ?\d)")
#: A figure with a unit; the word before it, and the lower end of a range.
_FIGURE = re.compile(
    r"(?:\b(from|than|was|formerly|of old|instead of|\d ?h) )?(?:(\d+(?:\.\d+)?) ?(?:to|-|\u2013|\.\.) ?)?"
    r"(?<![\w.])(\d+(?:\.\d+)?) ?(deg ?[CF]|\u00b0 ?[CF]|h|hours?|min|minutes|mm|in)\b(?! ?/)"
)
#: Words of another figure beside a topic.
_ELSE = re.compile(
    r"\b(?:margin|critical|spread|alarms?|control|cool\w*|wait|within|delay|between|after|before|until|error|class"
    r"|tolerance|ramp|rates?|every|reading|probe|range|above|below|up to|at most|limit\w*|exceed\w*|less|more"
    r"|longer|shorter|wider|by|start\w*|begin\w*|end\w*|insulat\w*|edge|lowest|highest|thermocouples?|wall|qualif\w*"
    r"|test\w*|runs?|running|service|operat\w*|design\w*|works?|working|used?|welded|overlap|walls?|thick\w*|each)\b",
    re.IGNORECASE,
)
#: Behind a figure that is a difference, or of hours and minutes.
_COMPARED = re.compile(
    r" \d+ ?min\b| (?:\w+ )?(?:longer|shorter|wider|narrower|hotter|colder|higher|lower|more|less|further|earlier|later|above"
    r"|below|apart|beyond|from)\b"
)
#: What may stand between a topic and its figure where the sentence is not of the job alone.
_BESIDE = re.compile(
    r"(?:[ :]*\b(?:of|at|is|to|temperature|reached|held|kept|least|not|=)\b)*[ :]*$", re.IGNORECASE
)
#: degC, and what a time or a width may be off, in parts of it: what is rounded is no slip.
_ROUNDED, _SHARE = Fraction(1), Fraction(1, 50)


@RULE.for_spec
def check(case: Case) -> None:
    joints = list(case.joints())
    job = case.spec.file.job
    if not joints or not all(joint.sound for joint in case.spec.joints.values()):
        return
    address = job.name if job is not None and isinstance(job.name, str) else ""
    for words in (*headings(case), *latest_change(case)):
        for topic, said, figure in _figures(words.text):
            _judge(
                case, joints, topic, said, figure, f"the {words.what} of the job", words.at, address
            )
    for joint in joints:
        for block in (*joint.before, *joint.during):
            for item in block.checks if block.sound else ():
                for topic, said, figure in _of_a_check(item.text):
                    what = f"a check of {joint.name}"
                    _judge(
                        case, [joint], topic, said, figure, what, item.place("text"), joint.address
                    )


@lru_cache(maxsize=256)
def _of_a_check(text: str) -> tuple[tuple[Topic, str, Quantity], ...]:
    """One list of checks is for many joints."""
    return tuple(_figures(text, beside=True))


def _judge(
    case: Case,
    joints: list[Joint],
    topic: Topic,
    said: str,
    figure: Quantity,
    what: str,
    at: Span,
    address: str,
) -> None:
    """Holds a figure against what the entries of the joints give for its topic."""
    known: list[Known] = []
    for joint in joints:
        for each in topic.known(case, joint):
            if each is None:
                return
            if _fits(figure, each):
                return
            known.append(each)
    if not known:
        return
    given = " and ".join(dict.fromkeys(each.said for each in known[:3]))
    case.add(
        RULE.found(
            f"{what} has the {topic.what} at {said}, and the entries say {given}",
            at,
            address=address,
            others=[Label(known[0].at, "the entry")],
            basis=RULE.basis,
        )
    )


def _fits(figure: Quantity, known: Known) -> bool:
    if figure.dimension is TEMPERATURE:
        # A figure in another unit is a round one.
        off = Fraction(0) if figure.unit == known.high.unit else _ROUNDED
        return known.low.value - off <= figure.value <= known.high.value + off
    off = known.high.value * _SHARE
    return known.low.value - off <= figure.value <= known.high.value + off


def _figures(text: str, beside: bool = False) -> Iterator[tuple[Topic, str, Quantity]]:
    """The figures of a text with the topic each is of: the nearest before it, in its clause.
    ``beside``: only those right beside the topic of a preheat."""
    topic = ""
    # Between welding and treatment lies a wait, and no neighbour.
    for part in clauses(text if WAIT.words.search(text) else of_itself(text)):
        named = [found[0] for found in ANY.finditer(part)]
        # What begins with a figure goes on about what was named last: "Stress relief, 2 h at 700 degC".
        clause = f"{topic} {part}" if not named and _FIGURE.match(part) and not beside else part
        topic = named[-1] if named else topic
        if denied(clause):
            continue
        if not beside:
            for found in _NPS.finditer(clause):
                size = Quantity.of(read_number(found[1]), "in", LENGTH)
                yield SIZE, f"NPS {found[1]}", size
        for found in _FIGURE.finditer(clause):
            low = None if found[1] else found[2]
            if (found[1] and not found[2]) or _COMPARED.match(clause, found.end()):
                continue
            for number in (low, found[3]):
                if number is not None:
                    yield from _of_topic(clause, found, number, beside)


def _of_topic(
    clause: str, found: re.Match[str], number: str, beside: bool
) -> Iterator[tuple[Topic, str, Quantity]]:
    unit, dimension = _unit(found[4])
    before = clause[: found.start()]
    if WAIT.words.search(before) and dimension is TIME and not beside:
        yield WAIT, f"{number} {unit}", Quantity.of(read_number(number), unit, dimension)
        return
    topics = [
        (list(topic.words.finditer(before))[-1].end(), topic)
        for topic in TOPICS
        if topic.words.search(before)
    ]
    if not topics:
        return
    end, nearest = max(topics, key=lambda each: each[0])
    if beside and (nearest.what != "preheat" or not _BESIDE.match(before[end:])):
        return
    between = _FIGURE.sub("", before[end:])
    if not beside and (_ELSE.search(before) or re.search(r"\d", between)):
        return
    topic = next((t for at, t in topics if at == end and t.dimension is dimension), None)
    try:
        if topic is not None:
            yield topic, f"{number} {unit}", Quantity.of(read_number(number), unit, dimension)
    except NumberError:
        return


def _unit(text: str) -> tuple[str, Dimension]:
    if text[0] in "d\u00b0":
        return f"deg{text[-1]}", TEMPERATURE
    if text in ("mm", "in"):
        return text, LENGTH
    return ("h" if text[0] == "h" else "min"), TIME
