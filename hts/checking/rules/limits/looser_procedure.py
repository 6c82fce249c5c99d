"""A procedure does not allow what a book that governs the job forbids."""

from __future__ import annotations

from collections.abc import Container, Iterable

from hts.base.text import Span
from hts.checking.govern import Authority, JointLimits
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import practice_row
from hts.checking.rules.helpers.against import cited, places, quoted, shown
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.limits import Governing, Looser, looser

RULE = Rule(
    "L217",
    "looser-procedure",
    "warning",
    summary="A limit of a procedure that is looser than that of a governing book.",
    why="The stricter one is used here, but whoever reads only the procedure works to the looser "
    "one.",
    fix="Tighten the procedure, or name the row of a practice book that it replaces.",
    source="the governing books",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm",
                    "  heating rate     at most {} above 315 degC when t <= 60 mm",
                ),
            ),
            keeps="333 degC/h",
            breaks="334 degC/h",
            at="heating rate",
            base="procedure",
            says="is 334 degC/h (601.2 degF/h) above 315 degC (599 degF) … at most 600 degF/h (333.3 degC/h)",
        ),
        Edge(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in total\n  hold temperature at least {}",
                ),
            ),
            keeps="675 degC",
            breaks="674 degC",
            at="hold temperature",
            base="procedure",
            says="is 674 degC (1245.2 degF) … at least 675 degC (1250 degF)",
        ),
    ),
    good=(
        Good(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in "
                    "total\n  hold temperature at least 690 degC",
                ),
            ),
            base="procedure",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    following = [authority for authority in case.authorities if authority.procedure is not None]
    if not following:
        return
    books = {authority.name for authority in case.authorities if authority.is_book}
    # Of hundreds of joints nothing else is worked out for this.
    wanted = {limit.quantity for authority in following for limit in authority.limits}
    already: set[tuple[str, str, str]] = set()
    nothing = case.nothing_at(RULE.kind.code)
    seen: dict[int, bool] = {}
    for joint in case.joints():
        if joint.name in nothing:
            continue
        limits = limits_of(case, joint)
        # Joints of equal facts share what governs them.
        shared = id(limits.governing)
        if shared not in seen:
            by_book = _only(limits, books, wanted)
            found = [
                (authority, item)
                for authority in following
                for item in looser(_only(limits, {authority.name}, wanted), by_book)
            ]
            seen[shared] = bool(found)
            for authority, item in found:
                key = (authority.name, item.quantity, item.book.limit.id)
                if key not in already:
                    already.add(key)
                    _tell(case, authority, item)
        if not seen[shared]:
            nothing.add(joint.name)


def _only(
    limits: JointLimits, names: Iterable[str], wanted: Container[str]
) -> dict[str, Governing]:
    """What some of the sources demand by themselves of the quantities wanted."""
    found = {}
    for quantity in limits.governing:
        if quantity not in wanted:
            continue
        governing = limits.governing[quantity]
        demands = tuple(d for d in governing.demands if d.limit.source.name in names)
        if demands:
            found[quantity] = Governing(quantity, demands)
    return found


def _tell(case: Case, authority: Authority, item: Looser) -> None:
    source = item.book.limit.source
    if item.direction == "status":
        theirs = item.book.limit.status
        ours = item.procedure.limit.status if item.procedure else ""
        message = f"{authority.name} says {item.quantity} {ours}, but {cited(source)} says {theirs}"
    else:
        asks = "asks for at least" if item.direction == "minimum" else "allows at most"
        toward = "up" if item.direction == "minimum" else "down"
        bound = shown(item.book.both(item.direction), toward)  # type: ignore[arg-type]
        above = f" above {item.above.both()}" if item.above is not None else ""
        ours = (
            shown(item.procedure.bounds[item.direction])  # type: ignore[index]
            if item.procedure is not None
            else "no limit"
        )
        message = (
            f"the {item.quantity} of {authority.name} is {ours}{above}, but {cited(source)} {asks} "
            f"{bound}"
        )
    row = f"{item.book.limit.source.name}.{item.book.limit.id}"
    demand = item.procedure or item.book
    case.add(
        RULE.found(
            message,
            _place(case, authority, item),
            address=authority.name,
            others=places(demand.limit.source) if _elsewhere(case, item) else [],
            notes=quoted(source),
            help=f"write `replaces {row}` where it is meant" if practice_row(row) else "",
        )
    )


def _elsewhere(case: Case, item: Looser) -> bool:
    """Whether the line of the procedure stands in another file than the one under check."""
    at = item.procedure.limit.source.at if item.procedure is not None else None
    return at is not None and at.source is not case.spec.source


def _place(case: Case, authority: Authority, item: Looser) -> Span:
    at = item.procedure.limit.source.at if item.procedure is not None else None
    if at is not None and at.source is case.spec.source:
        return at
    job = case.spec.file.job
    for reference in job.follows if job is not None else ():
        if reference.name == authority.name:
            return case.spec.source.span(reference.start, reference.end)
    assert authority.procedure is not None
    return authority.procedure.place("name")
