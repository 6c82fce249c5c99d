"""ITS-90 reference functions of the letter-designated thermocouples, and their inverse.

Temperatures are in degC (t90), emf in mV, Seebeck coefficients in uV/K. Source: NIST ITS-90
thermocouple tables (the same functions as IEC 60584-1 and ASTM E230).
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import exp
from typing import Any, NamedTuple

from hts.science.thermocouples.errors import OutOfRange, UnknownName
from hts.science.thermocouples.facts import facts

TYPES = ("B", "E", "J", "K", "N", "R", "S", "T")

# Newton stops when a step is smaller than this, in K.
_STEP = 1e-11
_MOST_STEPS = 100

# How far past an end of its range an emf may lie, in mV: the rounding of adding two emfs.
_ROUNDING = 1e-12


class _Piece(NamedTuple):
    """One polynomial of a reference function, in powers of (t - centre), highest first."""

    low: float
    high: float
    centre: float
    coefficients: tuple[float, ...]
    exponential: tuple[float, float, float] | None

    def emf_and_slope(self, celsius: float) -> tuple[float, float]:
        """E in mV and dE/dt in mV/K, by Horner's rule."""
        x = celsius - self.centre
        value = slope = 0.0
        for coefficient in self.coefficients:
            slope = slope * x + value
            value = value * x + coefficient
        if self.exponential:
            a0, a1, a2 = self.exponential
            bump = a0 * exp(a1 * (celsius - a2) ** 2)
            value += bump
            slope += bump * 2 * a1 * (celsius - a2)
        return value, slope

    def emf(self, celsius: float) -> float:
        return self.emf_and_slope(celsius)[0]


class _Function(NamedTuple):
    """A whole reference function; `inverse_low` and `lowest_emf` bound what can be inverted."""

    pieces: tuple[_Piece, ...]
    inverse_low: float
    lowest_emf: float
    highest_emf: float
    reason: str

    def piece_at(self, celsius: float) -> _Piece:
        return next(piece for piece in self.pieces if celsius <= piece.high)


def require_type(type: str) -> None:
    """Raise UnknownName unless `type` is a letter-designated thermocouple type."""
    if type not in TYPES:
        raise UnknownName("thermocouple type", type, TYPES)


def emf(type: str, celsius: float | Fraction, reference_celsius: float | Fraction = 0.0) -> float:
    """Emf in mV of a couple at `celsius` whose reference junction is at `reference_celsius`.

    Raises UnknownName for an unknown type, OutOfRange outside the reference function.
    """
    return _absolute(type, float(celsius)) - _absolute(type, float(reference_celsius))


def temperature(
    type: str, millivolts: float | Fraction, reference_celsius: float | Fraction = 0.0
) -> float:
    """Temperature in degC for an emf in mV; inverse of `emf` within 1e-9 K.

    At the joins of two polynomials the published functions themselves disagree by up to
    2e-6 K; an emf between the two sides gives the temperature of the join.
    Raises UnknownName, and OutOfRange with the emf referred to 0 degC. Type B cannot be
    inverted below 0.291 mV, where its emf first falls as the temperature rises.
    """
    target = float(millivolts) + _absolute(type, float(reference_celsius))
    function = _function(type)
    lowest, highest = function.lowest_emf, function.highest_emf
    if not lowest - _ROUNDING <= target <= highest + _ROUNDING:
        raise OutOfRange(type, target, lowest, highest, "mV", reason=function.reason)
    for piece in function.pieces:
        if target <= piece.emf(piece.high):
            return _solve(piece, max(piece.low, function.inverse_low), target)
    return function.pieces[-1].high


def seebeck(type: str, celsius: float | Fraction) -> float:
    """Seebeck coefficient dE/dt in uV/K at `celsius`. Raises UnknownName, OutOfRange."""
    value = float(celsius)
    _check(type, value)
    return 1000.0 * _function(type).piece_at(value).emf_and_slope(value)[1]


def temperature_range(type: str) -> tuple[float, float]:
    """Lowest and highest temperature of the reference function, degC. Raises UnknownName."""
    pieces = _function(type).pieces
    return pieces[0].low, pieces[-1].high


def emf_range(type: str) -> tuple[float, float]:
    """Lowest and highest emf in mV, reference junction 0 degC, that `temperature` accepts."""
    function = _function(type)
    return function.lowest_emf, function.highest_emf


def _absolute(type: str, celsius: float) -> float:
    """Emf in mV of the reference function, whose own reference junction is at 0 degC."""
    _check(type, celsius)
    return _function(type).piece_at(celsius).emf(celsius)


def _check(type: str, celsius: float) -> None:
    low, high = temperature_range(type)
    if not low <= celsius <= high:
        raise OutOfRange(type, celsius, low, high, "degC")


def _solve(piece: _Piece, low: float, target: float) -> float:
    """Temperature at which a rising piece gives `target` mV: Newton kept inside a bracket."""
    high = piece.high
    bottom, top = piece.emf(low), piece.emf(high)
    if target <= bottom:
        return low
    guess = low + (high - low) * (target - bottom) / (top - bottom)
    for _ in range(_MOST_STEPS):
        value, slope = piece.emf_and_slope(guess)
        if value < target:
            low = guess
        else:
            high = guess
        step = (target - value) / slope if slope > 0 else high - low
        if abs(step) < _STEP:
            return min(max(guess + step, piece.low), piece.high)
        following = guess + step
        guess = following if low < following < high else (low + high) / 2
    return guess


@cache
def _function(type: str) -> _Function:
    require_type(type)
    entry = facts("reference_functions")["types"][type]
    pieces = tuple(_piece(part) for part in entry["pieces"])
    inverse_low, lowest, reason = pieces[0].low, pieces[0].emf(pieces[0].low), ""
    if "invertible_from" in entry:
        inverse_low = float(entry["invertible_from"]["celsius"])
        lowest = float(entry["invertible_from"]["millivolt"])
        reason = f"type {type} cannot be inverted there: one emf can mean two temperatures"
    return _Function(pieces, inverse_low, lowest, pieces[-1].emf(pieces[-1].high), reason)


def _piece(part: dict[str, Any]) -> _Piece:
    """Read one polynomial and re-expand it about the middle of its range.

    In powers of t the terms of types E and T near -270 degC are a million times larger than
    their sum, which costs six digits; about the middle they are not. The change is made in
    exact fractions, so the function stays the published one.
    """
    low, high = Fraction(part["from"]), Fraction(part["to"])
    centre = (low + high) / 2
    shifted = [Fraction(text) for text in part["coefficients"]]
    for lowest in range(len(shifted) - 1):
        for power in range(len(shifted) - 2, lowest - 1, -1):
            shifted[power] += centre * shifted[power + 1]
    bump = part.get("exponential")
    return _Piece(
        float(low),
        float(high),
        float(centre),
        tuple(float(value) for value in reversed(shifted)),
        (float(bump["a0"]), float(bump["a1"]), float(bump["a2"])) if bump else None,
    )
