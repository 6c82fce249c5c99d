"""A stated band is held to a width that somebody answers for."""

from __future__ import annotations

from itertools import pairwise

from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import either
from hts.checking.rules.helpers.givers import givers
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.types import ByRule

_ALONE = ("asme-b31.3 edition 2018, local-heating", "asme-b31.3 edition 2018")
_STATED = (
    ("heated band    by rule", "heated band    576 mm total"),
    ("gradient band  by rule", "gradient band  1 m total"),
)
_PROCEDURE = """\
procedure P-07 "Widths of local heating" {
  revision       2 on 2026-03-01 status for construction
  heated band    at least 500 mm total
  gradient band  at least 900 mm total
}

recorder R1 {"""

RULE = Rule(
    "B123",
    "band-without-limits",
    "advice",
    summary="A soak, heated or gradient band whose width no book and no procedure in force limits.",
    why="Then any width passes: nothing says whether the inside of the weld gets as hot as the "
    "outside.",
    fix="Name the book or procedure the width is to be judged by.",
    source="derived: what the books and procedures in force limit",
    basis="derived",
    bad=(
        Bad((_ALONE, *_STATED), at="576 mm total"),
        Bad(
            (
                (_ALONE[0], f"{_ALONE[1]}\n  follows      P-07"),
                *_STATED,
                (
                    "recorder R1 {",
                    _PROCEDURE.replace("  gradient band  at least 900 mm total\n", ""),
                ),
            ),
            at="1 m total",
        ),
    ),
    good=(
        Good(_STATED),
        Good(
            (
                (_ALONE[0], f"{_ALONE[1]}\n  follows      P-07"),
                *_STATED,
                ("recorder R1 {", _PROCEDURE),
            ),
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    job, heating = case.spec.file.job, joint.entry.heating
    if job is None or not job.sound or heating is None or heating.method == "furnace":
        return
    # With an unknown book nothing can be expected of it: told at the book.
    if sum(authority.is_book for authority in case.authorities) < len(job.governed_by):
        return
    if not treated(joint):
        return
    limits = limits_of(case, joint)
    lacking = []
    for band in ("soak", "heated", "gradient"):
        stated = getattr(heating, f"{band}_band")
        governing = limits.of(f"{band} band")
        # `by rule` where no rule gives it, and a limit that hangs on something unsaid, are told
        # as that.
        if stated is None or isinstance(stated, ByRule):
            continue
        if governing is None or not (governing.unanswered or governing.setter("minimum")):
            lacking.append(band)
    if not lacking or _out_of_order(limits):
        return
    names = [f"{band} band" for band in lacking]
    in_force = {authority.name for authority in case.authorities}
    others = [
        name for name in givers(names[0], limits.facts.values()) if name.split()[0] not in in_force
    ]
    case.add(
        RULE.found(
            f"no book or procedure in force says how wide {either([f'the {n}' for n in names])} "
            f"of {joint.name} has to be",
            heating.place(f"{lacking[0]}_band"),
            address=f"{joint.address}/heating",
            help=f"state it in a procedure the job follows (`{names[0]} at least … total`)"
            + (f"; among the books {', '.join(others)} limit the {names[0]}" if others else ""),
        )
    )


def _out_of_order(limits: JointLimits) -> bool:
    """Whether a band is wider than the next: told as that."""
    widths = [limits.band(f"{band} band") for band in ("soak", "heated", "gradient")]
    known = [width for width in widths if width is not None]
    return any(inner > outer for inner, outer in pairwise(known))
