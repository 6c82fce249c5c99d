"""Time outside the limits is tolerated no longer than what governs it allows."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places, shown_bound
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L211",
    "excursion-too-long",
    "error",
    summary="More time outside the limits than the books and procedures tolerate.",
    why="Whatever is tolerated here is not judged afterwards, and many short times, each allowed, "
    "can add up to more than an owner allows in total.",
    fix="Shorten the time; where the owner counts all times together, count them so.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (("  rate margin  ", "  excursion at most 5 min each\n  rate margin  "),),
            base="procedure",
            at="5 min",
            says="at most 10 min",
        ),
    ),
    edges=(
        Edge(
            (("  rate margin  ", "  excursion at most {} in total\n  rate margin  "),),
            keeps="10 min",
            breaks="11 min",
            base="procedure",
            says="is 11 min … at most 10 min",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if treatment.is_bake:
        return
    governing = case.limits(treatment.joint, treatment)
    for quantity, all_stated, what in (
        ("excursion", treatment.entry.excursion, "the time outside the hold range"),
        ("rate excursion", treatment.entry.rate_excursion, "the time over the limit of a rate"),
    ):
        for stated in all_stated:
            if stated.at_most is None:
                continue
            found = against(
                RULE,
                governing.of(quantity),
                "maximum",
                stated.at_most,
                stated.place("at_most"),
                address=treatment.address,
                what=what,
            )
            if found is not None:
                case.add(found)
    _each_for_total(case, treatment)


def _each_for_total(case: Case, treatment: Treatment) -> None:
    """An allowance for each time alone, where what governs counts all times together."""
    stated = [one for one in treatment.entry.excursion if one.at_most is not None]
    governing = case.limits(treatment.joint, treatment).of("excursion")
    demands = governing.ordered("maximum") if governing is not None else []
    if not demands or not stated or any(not one.each for one in stated):
        return
    first, one = demands[0], stated[0]
    assert one.at_most is not None
    bound = shown_bound(first, "maximum", one.at_most)
    case.add(
        RULE.found(
            f"the time outside the hold range is limited each time, but "
            f"{cited(first.limit.source)} allows at most {bound} in total",
            one.place("at_most"),
            address=treatment.address,
            others=places(first.limit.source),
            help=f"add `excursion at most {bound} in total`, which a record is judged by in any "
            f"case",
            basis=first.limit.source.basis,
        )
    )
