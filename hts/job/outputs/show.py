"""Quantities as they go onto paper: in the units of the job, rounded so that no limit is crossed.

A least value is never shown smaller than it is, a greatest never larger.
"""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import LENGTH, RATE, TEMPERATURE, TIME, Dimension, Interval, Quantity
from hts.base.quantities.duration import show_duration
from hts.base.quantities.number import places_for, round_to, short_text
from hts.job.compiler.changes import Changes
from hts.job.compiler.units import Units, led_by
from hts.science.tables.pipe import inches_of

UP, DOWN, NEAREST = "up", "down", "nearest"
TOWARD = {"minimum": UP, "maximum": DOWN, "exactly": NEAREST}

_SIGN = {
    "degC": "°C",
    "degF": "°F",
    "degC/h": "°C/h",
    "degF/h": "°F/h",
    "m2K/W": "m²K/W",
    "W/cm2": "W/cm²",
    "kg/m3": "kg/m³",
}
_TAPE = {"mm": 0, "in": 2}
#: Marks of a rule or tape in an inch; decimals of a wall and of a long length.
_MARKS = 16
#: in. Shorter ones are told in thousandths.
_FINE = Fraction(1, 4)
_WALL, _LONG_PLACES = {"mm": 1, "in": 3}, {"m": 2, "ft": 1}
#: mm. From here on a length is told in m and ft, and from the second on whatever its unit was.
_METRE, _FAR = 1000, 3000
_LONG = {"mm": "m", "in": "ft"}
_FIGURES = 2
_MINUTE = 60


class Shown:
    """Shows values in the units of one job, and which rows changed."""

    def __init__(self, units: Units, changes: Changes | None = None) -> None:
        self.units = units
        self.changes = changes

    def single(self) -> Shown:
        """The same in the governing system alone, where room is short."""
        return Shown(Units(self.units.systems[:1]), self.changes)

    def led_by(self, symbol: str) -> Shown:
        """The same with the unit of temperature that is set on an instrument first."""
        return Shown(led_by(self.units, symbol), self.changes)

    def changed(self, joint: str, treatment: str, kind: str, name: str) -> str:
        """The mark of a row (hts.job.compiler.changes); empty where nothing is known of changes."""
        return "" if self.changes is None else self.changes.of(joint, treatment, kind, name)

    # Tables for programs: one column for each unit -------------------------------------------

    def columns(self, label: str, dimension: Dimension) -> list[str]:
        """Headings: `from [degC]`, `from [degF]`."""
        return [f"{label} [{symbol}]" for symbol in self.units.symbols(dimension)]

    def cells(
        self, value: Quantity | None, dimension: Dimension, toward: str = NEAREST
    ) -> list[str]:
        """The numbers for those columns, empty where there is no value."""
        return [
            "" if value is None else number(value, symbol, toward)
            for symbol in self.units.symbols(dimension)
        ]

    def tape_cells(self, value: Quantity | None) -> list[str]:
        """A length round the pipe, no finer than a tape is read."""
        return [
            "" if value is None else short_text(value.to(symbol), _TAPE[symbol])
            for symbol in self.units.symbols(LENGTH)
        ]

    def setpoint_cells(self, value: Quantity | None, window: Interval | None) -> list[str]:
        """A temperature to be set; inside a hold range it stays inside as shown."""
        symbols = self.units.symbols(TEMPERATURE)
        if value is None:
            return [""] * len(symbols)
        return [_inside(value, window, symbol) for symbol in symbols]

    # Sheets for people: one cell, the other system in brackets ---------------------------------

    def head(self, label: str, dimension: Dimension) -> str:
        """Heading: `From, °C (°F)`."""
        first, *others = (sign(symbol) for symbol in self.units.symbols(dimension))
        return f"{label}, {first} ({others[0]})" if others else f"{label}, {first}"

    def bare(self, value: Quantity | None, dimension: Dimension, toward: str = NEAREST) -> str:
        """The cell below it: `715 (1319)`."""
        if value is None:
            return ""
        symbols = self.units.symbols(dimension)
        return _bracketed([spoken(value, symbol, toward) for symbol in symbols])

    def tape(self, value: Quantity | None) -> str:
        """The cell of a length round the pipe."""
        if value is None:
            return ""
        symbols = self.units.symbols(LENGTH)
        return _bracketed([_taped(value.to(symbol), symbol) for symbol in symbols])

    def tape_text(self, value: Quantity) -> str:
        """A length round the pipe, in running text."""
        symbols = self.units.symbols(LENGTH)
        return _bracketed([f"{_taped(value.to(symbol), symbol)} {symbol}" for symbol in symbols])

    def diameter(self, value: Quantity) -> str:
        """An outside diameter: in inches that of the nominal size, `610 mm (24 in)`."""
        printed = inches_of(value)
        texts = []
        for symbol in self.units.symbols(LENGTH):
            exact = printed if printed is not None and symbol == "in" else value.to(symbol)
            texts.append(f"{short_text(exact, _WALL[symbol])} {symbol}")
        return _bracketed(texts)

    def wall(self, value: Quantity) -> str:
        """A wall: in inches to the thousandth, as it is measured."""
        symbols = self.units.symbols(LENGTH)
        return _bracketed(
            [f"{short_text(value.to(symbol), _WALL[symbol])} {symbol}" for symbol in symbols]
        )

    def setpoint(self, value: Quantity | None, window: Interval | None = None) -> str:
        """The cell of a temperature to be set."""
        if value is None:
            return ""
        return _bracketed([_set(value, window, one) for one in self.units.symbols(TEMPERATURE)])

    def setpoint_text(self, value: Quantity, window: Interval | None = None) -> str:
        """A temperature to be set, in running text."""
        symbols = self.units.symbols(TEMPERATURE)
        return _bracketed([f"{_set(value, window, symbol)} {sign(symbol)}" for symbol in symbols])

    def text(self, value: Quantity, toward: str = NEAREST) -> str:
        """The value in running text: `715 °C (1319 °F)`."""
        if value.dimension is LENGTH and _is_long(value):
            return self._far(value, toward)
        texts = [
            f"{spoken(value, symbol, toward)} {sign(symbol)}".rstrip()
            for symbol in self._symbols(value)
        ]
        return _bracketed(texts)

    def _far(self, value: Quantity, toward: str) -> str:
        texts = []
        for symbol in self.units.symbols(LENGTH):
            unit = _LONG[symbol]
            texts.append(f"{short_text(value.to(unit), _LONG_PLACES[unit], toward)} {unit}")
        return _bracketed(texts)

    def bare_window(self, window: Interval | None) -> str:
        """A range in a cell whose heading has the units."""
        if window is None:
            return ""
        assert window.low is not None and window.high is not None
        return _bracketed(
            [_range(window.low, window.high, s) for s in self.units.symbols(window.dimension)]
        )

    def _symbols(self, value: Quantity) -> tuple[str, ...]:
        # What has no unit of its own in a system, such as a hardness, stays as it was written.
        symbols = self.units.symbols(value.dimension)
        return symbols if value.unit.partner is not None else (value.unit.symbol,)


def number(value: Quantity, symbol: str, toward: str = NEAREST) -> str:
    """The number alone, with the decimals that are of use at the pipe."""
    exact = value.number_shown(symbol, toward)
    return short_text(exact, _places(exact, value.dimension, symbol, toward), toward)


def spoken(value: Quantity, symbol: str, toward: str = NEAREST) -> str:
    """The number as people read it: degrees of the other unit are whole, inches are in sixteenths
    as on a tape, each to the side that keeps the limit."""
    if value.dimension is TEMPERATURE and symbol != value.unit.symbol:
        return short_text(value.number_shown(symbol, toward), 0, toward)
    if value.dimension is LENGTH and symbol == "in":
        return _inches(value.number_shown(symbol, toward), toward)
    return number(value, symbol, toward)


def _range(low: Quantity, high: Quantity, symbol: str) -> str:
    if low.number_shown(symbol, UP) > high.number_shown(symbol, DOWN):
        # What codes print in this system leaves nothing: the range as written is all there is.
        low, high = Quantity(low.value, low.unit), Quantity(high.value, high.unit)
    return f"{spoken(low, symbol, UP)} to {spoken(high, symbol, DOWN)}"


def _inches(exact: Fraction, toward: str) -> str:
    """`47 1/4`; a length too short for sixteenths in thousandths."""
    parts = round_to(exact * _MARKS, 0, toward) / _MARKS
    if parts != exact and abs(exact) < _FINE:
        return short_text(exact, 3, toward)
    whole, rest = divmod(abs(parts), 1)
    sign_of = "-" if parts < 0 else ""
    if not rest:
        return f"{sign_of}{whole}"
    return f"{sign_of}{f'{whole} ' if whole else ''}{rest.numerator}/{rest.denominator}"


def _taped(exact: Fraction, symbol: str) -> str:
    return _inches(exact, NEAREST) if symbol == "in" else short_text(exact, _TAPE[symbol])


def _is_long(value: Quantity) -> bool:
    size = abs(value.to("mm"))
    return size >= _FAR or (value.unit.symbol in ("m", "ft") and size >= _METRE)


def _set(value: Quantity, window: Interval | None, symbol: str) -> str:
    """A temperature to be set as people read it; whole degrees in the unit that is not its own."""
    if symbol == value.unit.symbol:
        return _inside(value, window, symbol)
    rounded = round_to(value.to(symbol), 0)
    if window is not None and window.low is not None and window.high is not None:
        low = round_to(window.low.number_shown(symbol, UP), 0, UP)
        high = round_to(window.high.number_shown(symbol, DOWN), 0, DOWN)
        if low <= high:
            rounded = min(max(rounded, low), high)
    return short_text(rounded, 0)


def _places(exact: Fraction, dimension: Dimension, symbol: str, toward: str) -> int:
    if dimension is TEMPERATURE:
        return 0 if exact.denominator == 1 else 1
    if dimension is RATE:
        return places_for(exact, _FIGURES)
    if dimension is LENGTH:
        if symbol != "mm":
            return 3
        return 0 if toward != NEAREST else 1
    return max(1, places_for(exact, _FIGURES))


def _inside(value: Quantity, window: Interval | None, symbol: str) -> str:
    exact = value.to(symbol)
    places = _places(exact, value.dimension, symbol, NEAREST)
    rounded = round_to(exact, places)
    if window is not None and window.low is not None and window.high is not None:
        low, high = (
            round_to(
                at := end.number_shown(symbol, way), _places(at, TEMPERATURE, symbol, way), way
            )
            for end, way in ((window.low, UP), (window.high, DOWN))
        )
        if low <= high:
            rounded = min(max(rounded, low), high)
    return short_text(rounded, 1)


def sign(symbol: str) -> str:
    """A unit as printed."""
    return _SIGN.get(symbol, symbol)


def minutes(seconds: Fraction | None, toward: str = NEAREST, places: int = 1) -> str:
    """Minutes with at most so many decimals; `open` where nothing limits the time."""
    return "open" if seconds is None else short_text(seconds / _MINUTE, places, toward)


def clock_time(seconds: Fraction | None, toward: str = NEAREST) -> str:
    """Hours and minutes as on a clock, `4:14`; `open` where nothing limits the time."""
    if seconds is None:
        return "open"
    whole = int(round_to(seconds / _MINUTE, 0, toward))
    return f"{whole // 60}:{whole % 60:02d}"


def duration(seconds: Fraction, toward: str = UP, smallest: str = "") -> str:
    """`2 h 14 min`; with seconds where they are not zero, unless `smallest` says otherwise."""
    smallest = smallest or ("min" if seconds % _MINUTE == 0 else "s")
    return show_duration(Quantity.of(seconds, "s", TIME), smallest, toward)


def _bracketed(texts: list[str]) -> str:
    if len(texts) > 1 and texts[0]:
        return f"{texts[0]} ({texts[1]})"
    return texts[0]
