"""Stations of a mesh: on every place asked for, and never far apart where they are to be close."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from hts.science.field.mesh import mesh
from hts.science.field.metal import tabulated
from hts.science.field.pipe import straight

_METAL = tabulated("even", 7800.0, [(20.0, 30.0)], [(20.0, 600.0)])
_LENGTHS = st.floats(0.02, 0.9)


@given(places=st.lists(_LENGTHS, max_size=3), fine_to=_LENGTHS, mirrored=st.booleans())
def test_stations(places, fine_to, mirrored):
    pipe = straight(0.5, 0.02, _METAL, half_length=1.0, mirrored=mirrored)
    asked = [*places, fine_to]
    z = mesh(pipe, places=asked, fine_to=fine_to, through=3).z
    assert z[0] == (0.0 if mirrored else -1.0) and z[-1] == 1.0
    steps, middles = np.diff(z), np.abs(z[1:] + z[:-1]) / 2
    assert (steps > 0).all()
    assert (steps[middles < fine_to] < 0.0115 + 1e-6).all()
    assert (steps < 0.03 + 1e-6).all()
    for place in asked:
        assert np.abs(z - place).min() < 1e-8
