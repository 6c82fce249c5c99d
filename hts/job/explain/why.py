"""The reason of every value the rules give: a tree that can be read to an inspector.

An answer tells the value in both units, the formula with its numbers put in, each demand with its
paragraph, edition and basis, which one governs and by how much, and what its numbers rest on.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from hts.base.quantities import TIME, Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.job.compiler.demanded import ProcedureDemand, procedure_demands
from hts.job.compiler.derivations import DIRECTIONS
from hts.job.compiler.why import Why, demanded
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.suggest import nearest
from hts.limits import FACTS, LIMITED, Amount, Demand
from hts.limits.demand import size
from hts.limits.quantities import GIVES, Direction
from hts.syntax.formula import Fact, Text

_WORDS = {"minimum": "at least", "maximum": "at most", "exactly": "is", "status": "is"}
_OF_SIDE = {
    "wall": "wall",
    "outside_diameter": "outside_diameter",
}
_OF_MATERIAL = {
    "p_number": "p_number",
    "group_number": "group",
    "en_group": "en_group",
    "carbon": "carbon",
    "specified_carbon": "specified_carbon",
    "chromium": "chromium",
    "tensile_strength": "tensile_strength",
    "lower_critical": "lower_critical",
    "tempering_temperature": "tempering_temperature",
}
#: Answers rest on answers; the engine has no circles, and no chain of the books is this long.
_DEEPEST = 6


class FactUsed(NamedTuple):
    """A number a formula uses: stated in the text, looked up, or an answer of its own."""

    name: str
    value: str
    origin: str
    answer: Answer | None = None


class DemandShown(NamedTuple):
    """One demand on the quantity; ``by`` is how much it is looser than the one that governs,
    ``configured`` where a configuration names the book because the text names none."""

    value: str
    why: Why
    by: str
    condition: str
    side: str | None
    configured: str
    cautions: tuple[str, ...] = ()


class Answer(NamedTuple):
    """The reason of one bound. ``demands`` begin with the one that governs; ``set_aside`` are those
    that another line stands in for."""

    address: str
    quantity: str
    direction: str
    value: str
    demands: tuple[DemandShown, ...]
    facts_used: tuple[FactUsed, ...]
    set_aside: tuple[DemandShown, ...] = ()

    @property
    def heading(self) -> str:
        return f"{self.quantity} {_WORDS[self.direction]} {self.value}"


def answers(case: Case, address: str = "") -> list[Answer]:
    """Every value the rules give, in the order of the text; with an address, those it names.

    ``W12/hold-time``, ``W12/stress-relief/hold-time`` and ``W12.hold-time`` name the same; an
    address may stop early (``W12``).
    """
    wanted = [part for part in address.replace(".", "/").split("/") if part]
    return [answer for answer in every(case) if _named(answer.address, wanted)]


def meant(case: Case, address: str) -> str | None:
    """The address nearest to one that names nothing; None where none is near."""
    there = [answer.address for answer in every(case)]
    parts = dict.fromkeys(part for each in there for part in each.split("/"))
    wanted = [part for part in address.replace(".", "/").split("/") if part]
    guess = [part if part in parts else nearest(part, parts) for part in wanted]
    named = [part for part in guess if part is not None]
    if len(named) < len(guess) or not any(_named(each, named) for each in there):
        return None
    return "/".join(named)


def _named(address: str, wanted: list[str]) -> bool:
    parts = iter(address.split("/"))
    return all(part in parts for part in wanted)


def every(case: Case, joints: Collection[str] = ()) -> Iterator[Answer]:
    """Every value the rules give, worked out one by one; with names, of these joints alone."""
    for joint in case.joints():
        if joints and joint.name not in joints:
            continue
        treatments: list[Treatment | None] = [*case.treatments(joint)]
        already: set[str] = set()
        for treatment in treatments or [None]:
            yield from _of(case.limits(joint, treatment), joint, treatment, already)


def _of(
    limits: JointLimits, joint: Joint, treatment: Treatment | None, already: set[str]
) -> Iterator[Answer]:
    """The answers of one treatment; what is the joint's own is told with the first one."""
    for quantity in limits.governing:
        of_treatment = LIMITED[quantity].subject in ("cycle", "bake")
        if of_treatment and (
            treatment is None or treatment.is_bake != (LIMITED[quantity].subject == "bake")
        ):
            continue
        if not of_treatment and quantity in already:
            continue
        already.add(quantity)
        base = treatment.address if of_treatment and treatment else joint.address
        address = f"{base}/{quantity.replace(' ', '-')}"
        if isinstance(LIMITED[quantity].kind, Text):
            yield from _status(limits, quantity, address)
            continue
        for direction in DIRECTIONS:
            yield from _bound(limits, quantity, direction, address, 0)


def _status(limits: JointLimits, quantity: str, address: str) -> Iterator[Answer]:
    governing = limits.governing[quantity]
    setter = governing.status_setter()
    if setter is None:
        return
    others = [d for d in governing.demands if d is not setter and d.limit.status is not None]
    demands = [
        DemandShown(
            _word(d),
            demanded(d, "exactly"),
            "",
            _condition(d),
            d.side,
            _configured(limits, d),
            d.limit.source.cautions,
        )
        for d in (setter, *others)
    ]
    yield Answer(address, quantity, "status", demands[0].value, tuple(demands), ())


def _word(demand: Demand) -> str:
    """The word of a choice; for an option, with the option it is about."""
    option = f"{demand.limit.option}: " if demand.limit.option else ""
    return f"{option}{demand.limit.status}"


def _bound(
    limits: JointLimits, quantity: str, direction: Direction, address: str, depth: int
) -> Iterator[Answer]:
    ordered = limits.governing[quantity].ordered(direction)
    if not ordered:
        return
    first = ordered[0]
    demands = tuple(_demand_shown(limits, demand, first, direction) for demand in ordered)
    facts_used = tuple(_facts_used(limits, first, direction, address, depth))
    set_aside = tuple(
        _demand_shown(limits, demand, demand, direction)
        for demand in limits.governing[quantity].displaced
        if direction in demand.bounds
    )
    yield Answer(address, quantity, direction, demands[0].value, demands, facts_used, set_aside)


def _configured(limits: JointLimits, demand: Demand) -> str:
    """Where a configuration names the book of a demand; "" where the text does."""
    name = demand.limit.source.name
    return next((a.configured for a in limits.authorities if a.is_book and a.name == name), "")


def _demand_shown(
    limits: JointLimits, demand: Demand, first: Demand, direction: Direction
) -> DemandShown:
    value = demand.bounds[direction]
    by = ""
    if demand is not first and size(value) != size(first.bounds[direction]):
        by = shown(_apart(value, first.bounds[direction]))
    where = f" above {demand.above.both()}" if demand.above is not None else ""
    where += f" within {demand.within.both()}" if demand.within is not None else ""
    if demand.limit.positions:
        where += f" at {', '.join(demand.limit.positions)}"
    return DemandShown(
        shown(demand.both(direction), direction) + where,
        demanded(demand, direction),
        by,
        _condition(demand),
        demand.side,
        _configured(limits, demand),
        demand.limit.source.cautions,
    )


def _apart(amount: Amount, other: Amount) -> Amount:
    low, high = sorted((amount, other), key=size)
    apart: Amount = high - low  # type: ignore[operator]  # one quantity, hence one type
    if isinstance(apart, Quantity) and apart.dimension is TIME:
        # Nobody reads 0.09167 h.
        return apart if apart.to("h").denominator == 1 else apart.in_unit("min")
    return apart


def _condition(demand: Demand) -> str:
    limit = demand.limit
    facts_given = [
        f"{name} {demand.facts.get(name)}" for name in limit.where if name != "more_alloyed"
    ]
    # Where the limit is that of both sides, they are alike: none is the more highly alloyed.
    if limit.dissimilar and demand.side is not None:
        facts_given.append(limit.dissimilar)
    when = limit.when
    if when is not None:
        facts_given.append(when.text)
    return " and ".join(facts_given)


def _facts_used(
    limits: JointLimits, demand: Demand, direction: Direction, address: str, depth: int
) -> Iterator[FactUsed]:
    formula = getattr(demand.limit, direction)
    joint = limits.joint
    for name in formula.names:
        fact = demand.facts.get(name)
        if fact is None:
            continue
        quantity = GIVES.get(name)
        stated = any(name in facts for facts in limits.facts.values())
        answer = None
        deep = stated or depth >= _DEEPEST
        if quantity is not None and quantity in limits.governing and not deep:
            found = _bound(
                limits, quantity, _direction_of(quantity), f"{joint.address}/{name}", depth + 1
            )
            answer = next(found, None)
        yield FactUsed(name, fact_shown(fact), _origin(joint, demand.side, name, stated), answer)


def _direction_of(quantity: str) -> Direction:
    return "exactly" if "exactly" in LIMITED[quantity].directions else "minimum"


def _origin(joint: Joint, side: str | None, name: str, stated: bool) -> str:
    """Where a fact comes from, in a few words."""
    known = FACTS.get(name)
    if known is not None and known.worked_out:
        return known.worked_out
    sides = [s for s in joint.sides if side in (None, s.name)] or joint.sides
    for part in sides:
        figure = (
            getattr(part, _OF_SIDE[name])
            if name in _OF_SIDE
            else part.figure(_OF_MATERIAL[name])
            if name in _OF_MATERIAL
            else None
        )
        if figure is not None:
            mark = "" if figure.basis == "stated" else f" ({figure.basis})"
            return f"{figure.origin}{mark}"
    return "as this specification says" if stated else "worked out"


def shown(value: Amount, direction: str = "") -> str:
    """A value in both systems; a minimum is rounded up and a maximum down."""
    toward = {"minimum": "up", "maximum": "down"}.get(direction, "nearest")
    if isinstance(value, Quantity):
        return value.both(toward=toward)
    return str(value) if value.denominator != 1 else str(value.numerator)


def fact_shown(fact: Fact) -> str:
    """A fact as the tree prints it."""
    if isinstance(fact, Quantity | Fraction):
        return shown(fact)
    return str(fact)


def demands(case: Case, address: str = "") -> list[ProcedureDemand]:
    """What the procedures demand of the entries of the job, for an address as `answers` has it."""
    wanted = [part for part in address.replace(".", "/").split("/") if part]
    return [each for each in procedure_demands(case) if _named(each.address, wanted)]


def demands_text(found: Iterable[ProcedureDemand]) -> str:
    """Each demand with where it is met, or why it is not."""
    lines = []
    for each in found:
        lines.append(each.address)
        lines.append(f"  {each.procedure} {each.line} {each.what}")
        lines.append(f"    {each.verdict}: {each.where}")
        if each.note:
            lines.append(f"    because {each.note}")
        lines.append("")
    return "\n".join(lines)


def text(found: Iterable[Answer]) -> str:
    """The answers as a tree."""
    return "\n".join("\n".join(_lines(answer)) + "\n" for answer in found)


def _lines(answer: Answer) -> list[str]:
    lines = [answer.address, f"  {answer.heading}"]
    lines += _reasons(answer, "    ")
    return lines


def _reasons(answer: Answer, indent: str) -> list[str]:
    lines: list[str] = []
    for number, demand in enumerate(answer.demands):
        head = "governs" if number == 0 else "also"
        same = number and demand.value == answer.demands[0].value
        apart = f", looser by {demand.by}" if demand.by else (" (the same)" if same else "")
        value = "" if number == 0 else f" {_WORDS[answer.direction]} {demand.value}{apart}"
        side = f" [{demand.side}]" if demand.side else ""
        lines.append(f"{indent}{head}: {demand.why.cited}{side}{value}")
        lines.append(f"{indent}  {demand.why.basis}, confidence {demand.why.confidence}")
        if demand.configured:
            lines.append(f"{indent}  in force by configuration: {demand.configured}")
        if demand.why.formula and demand.why.formula != demand.why.numbers:
            lines.append(f"{indent}  {demand.why.formula}")
            lines.append(f"{indent}  = {demand.why.numbers}")
        if demand.condition:
            lines.append(f"{indent}  because {demand.condition}")
        if demand.why.note:
            lines.append(f"{indent}  {demand.why.note}")
        if number == 0:
            lines += [f"{indent}  caution: {caution}" for caution in demand.cautions]
    for demand in answer.set_aside:
        value = f"{_WORDS[answer.direction]} {demand.value}"
        lines.append(f"{indent}replaced: {demand.why.cited} {value}")
    for fact_used in answer.facts_used:
        lines.append(f"{indent}rests on {fact_used.name} = {fact_used.value}: {fact_used.origin}")
        if fact_used.answer is not None:
            lines += _reasons(fact_used.answer, indent + "  ")
    return lines


def as_json(answer: Answer) -> dict[str, Any]:
    """An answer as data."""
    return {
        "address": answer.address,
        "quantity": answer.quantity,
        "direction": answer.direction,
        "value": answer.value,
        "demands": [
            {
                "value": demand.value,
                **demand.why._asdict(),
                "looser_by": demand.by or None,
                "condition": demand.condition or None,
                "side": demand.side,
                "configured": demand.configured or None,
                "cautions": list(demand.cautions),
                "governs": number == 0,
            }
            for number, demand in enumerate(answer.demands)
        ],
        "replaced": [
            {"value": demand.value, **demand.why._asdict()} for demand in answer.set_aside
        ],
        "rests_on": [
            {
                "name": fact_used.name,
                "value": fact_used.value,
                "origin": fact_used.origin,
                "because": as_json(fact_used.answer) if fact_used.answer else None,
            }
            for fact_used in answer.facts_used
        ],
    }
