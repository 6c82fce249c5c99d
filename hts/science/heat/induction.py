"""How deep induced current flows."""

from __future__ import annotations

from math import pi, sqrt

from hts.base.arguments import positive

_VACUUM = 4e-7 * pi  # H/m


def penetration_depth(hertz: float, resistivity: float, permeability: float = 1.0) -> float:
    """Depth, m, at which the current has fallen to 1/e: sqrt(2 rho / (omega mu)).

    `resistivity` ohm m; `permeability` relative, 1 above the Curie point. Below it the
    permeability depends on the strength of the field: an order of size only.
    """
    positive(hertz=hertz, resistivity=resistivity, permeability=permeability)
    return sqrt(resistivity / (pi * hertz * permeability * _VACUUM))
