"""The grade that a job is called by is one of its metals."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import of_itself
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.side import Side

_TITLE = '"Tern Island (invented): header butt"'

_SHOW = "  show         SI and US\n"

RULE = Rule(
    "M213",
    "grade-of-other-words",
    "warning",
    summary="A job whose title, purpose or application names a grade of steel that none of its joints is "
    "of, or which refers to the welding of other steel, or runs the program of Grade 91 on another.",
    why="Whoever fetches filler, program and procedure goes by the title.",
    fix="Correct the title, or the materials.",
    source="numbers of grades of ASTM A335, A182 and A213",
    basis="derived",
    bad=(
        Bad(
            ((_TITLE, '"Tern Island (invented): header butt in P91"'),),
            at="P91",
            says="the title of the job says P91, and its metals are A335 P22",
        ),
        Bad(
            ((_SHOW, f'{_SHOW}  reference "Welding of carbon steel piping" edition "2019"\n'),),
            at='"Welding of carbon steel piping"',
            says="refers to `Welding of carbon steel piping`, and its metals are of P-number 5A",
        ),
        Bad(
            (("  rate margin  ", '  program "P91-2 rev 1"\n  rate margin  '),),
            at='"P91-2 rev 1"',
            says="program P91-2 rev 1 is called after P91, and W12 is of another steel",
        ),
    ),
    good=(
        Good(((_SHOW, f'{_SHOW}  reference "Welding of alloy piping" edition "2019"\n'),)),
        Good(((_SHOW, f'{_SHOW}  reference "Carbon steel supports" edition "2019"\n'),)),
        Good((("  rate margin  ", '  program "P21 rev A"\n  rate margin  '),)),
        Good(((_TITLE, '"Tern Island (invented): header butt in P22"'),)),
        Good(((_TITLE, '"Tern Island (invented): header butt F22 to P22"'),)),
        Good(((_TITLE, '"Tern Island (invented): header butt by program P14"'),)),
        Good(((_TITLE, '"Tern Island (invented): header butt beside the P91 header"'),)),
        Good(((_TITLE, '"Tern Island (invented): P22 header butt, after the P91 welds"'),)),
        Good(((_TITLE, '"Tern Island (invented): P22 butt on the P11 reheat line"'),)),
    ),
    agrees=(
        Agreement("job", "material.grade", "the grade of the words"),
        Agreement("job.scope.purpose", "material.grade", "the grade of the words"),
    ),
)

#: Chromium-molybdenum steels that are called by pipe, forging or tube and a number.
_NUMBERS = ("11", "12", "21", "22", "23", "24", "36", "91", "92", "122", "911")
_CALLED = re.compile(r"\b(?:WP|FP|P|F|T)-?(\d{2,3})\b")
_JOINED = re.compile(r"\b(?:WP|FP|P|F|T)-?(\d{2,3}) to (?:WP|FP|P|F|T)-?(\d{2,3})\b")


#: What the title of a document calls the steel it is about, and the P-numbers of that steel.
_FAMILIES = (
    (re.compile(r"\bcarbon[- ]steel\b", re.IGNORECASE), ("1",)),
    (re.compile(r"\bstainless\b", re.IGNORECASE), ("6", "7", "8", "10H")),
    (re.compile(r"\b(?:1|1 ?1/4|1\.25) ?% (?:chromium|Cr)\b|\b1 ?1/4Cr\b", re.I), ("4",)),
    (re.compile(r"\b(?:2 ?1/4|2\.25) ?% (?:chromium|Cr)\b|\b2 ?1/4Cr\b", re.I), ("5A",)),
    (re.compile(r"\b5 ?% (?:chromium|Cr)\b|\b5Cr\b", re.I), ("5B",)),
    (re.compile(r"\b9 ?% (?:chromium|Cr)\b|\b9Cr\b", re.IGNORECASE), ("5B", "15E")),
    (
        re.compile(r"\b(?:low[- ])?alloy(?:ed)?(?: steel)?\b", re.IGNORECASE),
        ("3", "4", "5A", "5B", "5C", "15E", "10A"),
    ),
)
_PROGRAM = re.compile(r"\bP(91|92)\b")


@RULE.for_spec
def check(case: Case) -> None:
    _references(case)
    _programs(case)
    _grades(case)


def _references(case: Case) -> None:
    """Tells a document referred to that is about steel none of the joints is of."""
    job = case.spec.file.job
    joints = list(case.joints())
    figures = [side.figure("p_number") for joint in joints for side in joint.sides]
    known = {str(figure.value) for figure in figures if figure is not None}
    if job is None or not known or None in figures:
        return
    for reference in job.sources:
        text = reference.title if isinstance(reference.title, str) else ""
        called = [(words.search(text), numbers) for words, numbers in _FAMILIES]
        named = [(found, numbers) for found, numbers in called if found is not None]
        if not re.search(r"\bweld", text, re.IGNORECASE) or any(
            known & {*numbers} for _, numbers in named
        ):
            continue
        if named:
            case.add(
                RULE.found(
                    f"the job refers to `{text}`, and its metals are of P-number {', '.join(sorted(known))}",
                    reference.place("title"),
                    address=job.name,
                    others=[Label(joints[0].place("names"), "a weld of the job")],
                    basis=RULE.basis,
                )
            )


def _programs(case: Case) -> None:
    """Tells a program called after Grade 91 or 92 that runs on joints of another."""
    for joint in case.joints():
        figures = [side.figure("p_number") for side in joint.sides]
        if None in figures or any(str(each.value) == "15E" for each in figures if each is not None):
            continue
        for treatment in joint.cycles:
            program = treatment.entry.program
            found = _PROGRAM.search(program) if isinstance(program, str) else None
            if found is not None:
                case.add(
                    RULE.found(
                        f"program {program} is called after {found[0]}, and {joint.name} is of another steel",
                        treatment.place("program"),
                        address=treatment.address,
                        others=[Label(joint.place("names"), "the weld")],
                        basis=RULE.basis,
                    )
                )
                return


def _grades(case: Case) -> None:
    metals = [
        side.material
        for joint in case.joints()
        for side in joint.sides
        if side.material is not None and not _is_plain(side)
    ]
    numbers = [_CALLED.search(metal.grade or "") for metal in metals]
    # A metal called in another way may be any of these.
    if not numbers or not all(numbers):
        return
    known = {found[1] for found in numbers if found is not None}
    for where, text, at in _texts(case):
        own = of_itself(text)
        called = list(_CALLED.finditer(own))
        # Where a metal of the job is named too, the other is plainly of the weld only if joined to it.
        joined = _JOINED.search(own)
        if joined is None and any(found[1] in known for found in called):
            continue
        for found in called:
            if found[1] in known or found[1] not in _NUMBERS:
                continue
            if joined is not None and found[1] not in joined.groups():
                continue
            grades = ", ".join(dict.fromkeys(metal.grade or "" for metal in metals))
            case.add(
                RULE.found(
                    f"the {where} of the job says {found[0]}, and its metals are {grades}",
                    at,
                    address=case.spec.file.job.name if case.spec.file.job else "",
                    others=[Label(metals[0].place("grade"), "a metal of the job")],
                    basis=RULE.basis,
                )
            )
            return


def _is_plain(side: Side) -> bool:
    """Whether a metal is none of these steels, whatever it is called."""
    figure = side.figure("p_number")
    return figure is not None and str(figure.value) in ("1", "3", "8")


def _texts(case: Case) -> Iterator[tuple[str, str, Span]]:
    job = case.spec.file.job
    if job is None:
        return
    if job.name:
        yield "title", job.name, job.place("name")
    scope = job.scope
    for field in ("purpose", "application"):
        for text in _all(getattr(scope, field, None)):
            yield field, text, scope.place(field) if scope is not None else job.place("name")


def _all(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    return [each for each in value if isinstance(each, str)] if isinstance(value, list) else []
