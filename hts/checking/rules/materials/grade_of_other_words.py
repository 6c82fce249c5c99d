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

RULE = Rule(
    "M213",
    "grade-of-other-words",
    "warning",
    summary="A job whose title, purpose or application names a grade of steel that none of its joints is "
    "of.",
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
    ),
    good=(
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


@RULE.for_spec
def check(case: Case) -> None:
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
