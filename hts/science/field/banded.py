"""Linear systems of a pipe: a Fourier series round it makes one narrow band per wave.

The matrix is the mean round the pipe, so that waves do not mix; what varies round the pipe is in
the residual and settles in a few passes. All bands stand in one matrix with nothing between.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.linalg.lapack import dpbtrf, dpbtrs

Values = NDArray[np.float64]
Waves = NDArray[np.complex128]


def to_waves(values: Values) -> Waves:
    """The Fourier series round the pipe, along the first axis."""
    return np.asarray(np.fft.rfft(values, axis=0), dtype=complex)


def from_waves(waves: Waves, cells: int) -> Values:
    """The values in `cells` round the pipe of a Fourier series."""
    return np.asarray(np.fft.irfft(waves, n=cells, axis=0), dtype=float)


class Bands:
    """A factored system over waves x (along, through)."""

    def __init__(self, diagonal: Values, radial: Values, axial: Values) -> None:
        """`diagonal` (waves, along, through); `radial` (along, through - 1) and `axial`
        (along - 1, through) are links between nodes, the same in every wave, not negative.

        The diagonal is without the links. Raises ArithmeticError where there is no solution.
        """
        waves, along, through = diagonal.shape
        size = along * through
        both = np.zeros((along, through))
        both[:, :-1] += radial
        both[:, 1:] += radial
        both[:-1] += axial
        both[1:] += axial
        rows = np.zeros((waves, through + 1, size))
        rows[:, 0] = (diagonal + both).reshape(waves, size)
        off = np.zeros((along, through))
        off[:, :-1] = -radial
        rows[:, 1] = off.ravel()
        if through > 1:
            rows[:, through, : size - through] = -axial.ravel()
        packed = np.asfortranarray(np.moveaxis(rows, 0, 1).reshape(through + 1, waves * size))
        self._factor, failed = dpbtrf(packed, lower=1, overwrite_ab=1)
        if failed:
            raise ArithmeticError("no heat can leave part of the pipe: it has no temperature")
        self._shape, self._size = (waves, along, through), size

    def solve(self, right: Waves) -> Waves:
        """The solution for right sides (columns, waves, along, through)."""
        columns = len(right)
        flat = right.reshape(columns, -1)
        both = np.concatenate((flat.real, flat.imag)).T
        solution, _ = dpbtrs(self._factor, np.asfortranarray(both), lower=1, overwrite_b=1)
        joined = solution[:, :columns] + 1j * solution[:, columns:]
        return np.asarray(joined.T.reshape(columns, *self._shape), dtype=complex)

    def solve_mean(self, right: Values) -> Values:
        """The solution in the mean round the pipe, for right sides (along * through, columns)."""
        own = self._factor[:, : self._size]
        solution, _ = dpbtrs(np.asfortranarray(own), np.asfortranarray(right), lower=1)
        return np.asarray(solution, dtype=float)
