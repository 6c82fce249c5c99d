"""A hold has a least and a greatest temperature and a least time that somebody answers for."""

from __future__ import annotations

from collections.abc import Iterator

from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import either
from hts.checking.rules.helpers.givers import givers
from hts.checking.rules.helpers.missing import already_told
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.types import ByRule
from hts.limits import HEAT_TREATMENT
from hts.limits.quantities import Direction

RULE = Rule(
    "L226",
    "hold-without-limits",
    "error",
    floor="error",
    summary="A heat treatment for which no book or procedure in force gives a lowest and a "
    "highest hold temperature and a hold time.",
    why="Then any figure passes: nothing says whether it tempers the weld or ruins it.",
    fix="Name the book or procedure the hold is to be judged by.",
    source="derived: what the books and procedures in force limit",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "governed by  asme-b31.3 edition 2018, local-heating",
                    "governed by  local-heating",
                ),
                ("  at least          150 degC", "  at least          200 degC"),
            ),
            at="700 .. 730 degC",
        ),
    ),
    good=(
        # This code leaves the top to the metal: its lower critical temperature bounds it.
        Good(
            (
                (
                    "governed by  asme-b31.3 edition 2018, local-heating",
                    "governed by  asme-viii-1 edition 2019, local-heating",
                ),
            ),
        ),
    ),
)

_ASKED: tuple[tuple[str, Direction, str], ...] = (
    ("hold temperature", "minimum", "a lowest hold temperature"),
    ("hold temperature", "maximum", "a highest hold temperature"),
    ("hold time", "minimum", "a hold time"),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    job = case.spec.file.job
    if job is None or not job.sound or treatment.is_bake or not heats(treatment):
        return
    # With an unknown book nothing can be expected of it: told at the book.
    if sum(authority.is_book for authority in case.authorities) < len(job.governed_by):
        return
    hold = next((s for s in treatment.entry.segments if isinstance(s, Hold)), None)
    if hold is None or "p_number" in already_told(treatment.joint):
        return
    limits = case.limits(treatment.joint, treatment)
    # Where the text says `by rule`, that no rule gives it is told there.
    by_rule = {
        quantity
        for quantity, said in (("hold temperature", hold.range), ("hold time", hold.time))
        if isinstance(said, ByRule)
    }
    lacking = {key: words for key, words in unlimited(limits) if key[0] not in by_rule}
    if not lacking:
        return
    quantities = list(dict.fromkeys(quantity for quantity, _ in lacking))
    able = givers(quantities[0], limits.facts.values())
    in_force = {authority.name for authority in case.authorities}
    others = [name for name in able if name.split()[0] not in in_force]
    help = "state it in a procedure the job follows (`hold temperature at least … at most …`)"
    if others:
        help += f"; among the books {', '.join(others[:4])} limit the {quantities[0]} of this metal"
    case.add(
        RULE.found(
            f"no book or procedure in force gives {either(list(lacking.values()))}{_metal(limits)}",
            hold.place("range"),
            address=treatment.address,
            notes=_none_foreseen(limits),
            help=help,
        )
    )


def unlimited(limits: JointLimits) -> Iterator[tuple[tuple[str, Direction], str]]:
    """What no limit gives for a hold. One that hangs on something unsaid is told with that."""
    for quantity, direction, words in _ASKED:
        governing = limits.of(quantity)
        if governing is not None and governing.setter(direction) is not None:
            continue
        if governing is not None and any(
            getattr(item.limit, direction) is not None for item in governing.unanswered
        ):
            continue
        if (quantity, direction) == ("hold temperature", "maximum") and _bounded_by_metal(limits):
            continue
        yield (quantity, direction), words


def _bounded_by_metal(limits: JointLimits) -> bool:
    """Whether the top is bounded by the lower critical temperature of every part joined.

    Some codes give a least temperature alone: the metal sets the top, which is judged where its
    lower critical temperature is known.
    """
    held, margin = limits.of("hold temperature"), limits.of("margin below lower critical")
    given = [governing for governing in (held, margin) if governing is not None]
    return any(governing.setter("minimum") is not None for governing in given) and all(
        "lower_critical" in facts for facts in limits.facts.values()
    )


def _metal(limits: JointLimits) -> str:
    numbers = dict.fromkeys(
        str(facts["p_number"]) for facts in limits.facts.values() if "p_number" in facts
    )
    return f" for P-number {' and '.join(numbers)}" if numbers else ""


def _none_foreseen(limits: JointLimits) -> list[str]:
    governing = limits.of(HEAT_TREATMENT)
    demands = governing.demands if governing is not None else ()
    names = dict.fromkeys(d.limit.source.name for d in demands if d.limit.status == "none")
    return [f"{name} foresees no heat treatment for this metal" for name in names]
