"""What a procedure asks for is plausible for every weld it is for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from fractions import Fraction
from typing import TYPE_CHECKING

from hts.base.quantities import TEMPERATURE, TIME, Quantity, QuantityError
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import (
    WorkedOut,
    asked_for,
    by_quantity,
    own_procedures,
    place,
    worked_out,
)
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.limits.looser import is_general_ceiling

if TYPE_CHECKING:
    from hts.limits.worked import Bound, Column, Weld

_RATE = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm"
_HOLD = "  hold time        at least 2.5 min/mm * t"

_DELAY = "  delay before heat treatment  at most 48 h"


def _preheated(least: int) -> tuple[tuple[str, str], ...]:
    line = "  interpass        at most 350 degC"
    more = f"governed by asme-b31.1 edition 2018\n  preheat at least {least} degC when p_number = 4"
    return ((line, f"{line}\n  {more}"),)


RULE = Rule(
    "R116",
    "implausible-limit",
    "warning",
    summary="A limit of a procedure or of a rule book of one's own that, worked out for a metal and a wall it is for, is far from "
    "what the trade asks for.",
    why="A formula hides a slipped digit: `250 mm / t` for `25 mm / t` allows ten times the rate, "
    "and no weld of the job at hand need show it.",
    fix="Check the figures of the row. Where it is meant, waive the finding with the reason.",
    source="common practice: hold ranges round those of ASME B31.3 table 331.1.1 in its editions of 2012 and 2018, rates round "
    "those of paragraph 331.1.4, hold by the thickness round 1 h/in; bands round those of local "
    "heating by attenuation length",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    _RATE,
                    "  heating rate at most max(55 degC/h, 110 degC/h * 250 mm / t) above 315 degC",
                ),
            ),
            base="owner",
            at="max(55",
            says="55 degC/h, 110 degC/h * 250 mm … to 4583 degC/h (8250 degF/h) for 6 mm … at most about 600 degC/h",
        ),
        Bad(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  zones at least 4 when outside_diameter >= 36 mm",
                ),
            ),
            base="owner",
            at="4",
            says="zones at least 4 comes to 4 for 16 mm of wall",
        ),
        Bad(
            _preheated(117),
            base="owner",
            at="117 degC",
            says="at least 117 degC comes to 117 degC (242.6 degF) for P-4, 16 mm … at least about 118 degC",
        ),
    ),
    edges=(
        Edge(
            (("  hold time        at most 6 h", "  hold time        at most {}"),),
            keeps="24 h",
            breaks="25 h",
            base="owner",
            says="hold time at most 25 h; usual is at most about 24 h",
        ),
        Edge(
            ((_RATE, "  heating rate at most 200 degC/h above {} when t <= 60 mm"),),
            keeps="450 degC",
            breaks="451 degC",
            base="owner",
            says="only above 451 degC (844 degF) … at most about 450 degC (842 degF)",
        ),
        Edge(
            ((_DELAY, "  delay before heat treatment at most 2 * {} when p_number in (4, 5A)"),),
            keeps="120 h",
            breaks="121 h",
            base="owner",
            says="at most 2 * 121 h comes to 242 h for P-4, 16 mm … at most about 240 h",
        ),
        Edge(
            (("  hold time        at least 2.5 min/mm * t", "  hold time at least {}/mm * t"),),
            keeps="0.50 min",
            breaks="0.49 min",
            base="owner",
            says="at least 0.49 min/mm … to 2.94 min for 6 mm … at least about 3 min",
        ),
    ),
    good=(
        Good(_preheated(118), base="owner"),
        # By no code of ASME: 13CrMo4-5 is preheated to 100 degC in EN 13480-4.
        Good(
            (
                (
                    "  interpass        at most 350 degC",
                    "  interpass        at most 350 degC\n  preheat at least 105 degC when p_number = 4",
                ),
            ),
            base="owner",
        ),
        # Carbon steel may wait.
        Good(
            (
                (
                    _DELAY,
                    "  delay before heat treatment at most 448 h when p_number = 1\n"
                    "  delay before heat treatment at most 48 h when p_number != 1",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  hold temperature at most 800 degC\n"
                    "  hold temperature at least 690 degC at most 740 degC when p_number = 5A",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    _RATE,
                    "  heating rate at most max(55 degC/h, 110 degC/h * 25 mm / t) above 315 degC",
                ),
            ),
            base="owner",
        ),
    ),
)

#: Hold ranges in degC by P-number: a little wider than those of ASME B31.3 table 331.1.1, 2012 to 2018, and of DNV-OS-C401.
_HOLDS = {
    "1": (540, 690),
    "3": (540, 725),
    "4": (610, 765),
    "5A": (635, 780),
    "5B": (635, 780),
    "15E": (680, 800),
}
#: Least preheat in degC for a thick wall: the lower end of what any code asks for.
_PREHEATS = {"4": 90, "5A": 120, "5B": 120, "15E": 140}
#: The same of the codes of ASME: B31.1 and B31.3 of 2018, VIII-1 appendix R, from memory.
_PREHEATS_BY_ASME = {"4": 118, "5A": 145, "5B": 145, "15E": 200}

#: A greatest preheat in degC below which no weld of the metal is begun: the codes ask for as much.
_CEILINGS = {"4": 160, "5A": 180, "5B": 180, "15E": 200}

#: Rates count from 315 degC (ASME B31.1 132.5) to 427 degC (ASME VIII-1 UCS-56) on; of steels that turn
#: brittle, from 650 degC down (ASME VIII-1 UHA-32).
_LATEST = Quantity.of(450, "degC", TEMPERATURE)
_BRITTLE = ("6", "7", "8", "10H", "10I")

#: The least and the greatest plausible value in mm, s, degC or degC/h, None for no end.
Ends = tuple[Fraction | float | None, Fraction | float | None]
_H = 3600
#: Outside diameter in mm of pipe that one or two zones heat: NPS 4.
_SMALL = Fraction("114.3")


#: The greatest that is usual of limits that hang on nothing.
_GREATEST = {
    "hold time": Quantity.of(24, "h", TIME),
    "weld cooling time": Quantity.of(60, "s", TIME),
}


@RULE.for_spec
def check(case: Case) -> None:
    _greatest(case)
    told: set[tuple[int, str]] = set()
    for found in worked_out(case):
        by_asme = _is_by_asme(case, found.name)
        for column in found.columns:
            for bound in (*strange(column), *(_colder_than_asme(column) if by_asme else ())):
                # Editions of a book share rows.
                which = found.place(bound.row, column.direction).start, column.quantity
                if which not in told:
                    told.add(which)
                    _tell(case, found, column, bound)
            late = next(_late(column), None)
            if late is not None:
                place = found.place(late[0].row, "above")
                if (place.start, "above") not in told:
                    told.add((place.start, "above"))
                    message = (
                        f"{column.quantity} is limited only above {late[1].both()}; usual is at most "
                        f"about {_LATEST.both()}"
                    )
                    case.add(RULE.found(message, place, address=found.name, basis=RULE.basis))


def _greatest(case: Case) -> None:
    for procedure in own_procedures(case):
        for quantity, usual in _GREATEST.items():
            for row in by_quantity(procedure).get(quantity, ()):
                most = None
                with suppress(QuantityError):
                    most = (
                        Quantity.read(row.maximum.text, TIME) if row.maximum is not None else None
                    )
                if most is not None and most > usual and not row.source.note:
                    message = (
                        f"{quantity} {asked_for(row, 'maximum')}; usual is at most about {usual}"
                    )
                    at = place(procedure, row, "maximum")
                    case.add(RULE.found(message, at, address=procedure.name, basis=RULE.basis))


def _late(column: Column) -> Iterator[tuple[Bound, Quantity]]:
    """A rate that counts only where the metal has long been hot, and from where."""
    for weld, bound in column.bounds if column.quantity.endswith("rate") else ():
        row = bound.row if bound is not None else None
        if bound is None or row is None or row.above is None or weld.p_number in _BRITTLE:
            continue
        with suppress(QuantityError):
            above = Quantity.read(row.above.text, TEMPERATURE)
            if above > _LATEST:
                yield bound, above


def strange(column: Column) -> Iterator[Bound]:
    """What a quantity comes to for each weld for which that is not plausible."""
    ends = _ENDS.get(column.quantity)
    if ends is None:
        return
    thickest = max((weld.wall for weld, _ in column.bounds), default=Fraction(0))
    for weld, bound in column.bounds:
        if bound is None or is_general_ceiling(bound.row):
            continue
        low, high = ends(weld, column.direction)
        if column.quantity == "preheat" and column.direction == "minimum" and weld.wall < thickest:
            low = None
        if (low is not None and bound.number < low) or (high is not None and bound.number > high):
            yield bound


def _is_by_asme(case: Case, name: str) -> bool:
    """Whether a procedure stands under codes of ASME alone."""
    own = next((each for each in case.spec.file.procedures if each.name == name), None)
    books = [edition.book or "" for edition in own.governed_by] if own is not None else []
    return bool(books) and all(book.startswith("asme-") for book in books)


def _colder_than_asme(column: Column) -> Iterator[Bound]:
    """A preheat of the thickest weld that is plausible, and colder than any code of ASME has it."""
    if column.quantity != "preheat" or column.direction != "minimum":
        return
    thickest = max((weld.wall for weld, _ in column.bounds), default=Fraction(0))
    for weld, bound in column.bounds:
        least = _PREHEATS_BY_ASME.get(weld.p_number)
        if bound is None or least is None or weld.wall < thickest:
            continue
        if _PREHEATS[weld.p_number] <= bound.number < least:
            yield bound


def _tell(case: Case, found: WorkedOut, column: Column, bound: Bound) -> None:
    weld = bound.weld
    metal = f"P-{weld.p_number}, " if weld.p_number else ""
    value = bound.value.both() if isinstance(bound.value, Quantity) else str(bound.value)
    case.add(
        RULE.found(
            f"{column.quantity} {asked_for(bound.row, column.direction)} comes to {value} for "
            f"{metal}{round(float(weld.wall), 1):g} mm of wall{_usual(column, bound)}",
            found.place(bound.row, column.direction),
            address=found.name,
            basis=RULE.basis,
        )
    )


def _usual(column: Column, bound: Bound) -> str:
    """The end of the usual range that it lies beyond, in the unit of the row."""
    if not isinstance(bound.value, Quantity):
        return ""
    low, high = _ENDS[column.quantity](bound.weld, column.direction)
    if column.quantity == "preheat" and low is not None and low <= bound.number:
        low = _PREHEATS_BY_ASME.get(bound.weld.p_number)
    below = low is not None and bound.number < low
    end = low if below else high
    unit = bound.value.unit
    figure = float(unit.from_canonical(Fraction(end))) if end is not None else 0.0
    return f"; usual is at {'least' if below else 'most'} about {float(f'{figure:.3g}'):g} {unit.symbol}"


def _hold_temperature(weld: Weld, direction: str) -> Ends:
    low, high = _HOLDS.get(weld.p_number, (450, 1150))
    return low, high


def _hold_time(weld: Weld, direction: str) -> Ends:
    wall = float(weld.wall)
    if direction == "minimum":
        return min(600.0, 30 * wall), max(5 * _H, 5 * 60 * wall)
    return _H, max(24 * _H, 10 * 60 * wall)


def _bake_time(weld: Weld, direction: str) -> Ends:
    return (
        (1800, max(12 * _H, 10 * 60 * float(weld.wall))) if direction == "minimum" else (None, None)
    )


def _rate(weld: Weld, direction: str) -> Ends:
    wall = float(weld.wall)
    if direction == "minimum":
        return None, None
    fastest = min(600.0, 3 * 335 * 25.4 / wall)
    return min(50.0, 0.4 * 222 * 25.4 / wall), max(fastest, 160.0)


def _preheat(weld: Weld, direction: str) -> Ends:
    if direction == "maximum":
        return _CEILINGS.get(weld.p_number), None
    return _PREHEATS.get(weld.p_number), None


def _width(least: float, most: float, *, times: int) -> Callable[[Weld, str], Ends]:
    """Each side the most of a least figure and some walls."""

    def ends(weld: Weld, direction: str) -> Ends:
        wall = float(weld.wall)
        cap = wall + 5 if times == 2 else 0
        return (cap + times * least), (cap + times * max(most, 6 * wall))

    return ends


def _band(begins: str, least: float, most: float, more: float) -> Callable[[Weld, str], Ends]:
    """Beyond another width some attenuation lengths, the root of inside radius times wall, and at
    the most some mm."""

    def ends(weld: Weld, direction: str) -> Ends:
        inner = weld.facts[begins]
        assert isinstance(inner, Quantity)
        length = float((weld.outside / 2 - weld.wall) * weld.wall) ** 0.5
        width = float(inner.value)
        return width + least * length, width + most * length + more

    return ends


def _delay(weld: Weld, direction: str) -> Ends:
    """Steel that hardens is not left cold, and with its hydrogen in it, for weeks."""
    return None, 240 * _H if weld.p_number in _PREHEATS else None


def _share_of_qualified(weld: Weld, direction: str) -> Ends:
    return (0.4 * 5 * _H, 1.6 * 5 * _H) if direction == "maximum" else (None, None)


def _zones(weld: Weld, direction: str) -> Ends:
    """Round a small pipe there is no room for the heaters of many zones."""
    return None, 2 if weld.outside <= _SMALL else None


_ENDS: dict[str, Callable[[Weld, str], Ends]] = {
    "zones": _zones,
    "hold temperature": _hold_temperature,
    "hold time": _hold_time,
    "total hold": _share_of_qualified,
    "bake time": _bake_time,
    "delay before heat treatment": _delay,
    "heating rate": _rate,
    "cooling rate": _rate,
    "preheat": _preheat,
    "preheat width": _width(35, 150, times=1),
    "soak band": _width(3, 75, times=2),
    "bake width": _width(25, 150, times=2),
    "heated band": _band("soak_band", 1, 14, 150),
    # Blankets of 300 mm beyond the heaters on each side are asked for on thin pipe, too.
    "gradient band": _band("heated_band", 1, 14, 600),
}
