"""The history goes from old to new."""

from __future__ import annotations

from itertools import pairwise

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule

_FIRST = '    A on 2026-10-02 "First issue"\n'
_NOW = "revision     A on 2026-10-02"
#: Letters that drawing offices pass over, because they read as figures; common practice, no source.
_PASSED_OVER = "IOQSXZ"
_AT_0 = "revision     0 on 2026-10-02"
_ALL_TO_H = "".join(f'    {name} on 2026-10-02 "Issue {name}"\n' for name in "ABCDEFGH")

RULE = Rule(
    "D102",
    "history-out-of-order",
    "warning",
    summary="A history that is out of date order, lists a revision twice, leaves one out, or lists "
    "one later than the present revision.",
    why="Which paper is the newest must be plain at a glance.",
    fix="Put the oldest revision first and the present one last, each once.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                ('    A on 2026-10-02 "First issue"\n', '    B on 2026-10-02 "Wall measured"\n'),
                ("revision     A on 2026-10-02", "revision     B on 2026-10-02"),
            ),
            at="B",
        ),
        Bad(
            ((_FIRST, f'{_FIRST}    B on 2026-10-03 "Wall measured"\n'),),
            at="A",
            says="goes on to revision B, the present one is A",
        ),
        Bad(
            (
                (_FIRST, f'{_FIRST}    C on 2026-10-02 "Wall measured"\n'),
                (_NOW, "revision     C on 2026-10-02"),
            ),
            at="C",
            says="goes from revision A to C",
        ),
    ),
    edges=(
        Edge(
            (
                (_FIRST, _FIRST.replace("A on", "{} on")),
                ("revision     A on 2026-10-02", "revision     {} on 2026-10-02"),
            ),
            keeps="1",
            breaks="2",
            says="begins with revision 2",
        ),
        Edge(
            (
                (_FIRST, '    1 on 2026-10-02 "First issue"\n    {} on 2026-10-02 "Wall"\n'),
                (_NOW, "revision     {} on 2026-10-02"),
            ),
            keeps="2",
            breaks="3",
            says="goes from revision 1 to 3",
        ),
        Edge(
            (
                (
                    '    A on 2026-10-02 "First issue"\n',
                    '    A on 2026-10-02 "First issue"\n    B on {} "Wall measured"\n',
                ),
                ("revision     A on 2026-10-02", "revision     B on {}"),
            ),
            keeps="2026-10-02",
            breaks="2026-10-01",
            says="of 2026-10-01 follows A of 2026-10-02",
        ),
    ),
    good=(
        Good(
            (
                (_FIRST, f'{_FIRST}    B on 2026-10-02 "Wall measured"\n'),
                (_NOW, "revision     B on 2026-10-02"),
            )
        ),
        # Letters until it is approved, figures from then on.
        Good(((_FIRST, f'{_FIRST}    0 on 2026-10-02 "For construction"\n'), (_NOW, _AT_0))),
        Good(
            (
                (_FIRST, f'{_ALL_TO_H}    J on 2026-10-02 "Wall measured"\n'),
                (_NOW, "revision     J on 2026-10-02"),
            )
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or job.history is None or not job.sound:
        return
    for first, second in pairwise(job.history.lines):
        if first.on is None or second.on is None:
            continue
        if second.on < first.on or second.name == first.name:
            case.add(
                RULE.found(
                    f"revision {second.name} of {second.on} follows {first.name} of {first.on}",
                    second.place("on"),
                    address=f"{job.name}/history/{second.name}",
                    others=[Label(first.place("on"), "the revision before it")],
                )
            )
            return
    for first, second in pairwise(job.history.lines):
        if _leaves_out(first.name, second.name):
            case.add(
                RULE.found(
                    f"the history goes from revision {first.name} to {second.name}; what lies "
                    "between is left out",
                    second.place("name"),
                    address=f"{job.name}/history/{second.name}",
                    others=[Label(first.place("name"), "the revision before it")],
                )
            )
            return
    if _begins_late([line.name for line in job.history.lines]):
        first = job.history.lines[0]
        case.add(
            RULE.found(
                f"the history begins with revision {first.name}; what came before is left out",
                first.place("name"),
                address=f"{job.name}/history/{first.name}",
            )
        )
        return
    last = job.history.lines[-1] if job.history.lines else None
    revision = job.revision
    if (
        last is not None
        and last.name != revision.name
        and any(line.name == revision.name for line in job.history.lines)
    ):
        case.add(
            RULE.found(
                f"the history goes on to revision {last.name}, the present one is {revision.name}",
                revision.place("name"),
                address=f"{job.name}/{revision.name}",
                others=[Label(last.place("name"), "the last line of the history")],
            )
        )


def _begins_late(names: list[str]) -> bool:
    """Whether the first name is a later one of its kind: B where A, 3 where 0 or 1 comes first."""
    first = names[0] if names else ""
    if first.isdigit():
        return int(first) > 1
    return len(first) == 1 and first.isalpha() and first.upper() not in ("A", "P")


def _leaves_out(first: str, second: str) -> bool:
    """Whether a name skips one of its kind: C after A, 4 after 2."""
    if first.isdecimal() and second.isdecimal():
        return int(second) > int(first) + 1
    if not (_is_letter(first) and _is_letter(second)):
        return False
    between = range(ord(first.upper()) + 1, ord(second.upper()))
    return any(chr(letter) not in _PASSED_OVER for letter in between)


def _is_letter(name: str) -> bool:
    return len(name) == 1 and name.isascii() and name.isalpha()
