"""The welds that the words of a job name and count are those it has."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted, few
from hts.checking.rules.helpers.job_words import Words, headings, latest_change
from hts.checking.rules.helpers.sentences import NUMBERS, clauses, denied, of_itself
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_TITLE = '"Tern Island (invented): header butt"'
_SHOW = "  show         SI and US\n"


def _purpose(text: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, f'{_SHOW}  scope {{\n    purpose "{text}"\n  }}\n'),)


RULE = Rule(
    "D121",
    "weld-of-other-words",
    "warning",
    summary="A title, a purpose, a line of the history, a responsibility or a list of checks that names a "
    "weld the job does not have, or counts more or fewer welds than it has.",
    why="A weld that was left out, or copied along from another job, is treated by nobody or twice.",
    fix="Correct the words, or write the weld that is missing.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _purpose("Stress relief of W12 and W13"),
            at='"Stress relief of W12 and W13"',
            says="the purpose of the job names W13 … W12",
        ),
        Bad(
            _purpose("Stress relief of two closing welds"),
            at='"Stress relief of two closing welds"',
            says="the purpose of the job speaks of two welds … has 1 weld",
        ),
        Bad(
            _purpose("Stress relief of three tie-in welds"),
            at='"Stress relief of three tie-in welds"',
            says="three welds … has 1 weld",
        ),
        Bad(((_TITLE, '"Tern Island (invented): header butt W13"'),), at="header butt W13"),
        Bad(
            (
                ("joint W12 {", "joint W12, W14 {"),
                ("cycle stress-relief for W12 {", "cycle stress-relief for W12, W14 {"),
                ("preheat W12 {", "preheat W12, W14 {"),
                ("First issue", "W12 and W14 heated together"),
            ),
            at="heated together",
            says="the history of the job speaks of W12 and W14 heated together",
        ),
        Bad(
            (("First issue", "W13 added"),),
            at='"W13 added"',
            says="the history of the job names W13",
        ),
        Bad(
            (
                ("revision     A on 2026-10-02", "revision     B on 2026-10-09"),
                (
                    'A on 2026-10-02 "First issue"',
                    'A on 2026-10-02 "W13 added"\n    B on 2026-10-09 "Hold time corrected"',
                ),
            ),
            at='"W13 added"',
            says="the history of the job names W13",
        ),
        Bad(
            (
                (
                    _SHOW,
                    f'{_SHOW}  responsibility "Piping engineer" "Pins the hangers of W13"\n',
                ),
            ),
            at='"Pins the hangers of W13"',
        ),
    ),
    good=(
        Good(_purpose("Stress relief of W12, after W13 of the branch")),
        Good(_purpose("Stress relief of one of the three welds of the header")),
        Good(_purpose("Stress relief of one weld by program W14")),
        Good(_purpose("Stress relief of one tie-in weld of two spools")),
        Good(_purpose("Stress relief of the hub welds of one jumper, NPS 12 butt welds")),
        Good(_purpose("Stress relief of one spool with two welds")),
        Good((("First issue", "W13 taken out"),)),
        Good(
            (
                ("revision     A on 2026-10-02", "revision     B on 2026-10-09"),
                (
                    'A on 2026-10-02 "First issue"',
                    'A on 2026-10-02 "W13 added"\n    B on 2026-10-09 "W13 moved to HT-0002"',
                ),
            )
        ),
    ),
    agrees=(
        Agreement("job.scope.purpose", "joint", "the welds of the words"),
        Agreement("job.history.history line.change", "joint", "the welds of the words"),
    ),
)

#: A number, up to three words for the kind of weld, and the welds: of figures, where they are no name.
_COUNTED = re.compile(
    rf"\b({'|'.join(NUMBERS)}|both|(?:(?<=of )|(?<=the )|(?<=for ))\d{{1,3}})((?: [a-z][\w-]*){{0,3}}?)"
    r" (welds?|joints?|butts?)\b(?!-)",
    re.IGNORECASE,
)
#: Words between a number and a weld of which the number is not that of welds.
_OF_OTHERS = re.compile(
    rf"(?<![\w-])(?:with|in|at|on|by|for|to|from|and|or|of|its|their|inch|mm|h|deg\w|nps|dn|expansion|flanged?|bolted"
    rf"|threaded|{'|'.join(NUMBERS)})(?![\w-])",
    re.IGNORECASE,
)
#: Where a number is not that of the whole job.
_PART = re.compile(
    r"\b(?:each|every|per|remaining|others?|more|further|next|previous|earlier|last|first|rest|for all|among|least"
    r"|most|than|up to|if|when|types?|kinds?|sizes?|pass|passes"
    rf"|of (?:the|all|these|those) (?:{'|'.join(NUMBERS)}|\d+))\b",
    re.IGNORECASE,
)
_NAME = re.compile(r"(?<![\w./-])([A-Z]{1,4})(\d{1,4})([A-Za-z]?)(?![\w-]|[./]\d)")
#: What a name behind one of these words is that of; and a weld that is no longer there.
_OTHERWISE = re.compile(
    r"(?:program|procedure|drawing|report|permit|thermocouple|channel|recorder|controller|unit|area|vessel|tank|pump"
    r"|exchanger|grade|steel|filler|electrode|wire|line|spool|wps|pqr|revision|rev\.?|hanger|support|winch|crane"
    r"|valve|welder|column|row|zone|tag|no\.?|number) ?$",
    re.IGNORECASE,
)
_GONE = re.compile(
    r"\b(?:taken out|left out|left off|removed|dropped|deleted|moved|moves|cancelled|struck|withdrawn|gone|cut out|was|were"
    r"|formerly|earlier|renamed|instead|replace[sd]?|replaced|split|see)\b",
    re.IGNORECASE,
)
_GRADES = re.compile(r"(?:WP|FP|P|F|T|TP|A|X)\d")


@RULE.for_spec
def check(case: Case) -> None:
    joints = list(case.joints())
    job = case.spec.file.job
    # With one that cannot be read the job has more welds than are known.
    if job is None or not joints or not all(joint.sound for joint in case.spec.joints.values()):
        return
    for words in _of_the_job(case):
        message = _named(case, words.text)
        if message:
            _told(case, words, f"the {words.what} of the job names {message}", joints[0])
    for words in latest_change(case):
        message = _together(joints, words.text) or _of_a_list(case, words.text)
        if message:
            _told(case, words, f"the {words.what} of the job speaks of {message}", joints[0])
    for words in headings(case):
        message = _count(joints, words.text)
        if message:
            _told(case, words, f"the {words.what} of the job speaks of {message}", joints[0])


def _told(case: Case, words: Words, message: str, joint: Joint) -> None:
    job = case.spec.file.job
    others = [Label(joint.place("names"), "a weld of the job")]
    address = job.name if job is not None and isinstance(job.name, str) else ""
    case.add(RULE.found(message, words.at, address=address, others=others, basis=RULE.basis))


def _of_the_job(case: Case) -> Iterator[Words]:
    yield from headings(case)
    yield from latest_change(case)
    yield from _added_before(case)
    job = case.spec.file.job
    for entry in job.responsibilities if job is not None else ():
        if isinstance(entry.duty, str):
            yield Words("responsibility", entry.duty, entry.place("duty"))


def _added_before(case: Case) -> Iterator[Words]:
    """What an earlier revision added: it is still there, where no later one speaks of it."""
    job = case.spec.file.job
    lines = job.history.lines if job is not None and job.history is not None else []
    for number, line in enumerate(lines[:-1]):
        later = " ".join(
            each.change for each in lines[number + 1 :] if isinstance(each.change, str)
        )
        if not isinstance(line.change, str) or (_NAME.search(later) and _GONE.search(later)):
            continue
        for clause in clauses(line.change):
            if re.search(r"\badded$", clause):
                yield Words("history", clause, line.place("change"))


def _named(case: Case, text: str) -> str:
    """A weld that a text names and the job does not have; "" for none."""
    known = case.spec.joints
    candidates: list[str] = []
    for clause in clauses(of_itself(text)):
        if _GONE.search(clause) or denied(clause):
            continue
        candidates += [
            found[0]
            for found in _NAME.finditer(clause)
            if found[0] not in known
            and not _GRADES.match(found[0])
            and not _OTHERWISE.search(clause[: found.start()])
        ]
    if not candidates:
        return ""
    shapes, own = {_shape(name) for name in known}, _names_of_all(case)
    odd = next((name for name in candidates if _shape(name) in shapes and name not in own), None)
    return f"{odd}, and its welds are {few(sorted(known))}" if odd is not None else ""


def _together(joints: list[Joint], text: str) -> str:
    """Welds that a text has heated together and no cycle has so; "" for none."""
    by_name = {joint.name: joint for joint in joints}
    for clause in clauses(text):
        named = [found[0] for found in _NAME.finditer(clause) if found[0] in by_name]
        if "heated together" not in clause or len(named) < 2 or denied(clause):
            continue
        cycles = [each.cycle for each in by_name[named[0]].cycles if each.cycle is not None]
        if cycles and not any(
            cycle.together and set(named) <= {each.name for each in cycle.joints}
            for cycle in cycles
        ):
            return f"{' and '.join(named)} heated together, and no cycle is for them together"
    return ""


def _of_a_list(case: Case, text: str) -> str:
    """A revision of the weld list that is not the one read; "" for none."""
    found = re.search(r"\brev(?:ision|\.)? ?(\w+) of the weld list", text, re.IGNORECASE)
    revisions = [listed.revision for listed in case.spec.weld_lists]
    if found is None or not revisions or None in revisions or found[1] in revisions:
        return ""
    return f"revision {found[1]} of the weld list, and it is revision {revisions[0]}"


def _shape(name: str) -> str:
    """The letters a name begins with."""
    found = _NAME.fullmatch(name)
    return found[1] if found is not None else ""


def _names_of_all(case: Case) -> set[str]:
    """What else has a name in the job, and may be meant."""
    file = case.spec.file
    named: list[Any] = [
        *file.recorders,
        *file.controllers,
        *file.power_sources,
        *file.materials,
        *file.fillers,
        *file.procedures,
    ]
    found = {str(each.name) for each in named}
    for joint in case.spec.joints.values():
        found |= {tc.tag for tc in joint.thermocouples} | {zone.name for zone in joint.zones}
    return found


def _count(joints: list[Joint], text: str) -> str:
    """What a text says of the number of welds that is not so; "" for nothing."""
    own = of_itself(text)
    found = [each for each in _COUNTED.finditer(own) if not _OF_OTHERS.search(each[2])]
    # One jumper is not one of its welds.
    found = [each for each in found if (_number(each[1]) > 1) == each[3].lower().endswith("s")]
    if not found or _PART.search(own) or denied(own):
        return ""
    total = sum(_number(each[1]) for each in found)
    treated = [joint for joint in joints if joint.cycles]
    baked = [joint for joint in joints if joint.bakes]
    preheated = [joint for joint in joints if joint.preheat is not None]
    numbers = {len(each) for each in (joints, treated, baked, preheated)}
    numbers |= {*Counter(joint.entry.kind for joint in joints).values()}
    if total in numbers:
        return ""
    word = NUMBERS[total - 1] if 0 < total <= len(NUMBERS) else str(total)
    return f"{word} weld{'s' if total != 1 else ''}, and it has {counted(len(joints), 'weld')}"


def _number(word: str) -> int:
    if word.lower() == "both":
        return 2
    return int(word) if word.isdigit() else NUMBERS.index(word.lower()) + 1
