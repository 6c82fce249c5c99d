"""Radiation inside a bore: from ring to ring along it, and round it.

Round a long bore the part cos(n a) of the emissive power keeps its shape, and loses the share
f_n of it. Along the bore whole rings see each other and the openings at the ends.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m2 K4), CODATA 2018


def ring_to_disc(distance: Values) -> Values:
    """View factor of a narrow ring of the bore to a disc across it, `distance` in diameters.

    (X2 + 1/2) / sqrt(X2 + 1) - X; Siegel and Howell, from memory.
    """
    x = np.abs(distance)
    return np.asarray((x**2 + 0.5) / np.sqrt(x**2 + 1.0) - x, dtype=float)


def round_factor(wave: int, emissivity: Values | float) -> Values:
    """Share f_n of the emissive power cos(n a) that is lost, n = `wave` at least 1.

    K = 1/(1 - 4 n2) is the share that comes back from across; f = e (1 - K)/(1 - (1 - e) K).
    """
    back = 1.0 / (1.0 - 4.0 * wave**2)
    e = np.asarray(emissivity, dtype=float)
    return np.asarray(e * (1.0 - back) / (1.0 - (1.0 - e) * back), dtype=float)


class Rings(tuple[Values, Values]):
    """The view factors (from ring, to ring), and of each ring to the openings together."""

    __slots__ = ()

    @property
    def to_rings(self) -> Values:
        """Shape (rings, rings)."""
        return self[0]

    @property
    def to_openings(self) -> Values:
        """Shape (rings,)."""
        return self[1]


def rings(edges: Values, diameter: float, *, mirrored: bool = False) -> Rings:
    """View factors between the rings that `edges`, m, cut a straight bore into.

    With `mirrored` the other half of the bore lies behind the first edge.
    """
    if mirrored:
        whole = np.concatenate((-edges[:0:-1], edges))
        factors, openings = rings(whole, diameter)
        n = len(edges) - 1
        return Rings((factors[n:, n:] + factors[n:, n - 1 :: -1], openings[n:]))
    near, far = edges[:-1, None] / diameter, edges[1:, None] / diameter
    widths = far - near
    faces = edges[None, :] / diameter
    # Share of each ring that goes through the cross-section at each face, to its right or left.
    right = (_sum(faces - near) - _sum(faces - far)) / widths
    left = (_sum(far - faces) - _sum(near - faces)) / widths
    n = len(edges) - 1
    row, column = np.indices((n, n))
    factors = np.where(column > row, right[:, :-1] - right[:, 1:], left[:, 1:] - left[:, :-1])
    alone = (_sum(widths) - _sum(np.zeros(1)))[:, 0] / widths[:, 0]
    np.fill_diagonal(factors, 1.0 - 2.0 * alone)
    return Rings((factors, right[:, -1] + left[:, 0]))


def _sum(x: Values) -> Values:
    """The integral of `ring_to_disc` from 0 to `x` diameters, `x` not negative."""
    x = np.abs(x)
    return np.asarray((x * np.sqrt(x**2 + 1.0) - x**2) / 2.0, dtype=float)


def net_loss(view: Rings, emissivity: Values) -> tuple[Values, Values]:
    """Net flux out of each ring as `matrix @ emissive powers + vector * that of the openings`.

    Grey, diffuse rings of `emissivity` each; a ring of emissivity 0 only sends back.
    """
    e = emissivity[:, None]
    # radiosity J = e E + (1 - e) (F J + F_open E_open)
    system = np.eye(len(emissivity)) - (1.0 - e) * view.to_rings
    lit = np.linalg.solve(
        system, np.concatenate((np.diag(emissivity), (1.0 - e) * view.to_openings[:, None]), axis=1)
    )
    received = view.to_rings @ lit
    received[:, -1] += view.to_openings
    out = -emissivity[:, None] * received
    out[:, :-1] += np.diag(emissivity)
    return out[:, :-1], out[:, -1]
