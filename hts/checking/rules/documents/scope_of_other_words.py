"""What a job says it is for and may be applied to is the work it has."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from hts.base.findings import Label
from hts.base.quantities.number import read_number, short_text
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.job_words import Words, headings
from hts.checking.rules.helpers.sentences import denied, of_itself
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_TITLE = '"Tern Island (invented): header butt"'
_SHOW = "  show         SI and US\n"


def _scope(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, "\n    ".join((f"{_SHOW}  scope {{", *lines)) + "\n  }\n"),)


RULE = Rule(
    "D124",
    "scope-of-other-words",
    "warning",
    summary="A title, a purpose or an application that speaks of other work than the job has: preheat alone "
    "where welds are treated, a treatment nobody plans, another kind of weld, other sizes, the inlet for the outlet.",
    why="It was copied from another document; whoever approves it approves other work.",
    fix="Correct the words.",
    source="common practice, no source; set on and set in by the sketches of ASME B31.3 figure 328.5.4D",
    basis="practice",
    bad=(
        Bad(
            _scope('purpose "Preheat of one weld"'),
            at='purpose "Preheat of one weld"',
            says="speaks of preheat alone, and W12 is heat treated",
        ),
        Bad(
            ((_TITLE, '"Tern Island (invented): drain set in the header"'),),
            at="drain set in the header",
            base="branch",
            says="a branch set in, and sketch 1 of W12 is one that is not",
        ),
        Bad(
            ((_SHOW, f'{_SHOW}  scope {{\n    purpose "Preheat and stress relief"\n  }}\n'),),
            base="bake",
            at='purpose "Preheat and stress relief"',
            says="preheat and stress relief, and W12 is baked as well",
        ),
        Bad(
            ((_TITLE, '"Tern Island (invented): header butt, shop weld"'),),
            at='"Tern Island (invented): header butt, shop weld"',
            says="speaks of a shop weld, and W12 is made in field",
        ),
        Bad(
            _scope('purpose "Hydrogen release and stress relief"'),
            at='purpose "Hydrogen release and stress relief"',
            says="speaks of hydrogen release, which no weld has",
        ),
        Bad(
            _scope('application "Branch welds of the header"'),
            at='"Branch welds of the header"',
            says="applies to a branch, and W12 is a girth butt",
        ),
        Bad(
            _scope('application "Girth butts of NPS 14 to 20"'),
            at='"Girth butts of NPS 14 to 20"',
            says="applies to NPS 14 to 20, and W12 is NPS 12",
        ),
        Bad(
            (
                (_TITLE, '"Tern Island (invented): outlet header"'),
                *_scope('purpose "Stress relief of the inlet header"'),
            ),
            at='purpose "Stress relief of the inlet header"',
            says="the purpose speaks of the inlet header, the title of the outlet header",
        ),
    ),
    edges=(
        Edge(
            (
                (_TITLE, '"Tern Island (invented): leaning drain of the header"'),
                (
                    "sketch 1 cover fillet 10 mm crotch",
                    "sketch 1 cover fillet 10 mm angle {} crotch",
                ),
            ),
            keeps="89 deg",
            breaks="90 deg",
            base="branch",
            at='"Tern Island (invented): leaning drain of the header"',
            says="speaks of a leaning branch, and that of W12 is at 90 deg",
        ),
    ),
    good=(
        Good(((_TITLE, '"Tern Island (invented): set-on drain of the header"'),), "branch"),
        # By both words: which is meant is not said.
        Good(((_TITLE, '"Tern Island (invented): set on the run, set in the branch"'),), "branch"),
        Good(_scope('purpose "Preheat and stress relief of one weld"')),
        Good(
            _scope('purpose "Stress relief of one weld"', 'application "Girth butts, NPS 6 to 12"')
        ),
        Good(_scope('application "Branches and girth butts of the header"')),
        Good(
            (
                (_TITLE, '"Tern Island (invented): outlet header"'),
                *_scope('purpose "Stress relief of the inlet nozzle of the outlet header"'),
            ),
        ),
    ),
    agrees=(
        Agreement("job.scope.purpose", "cycle.purpose", "the work of the words"),
        Agreement("job.scope.application", "joint.kind", "the kinds of weld of the words"),
        Agreement("job.scope.application", "joint.pipe.NPS", "the sizes of the words"),
    ),
)

#: Words for what is done.
_PREHEAT = re.compile(r"\bpreheat", re.IGNORECASE)
_BAKE = re.compile(r"\b(?:bake-?out|baking|hydrogen release)\b", re.IGNORECASE)
_TREATED = re.compile(
    r"\b(?:stress[- ]reli\w+|PWHT|heat[- ]treat\w+|temper\w*|normali[sz]\w+|solution\w*|anneal\w*)\b",
    re.IGNORECASE,
)
_OF_KINDS = {
    "girth butt": re.compile(r"\b(?:girth|butts?|butt welds?)\b", re.IGNORECASE),
    "branch": re.compile(r"\b(?:branch(?:es)?|nozzles?|set-?(?:on|in))\b", re.IGNORECASE),
    "long seam": re.compile(r"\b(?:long(?:itudinal)?|seams?)\b", re.IGNORECASE),
    "socket": re.compile(r"\bsockets?\b", re.IGNORECASE),
    "fillet": re.compile(r"\bfillets?\b", re.IGNORECASE),
    "attachment": re.compile(r"\b(?:attachments?|lugs?|pads?)\b", re.IGNORECASE),
    "repair": re.compile(r"\brepairs?\b", re.IGNORECASE),
    "seal": re.compile(r"\bseal\b", re.IGNORECASE),
}
_SIZES = re.compile(
    r"\bNPS (\d{1,2}(?: \d/\d)?) (?:to|\.\.|-) (?:NPS )?(\d{1,2}(?: \d/\d)?)(?![\w/.])"
)
#: Words of which one is not the other, before what they tell apart.
_PAIRS = (
    ("inlet", "outlet"),
    ("suction", "discharge"),
    ("supply", "return"),
    ("feed", "effluent"),
    ("upper", "lower"),
    ("hot", "cold"),
    ("rich", "lean"),
)
_NOUNS = r"header|line|main|pipe|piping|branch|nozzle|drain|vent|weld|spool|riser|manifold|loop|leg"
_BRANCH = r"(?:branch|nozzle|drain|vent|connection|outlet)\b"
_LEANS = re.compile(
    rf"\b(?:leaning|inclined|oblique|slanting|lateral)\b(?= (?:\w+ )?{_BRANCH})", re.IGNORECASE
)
_SQUARE = re.compile(
    rf"\b(?:square|right-angled|perpendicular)\b(?= (?:\w+ )?{_BRANCH})", re.IGNORECASE
)
_RIGHT_ANGLE = 90
_PLACES = re.compile(r"\b(field|shop) (?:welds?|spools?|joints?)\b", re.IGNORECASE)
#: By sketch of the figure: set on the run, or let into it.
_SET = {"set on": ("1", "3", "5"), "set in": ("2", "4", "5")}


@RULE.for_spec
def check(case: Case) -> None:
    joints = list(case.joints())
    if not joints or not all(joint.sound for joint in case.spec.joints.values()):
        return
    for words in headings(case):
        message = (
            _work(joints, of_itself(words.text))
            or _set(joints, words.text)
            or _leaning(joints, words.text)
            or _made(joints, of_itself(words.text))
        )
        if message:
            _tell(case, joints[0], f"the {words.what} of the job speaks of {message}", words.at)
    applied = list(_applications(case))
    if applied:
        text, at = "; ".join(words.text for words in applied), applied[0].at
        message = _kinds(joints, text) or _nominal(joints, text)
        if message:
            _tell(case, joints[0], f"the job applies to {message}", at)
    for first, second in combinations([*headings(case), *applied], 2):
        message = _turned(first, second)
        if message:
            _tell(case, joints[0], message, second.at)
            return


def _tell(case: Case, joint: Joint, message: str, at: Span) -> None:
    job = case.spec.file.job
    address = job.name if job is not None and isinstance(job.name, str) else ""
    others = [Label(joint.place("names"), "a weld of the job")]
    case.add(RULE.found(message, at, address=address, others=others, basis=RULE.basis))


def _applications(case: Case) -> Iterator[Words]:
    job = case.spec.file.job
    if job is None or job.scope is None:
        return
    scope = job.scope
    for text in scope.application:
        if isinstance(text, str):
            yield Words("application", text, scope.place("application"))


def _work(joints: list[Joint], text: str) -> str:
    """What a heading says of the work that is not so; "" for nothing."""
    preheat, bake, heat = (found.search(text) for found in (_PREHEAT, _BAKE, _TREATED))
    if denied(text) or not (preheat or bake or heat):
        return ""
    planned = [joint for joint in joints if treated(joint)]
    baked = [joint for joint in joints if joint.bakes]
    if preheat and not bake and not heat and planned:
        return f"preheat alone, and {planned[0].name} is heat treated"
    if preheat and not any(joint.preheat is not None for joint in joints):
        return "preheat, which no weld has"
    if bake and not baked:
        return f"{bake[0].lower()}, which no weld has"
    if preheat and heat and not bake and len(baked) == len(joints):
        return f"preheat and {heat[0]}, and {baked[0].name} is baked as well"
    # That none is required is a cycle, too.
    if heat and not any(joint.cycles for joint in joints):
        return f"{heat[0]}, which no weld has"
    return ""


def _set(joints: list[Joint], text: str) -> str:
    """A branch that is set on by the words and set in by its sketch, or the other way round."""
    said = [words for words in _SET if re.search(words.replace(" ", "[- ]?"), text, re.IGNORECASE)]
    branches = [(joint, joint.entry.branch) for joint in joints if joint.entry.branch is not None]
    if len(said) != 1 or len(branches) != 1:
        return ""
    joint, branch = branches[0]
    if branch.sketch is None or branch.sketch in _SET[said[0]]:
        return ""
    return f"a branch {said[0]}, and sketch {branch.sketch} of {joint.name} is one that is not"


def _made(joints: list[Joint], text: str) -> str:
    """A weld of the field by the words and made in the shop by its entry, or the other way round."""
    said = {found[1].lower() for found in _PLACES.finditer(text)}
    made = {joint.entry.made for joint in joints}
    if len(said) != 1 or len(made) != 1 or None in made or said & made or denied(text):
        return ""
    return f"a {said.pop()} weld, and {joints[0].name} is made in {joints[0].entry.made}"


def _leaning(joints: list[Joint], text: str) -> str:
    """A branch that leans by the words and is square by its angle, or the other way round."""
    branches = [joint for joint in joints if joint.entry.branch is not None]
    words = _LEANS.search(text) or _SQUARE.search(text)
    entry = branches[0].entry.branch if len(branches) == 1 else None
    if entry is None or entry.angle is None or words is None or denied(text):
        return ""
    square = entry.angle.value == _RIGHT_ANGLE
    if square == bool(_SQUARE.search(text)):
        return ""
    return f"a {words[0].lower()} branch, and that of {branches[0].name} is at {entry.angle}"


def _kinds(joints: list[Joint], text: str) -> str:
    named = [kind for kind, words in _OF_KINDS.items() if words.search(text)]
    left = next((joint for joint in joints if joint.entry.kind not in named), None)
    # Any of these welds may be to a nozzle, or a repair of one.
    if not named or denied(text) or left is None or re.search(r"\b(?:all|any)\b", text):
        return ""
    return f"a {named[0]}, and {left.name} is a {left.entry.kind}"


def _nominal(joints: list[Joint], text: str) -> str:
    ranges = [
        (Fraction(read_number(found[1])), Fraction(read_number(found[2])), found[0])
        for found in _SIZES.finditer(text)
    ]
    for joint in joints if ranges else ():
        for side in joint.sides:
            size = side.nominal_size
            if size is not None and not any(low <= size <= high for low, high, _ in ranges):
                said = " and ".join(each for _, _, each in ranges)
                return f"{said}, and {joint.name} is NPS {short_text(size, 3)}"
    return ""


def _turned(first: Words, second: Words) -> str:
    """Where two texts call one thing by opposite words."""
    for pair in _PAIRS:
        for one, other in (pair, pair[::-1]):
            for noun in re.findall(
                rf"\b{one} ({_NOUNS})s?\b", of_itself(first.text), re.IGNORECASE
            ):
                if (
                    re.search(rf"\b{other} {noun}s?\b", of_itself(second.text), re.IGNORECASE)
                    and not re.search(rf"\b{other}\b", first.text, re.IGNORECASE)
                    and not re.search(rf"\b{one}\b", second.text, re.IGNORECASE)
                ):
                    return f"the {second.what} speaks of the {other} {noun}, the {first.what} of the {one} {noun}"
    return ""
