"""Finite elements for the temperature of a heated pipe, apart from the solver of the project.

Quadratic quadrilaterals and hexahedra of scikit-fem in (r, z) and (r, angle, z); nothing here
comes from `hts`. Over time the two-step backward difference formula on the heat content, solved
by Newton's method to 1e-6 K. Units: m, s, degC, W. Angles: radians from 12:00, half a ring.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable

import numpy as np
from scipy.sparse.linalg import splu
from skfem import (
    Basis,
    BilinearForm,
    ElementHex2,
    ElementQuad2,
    FacetBasis,
    LinearForm,
    MeshHex,
    MeshQuad,
)


class Table:
    """A value by temperature, degC: straight lines, constant beyond; with its exact integral."""

    def __init__(self, rows):
        self.x, self.y = (np.array(column, float) for column in zip(*rows, strict=True))
        pieces = np.diff(self.x) * (self.y[1:] + self.y[:-1]) / 2
        self.sums = np.concatenate([[0.0], np.cumsum(pieces)])

    def __call__(self, t):
        return np.interp(t, self.x, self.y)

    def slope(self, t):
        inside = (t > self.x[0]) & (t < self.x[-1])
        k = np.clip(np.searchsorted(self.x, t) - 1, 0, max(len(self.x) - 2, 0))
        if len(self.x) == 1:
            return np.zeros_like(t)
        return np.where(inside, (self.y[k + 1] - self.y[k]) / (self.x[k + 1] - self.x[k]), 0.0)

    def integral(self, t):
        """From the first temperature of the table to `t`."""
        if len(self.x) == 1:
            return (t - self.x[0]) * self.y[0]
        k = np.clip(np.searchsorted(self.x, t) - 1, 0, len(self.x) - 2)
        within = self.sums[k] + (t - self.x[k]) * (self.y[k] + self(t)) / 2
        below = (t - self.x[0]) * self.y[0]
        above = self.sums[-1] + (t - self.x[-1]) * self.y[-1]
        return np.where(t < self.x[0], below, np.where(t > self.x[-1], above, within))


def _lines(breaks, size, growth=1.0):
    """Places from the first break to the last, on every break, no step longer than `size`."""
    out = [breaks[0]]
    for a, b in itertools.pairwise(breaks):
        n = max(1, int(np.ceil((b - a) / size - 1e-9)))
        out += list(a + (b - a) * np.arange(1, n + 1) / n)
    return np.array(out)


class Axisymmetric:
    """A body of revolution in (r, z) from `z[0]` to `z[-1]`, closed to heat at both ends.

    `inner` and `outer` are radii as functions of z; `breaks` are places on which element edges
    must lie; `cover` and `flux` are functions of z alone: W/(m2 K) and W/m2.
    """

    def __init__(self, inner, outer, breaks, conductivity, *, through, size, bore, cover, flux,
                 air=20.0, density=1.0, heat=None):  # fmt: skip
        z = _lines(breaks, size)
        mesh = MeshQuad.init_tensor(np.linspace(0.0, 1.0, through + 1), z)
        place = mesh.p.copy()
        place[0] = inner(mesh.p[1]) + mesh.p[0] * (outer(mesh.p[1]) - inner(mesh.p[1]))
        at_bore = mesh.facets_satisfying(lambda x: np.abs(x[0]) < 1e-9)
        at_outside = mesh.facets_satisfying(lambda x: np.abs(x[0] - 1.0) < 1e-9)
        mesh = MeshQuad(place, mesh.t)
        self.inner, self.outer = inner, outer
        self.basis = Basis(mesh, ElementQuad2(), intorder=6)
        self.k, self.c, self.density, self.air = conductivity, heat, density, air
        bore_basis = FacetBasis(mesh, ElementQuad2(), facets=at_bore, intorder=6)
        self.out_basis = FacetBasis(mesh, ElementQuad2(), facets=at_outside, intorder=6)

        def loss(h):
            return BilinearForm(lambda u, v, w: h(w.x[1]) * u * v * w.x[0])

        def gain(h):
            return LinearForm(lambda v, w: h(w.x[1]) * v * w.x[0])

        def even(z):
            return bore + 0 * z

        out = self.out_basis
        self.loss = loss(even).assemble(bore_basis) + loss(cover).assemble(out)
        self.gain = air * (gain(even).assemble(bore_basis) + gain(cover).assemble(out))
        self.heating = gain(flux).assemble(out)

    def steady(self):
        t = np.full(self.basis.N, float(self.air))
        for _ in range(60):
            residual, slope = self._residual(t, self.heating)
            step = splu(slope.tocsc()).solve(-residual)
            t += step
            if np.abs(step).max() < 1e-6:
                return t
        raise AssertionError("finite elements did not settle")

    def run(self, start, end, step, factor: Callable[[float], float]):
        """The field after `end` s from an even `start`, flux times `factor` of the time."""
        before = now = np.full(self.basis.N, float(start))
        for n in range(1, round(end / step) + 1):
            # The first step by the one-step formula, thirty times finer.
            if n == 1:
                for m in range(1, 31):
                    now = self._step(now, now, None, step / 30, factor(m * step / 30))
            else:
                before, now = now, self._step(now, now, before, step, factor(n * step))
        return now

    def _step(self, guess, now, before, step, factor):
        t = guess.copy()
        for _ in range(40):
            residual, slope = self._residual(t, self.heating * factor)
            stored, capacity = self._stored(t, now, before, step)
            change = splu((slope + capacity).tocsc()).solve(-(residual + stored))
            t += change
            if np.abs(change).max() < 1e-6:
                return t
        raise AssertionError("finite elements did not settle")

    def _stored(self, t, now, before, step):
        at = self.basis.interpolate
        if before is None:

            def content(w):
                return self.c.integral(w.t) - self.c.integral(w.now)

            lead = 1.0
        else:

            def content(w):
                return (1.5 * self.c.integral(w.t) - 2 * self.c.integral(w.now)
                        + 0.5 * self.c.integral(w.before))  # fmt: skip

            lead = 1.5
        fields = {"t": at(t), "now": at(now), "before": at(now if before is None else before)}
        scale = self.density / step
        residual = LinearForm(lambda v, w: scale * content(w) * v * w.x[0])
        slope = BilinearForm(lambda u, v, w: scale * lead * self.c(w.t) * u * v * w.x[0])
        return residual.assemble(self.basis, **fields), slope.assemble(self.basis, **fields)

    def _residual(self, t, heating):
        field = self.basis.interpolate(t)

        @BilinearForm
        def slope(u, v, w):
            flow = w.t.grad
            through = u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1]
            carried = flow[0] * v.grad[0] + flow[1] * v.grad[1]
            return (self.k(w.t) * through + self.k.slope(w.t) * u * carried) * w.x[0]

        @LinearForm
        def flow(v, w):
            g = w.t.grad
            return self.k(w.t) * (g[0] * v.grad[0] + g[1] * v.grad[1]) * w.x[0]

        residual = flow.assemble(self.basis, t=field) + self.loss @ t - self.gain - heating
        return residual, slope.assemble(self.basis, t=field) + self.loss

    def at(self, t, z, depth):
        """Temperature at `z`, at `depth` from 0 outside to 1 in the bore."""
        r = self.outer(np.array(z)) - depth * (self.outer(np.array(z)) - self.inner(np.array(z)))
        inset = np.clip(r, self.inner(np.array(z)) + 1e-9, self.outer(np.array(z)) - 1e-9)
        return float((self.basis.probes(np.array([[float(inset)], [float(z)]])) @ t)[0])


def ring(inner, outer, half_length, conductivity, *, angles, lengths, through, round_, size,
         bore, cover, flux):  # fmt: skip
    """Steady excess over the surroundings, K, of half a ring and half a length; a function of
    (angle, z, depth). `bore` is a function of the angle and z, `cover` of z, `flux` of both."""
    mesh = MeshHex.init_tensor(
        np.linspace(inner, outer, through + 1),
        _lines([*angles], round_),
        _lines([*lengths], size),
    )
    assert abs(lengths[-1] - half_length) < 1e-12
    basis = Basis(mesh, ElementHex2(), intorder=4)

    @BilinearForm
    def stiff(u, v, w):
        r = w.x[0]
        return conductivity * (
            u.grad[0] * v.grad[0] * r + u.grad[1] * v.grad[1] / r + u.grad[2] * v.grad[2] * r
        )

    def loss(h):
        return BilinearForm(lambda u, v, w: h(w.x[1], w.x[2]) * u * v * w.x[0])

    gain = LinearForm(lambda v, w: flux(w.x[1], w.x[2]) * v * w.x[0])
    inside = mesh.facets_satisfying(lambda x: np.abs(x[0] - inner) < 1e-9)
    outside = mesh.facets_satisfying(lambda x: np.abs(x[0] - outer) < 1e-9)
    in_basis = FacetBasis(mesh, ElementHex2(), facets=inside, intorder=4)
    out_basis = FacetBasis(mesh, ElementHex2(), facets=outside, intorder=4)
    matrix = (
        stiff.assemble(basis)
        + loss(bore).assemble(in_basis)
        + loss(lambda a, z: cover(z) + 0 * a).assemble(out_basis)
    )
    t = splu(matrix.tocsc(), permc_spec="MMD_AT_PLUS_A").solve(gain.assemble(out_basis))

    def value(angle, z, depth):
        r = outer - depth * (outer - inner)
        r = min(max(r, inner + 1e-9), outer - 1e-9)
        z, angle = max(z, 1e-9), min(max(angle, 1e-9), np.pi - 1e-9)
        return float((basis.probes(np.array([[r], [angle], [z]])) @ t)[0])

    return value
