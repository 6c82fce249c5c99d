"""Values held against the limits that govern them, told alike by every rule."""

from __future__ import annotations

from hts.base.findings import Finding, Label
from hts.base.quantities import TIME, Quantity
from hts.base.text import Span
from hts.checking.rules.rule import Rule
from hts.limits import Amount, Demand, Governing, Source
from hts.limits.demand import size
from hts.limits.quantities import Direction

_KNOWN = {
    "published": "published",
    "memory": "from memory",
    "practice": "common practice",
    "derived": "derived",
}
_MINUTE = Quantity.of(1, "min", TIME)
_WEAK = ("memory", "practice")


def cited(source: Source) -> str:
    """`ASME B31.3-2016 Table 331.1.1 (published)`; a procedure with its revision."""
    known = _KNOWN.get(source.basis)
    if known is None:
        return f"{source.name} revision {source.edition}" if source.edition else source.name
    if source.edition and source.edition not in source.citation:
        known += f", taken over for edition {source.edition}"
    return f"{source.citation} ({known})"


def broken(governing: Governing, direction: Direction, value: Amount) -> list[Demand]:
    """The demands a value does not meet, the strictest first."""
    held = [
        (size(demand.bound_for(direction, value)), demand)
        for demand in governing.ordered(direction)
    ]
    measured, low = size(value), direction != "maximum"
    broken = [each for each in held if (measured < each[0] if low else measured > each[0])]
    return [demand for _, demand in sorted(broken, key=lambda item: item[0], reverse=low)]


def against(
    rule: Rule,
    governing: Governing | None,
    direction: Direction,
    value: Amount,
    at: Span,
    *,
    address: str,
    what: str,
) -> Finding | None:
    """A finding where a value breaks what governs it.

    Limits that exclude each other are left out: that no value meets both is told once, and the
    limits beside them go on counting.
    """
    if governing is None:
        return None
    contested = {id(low if direction == "minimum" else high) for low, high in governing.exclusive()}
    found = [d for d in broken(governing, direction, value) if id(d) not in contested]
    if not found:
        return None
    return breaks(rule, found, direction, value, at, address=address, what=what)


def breaks(
    rule: Rule,
    found: list[Demand],
    direction: Direction,
    value: Amount,
    at: Span,
    *,
    address: str,
    what: str,
) -> Finding:
    """The finding that a value breaks these demands, of which the first is the strictest."""
    first = found[0]
    bound = shown_bound(first, direction, value)
    asks = "asks for at least" if direction == "minimum" else "allows at most"
    firm = next((demand for demand in found if demand.limit.source.basis not in _WEAK), None)
    notes = working(first, direction)
    if firm is not None and firm is not first:
        notes.append(f"{cited(firm.limit.source)} {asks} {shown_bound(firm, direction, value)}")
    side = f" on the {first.side} side" if first.side else ""
    return rule.found(
        f"{what} is {shown(value)}, but {cited(first.limit.source)} {asks} {bound}{side}",
        at,
        address=address,
        others=places(first.limit.source),
        notes=notes,
        help=f"make it {bound} or {'more' if direction == 'minimum' else 'less'}",
        # A figure from memory warns; a firm one that is broken as well makes an error.
        basis=(firm or first).limit.source.basis,
    )


def shown(value: Amount, toward: str = "nearest") -> str:
    """The value, a quantity in both systems of units; a least one rounded "up"."""
    return value.both(toward) if isinstance(value, Quantity) else str(value)


def shown_bound(demand: Demand, direction: Direction, beside: Amount) -> str:
    """The bound in the unit of the value beside it, rounded so that keeping to it is safe."""
    bound = demand.both(direction, beside)
    if not isinstance(bound, Quantity) or not isinstance(beside, Quantity):
        return str(bound)
    toward = "up" if direction == "minimum" else "down"
    if bound.dimension is TIME and bound >= _MINUTE and bound.to("h").denominator > 2:
        return bound.show("min", 0, toward)
    if bound.unit is not beside.unit:
        bound = bound.in_unit(beside.unit.symbol)
    return bound.both(toward=toward)


def working(demand: Demand, direction: Direction) -> list[str]:
    """The formula with its numbers put in, and what the source says besides; may be empty."""
    notes = []
    formula = demand.shown(direction)
    bound = str(demand.bounds[direction])
    if any(mark in formula for mark in "(×/+−√^"):
        notes.append(f"{bound} = {formula}")
    return notes + quoted(demand.limit.source)


def quoted(source: Source) -> list[str]:
    """What the source warns of about the row, such as another edition that says otherwise."""
    return list(source.cautions)


def places(source: Source) -> list[Label]:
    """Where a procedure states the limit; nothing for a book."""
    return [] if source.at is None else [Label(source.at, "the limit")]
