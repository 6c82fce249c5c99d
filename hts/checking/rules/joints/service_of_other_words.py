"""What the line carries is what the words of the job say it carries."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import clauses, denied, of_a_neighbour, of_itself
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_WATER = ("water", "feed water", "steam")
#: Words for what a line carries -> the services that say so.
_WORDS: dict[str, tuple[str, ...]] = {
    "amine": ("amine",),
    "caustic": ("caustic",),
    "ammonia": ("ammonia",),
    "fuel gas": ("hydrocarbon",),
    "sour": ("wet hydrogen sulphide", "amine", "hydrocarbon"),
}
#: These stand in other sentences too, such as of a line that is steamed out.
_IN_TITLES = {
    **_WORDS,
    "steam": ("steam",),
    "reheat": ("steam",),
    "superheater": ("steam",),
    "condensate": _WATER,
    "feed water": _WATER,
    "firewater": _WATER,
}
#: Words of a line and of what is done with what it carries.
_CARRIES = re.compile(
    r"\b(?:bore|lines?|headers?|pip(?:e|es|ing)|mains?|branch|spool|drain|vent|flush|empt|purg|wash)",
    re.IGNORECASE,
)
#: What is not left in it was in it.
_LEFT = re.compile(r"\b(?:left|remain(?:s|ing)?|any ?more|longer)\b", re.IGNORECASE)
_TITLE = '"Tern Island (invented): header butt"'
_DATUM = "  datum      top\n"


def _line(words: str, service: str) -> tuple[tuple[str, str], ...]:
    title = f'"Tern Island (invented): {words}"'
    return ((_TITLE, title), (_DATUM, f"{_DATUM}  service    {service}\n"))


RULE = Rule(
    "J223",
    "service-of-other-words",
    "warning",
    summary="A job whose title, checks or cautions speak of an amine, a steam or another line, and "
    "joints that are in another service.",
    why="What a code or an owner asks for hangs on the service: with a wrong one a treatment, a "
    "hardness or a test falls away in silence.",
    fix="Copy the service from the line list, or correct the words.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _line("lean amine line", "water"),
            at="water",
            says="W12 is in service water, and the title of the job speaks of amine",
        ),
    ),
    good=(
        Good(_line("lean amine line", "amine")),
        Good(_line("outlet header", "water")),
        Good(_line("outlet header beside the lean amine line", "water")),
        Good(_line("main of the steam-foam fire station", "water")),
    ),
    agrees=(
        Agreement("joint.service", "job", "the service of the words"),
        Agreement("joint.service", "before heat.check.text", "the service of the words"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for joint in case.joints():
        _look(case, joint)


def _look(case: Case, joint: Joint) -> None:
    stated = joint.entry.service
    if not stated or not joint.sound:
        return
    known = {each for other in case.spec.joints.values() for each in other.entry.service}
    for where, words, text, at in _texts(case, joint):
        for word, services in words.items():
            if known & set(services) or not _says(text, word):
                continue
            case.add(
                RULE.found(
                    f"{joint.name} is in service {' and '.join(stated)}, and {where} speaks of {word}",
                    joint.place("service"),
                    address=joint.address,
                    others=[Label(at, word)],
                    basis=RULE.basis,
                )
            )
            return


def _says(text: str, word: str) -> bool:
    """Whether a text has a word by itself, and not as part of another, as in `steam-foam`."""
    return re.search(rf"(?<![\w-]){word}(?![\w-])", text, re.IGNORECASE) is not None


def _texts(case: Case, joint: Joint) -> Iterator[tuple[str, dict[str, tuple[str, ...]], str, Span]]:
    """What is read, which words count there, the text, and where it stands."""
    job = case.spec.file.job
    if job is not None and job.name:
        yield "the title of the job", _IN_TITLES, of_itself(job.name), job.place("name")
        scope = job.scope
        for text in scope.application if scope is not None and scope.sound else ():
            assert scope is not None
            yield "the application", _IN_TITLES, of_itself(text), scope.place("application")
    for block in (*joint.before, *joint.during, *joint.after):
        for item in block.checks if block.sound else ():
            yield "a check", _WORDS, _of_the_line(item.text), item.place("text")
        for text in block.cautions if block.sound else ():
            yield "a caution", _WORDS, _of_the_line(text), block.place("cautions")


def _of_the_line(text: str) -> str:
    """The clauses of a sentence that plainly speak of the line itself and what is or was in it."""
    kept = [clause for clause in clauses(text) if not of_a_neighbour(clause)]
    return ", ".join(
        clause
        for clause in kept
        if (_LEFT.search(clause) if denied(clause) else _CARRIES.search(clause))
    )
