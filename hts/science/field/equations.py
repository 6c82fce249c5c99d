"""The heat balances of all cells, and the linear step that brings them nearer to zero."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from hts.science.field.banded import Bands, Waves, from_waves, to_waves
from hts.science.field.exchange import net_loss, rings, round_factor
from hts.science.field.mesh import Mesh
from hts.science.field.pipe import Pipe
from hts.science.field.state import Reading
from hts.science.field.surfaces import (
    Bore,
    BoreLoss,
    Cover,
    Loss,
    Zone,
    emissive,
    emissive_slope,
    share_along,
    share_round,
)

Values = NDArray[np.float64]


class Equations:
    """The balances of a pipe: one for each cell, W."""

    def __init__(
        self,
        pipe: Pipe,
        grid: Mesh,
        bore: Sequence[Bore],
        cover: Sequence[Cover],
        zones: Sequence[Zone],
        openings: float,
    ) -> None:
        n = grid.round
        self.mesh, self.pipe = grid, pipe
        #: Of each cell round the one after it.
        self._next = np.roll(np.arange(n), -1)
        self.empty = grid.volume <= 0.0
        metals = [pipe.metal] if pipe.other is None else [pipe.metal, pipe.other]
        second = grid.z >= pipe.joined_at
        self._spans = (
            [(pipe.metal, slice(None))]
            if pipe.other is None
            else [(m, s) for m, s in zip(metals, (~second, second), strict=True) if s.any()]
        )
        density = np.where(second, metals[-1].density, pipe.metal.density)
        self.mass = density[None, :, None] * np.broadcast_to(grid.volume, (n, *grid.volume.shape))
        self._cover = Loss(cover, grid.edges, grid.outside.along)
        self._bore = BoreLoss(bore, grid.edges, grid.bore.along, grid.angles)
        self._outside_area, self._bore_area = grid.outside.area / n, grid.bore.area / n
        self._radiates = bool(self._bore.emissivity.any())
        if self._radiates:
            self._prepare_rings(openings)
        self._prepare_zones(zones)

    def _prepare_rings(self, openings: float) -> None:
        """Rings of a straight bore: one a station, as wide as the stretch it stands for."""
        grid, e = self.mesh, self._bore.emissivity
        view = rings(grid.edges, 2.0 * float(grid.inner.mean()), mirrored=self.pipe.mirrored)
        matrix, to_openings = net_loss(view, e)
        self._exchange = matrix
        self._from_openings = to_openings * emissive(np.array(openings))
        waves = grid.round // 2 + 1
        self._factors = np.stack([
            np.zeros(len(e)) if wave == 0 else round_factor(wave, e) for wave in range(waves)
        ])  # fmt: skip
        # Share of each patch in the ring of its station, and the area of the ring.
        self._ring_area = np.bincount(grid.bore.along, grid.bore.area, len(grid.z)) / grid.round
        total = self._ring_area[grid.bore.along]
        self._patch_share = self._bore_area / total
        size = grid.volume.size
        self._to_ring = np.zeros((size, len(grid.z)))
        cell = grid.bore.along * grid.volume.shape[1] + grid.bore.through
        self._to_ring[cell, grid.bore.along] = self._patch_share

    def _prepare_zones(self, zones: Sequence[Zone]) -> None:
        grid = self.mesh
        shares = np.zeros((len(zones), grid.round, len(grid.outside.area)))
        for k, zone in enumerate(zones):
            along = share_along(grid.edges, zone.start, zone.end)[grid.outside.along]
            shares[k] = share_round(grid.round, zone.first, zone.width)[:, None] * along
        self._zone_area = shares * self._outside_area
        self.areas = self._zone_area.sum(axis=(1, 2))
        full = np.zeros((len(zones), grid.round, *grid.volume.shape))
        full[:, :, grid.outside.along, grid.outside.through] = self._zone_area
        self._zone_waves = np.stack([to_waves(f) for f in full]) if len(zones) else None
        self._reads = [
            None if zone.follows is None
            else Reading(grid, zone.follows.degrees, zone.follows.z, 0.0)
            for zone in zones
        ]  # fmt: skip

    def content(self, celsius: Values) -> Values:
        """Heat contents, J/kg. Raises NotCovered beyond the properties of the metal."""
        for material, where in self._spans:
            material.check(celsius[:, where])
        return self._properties(celsius)[0]

    def read(self, celsius: Values) -> Values:
        """Temperatures where the zones are followed, nan for those that follow nothing."""
        return np.array([np.nan if r is None else r.of(celsius) for r in self._reads])

    def inflow(self, celsius: Values, fluxes: Values) -> float:
        """What flows into the metal in all, W."""
        put = float((fluxes * self.areas).sum())
        return put - sum(float(loss.sum()) for loss in self._losses(celsius))

    def _properties(self, celsius: Values) -> tuple[Values, Values, Values]:
        if len(self._spans) == 1:
            return self._spans[0][0].at(celsius)
        result = (np.empty_like(celsius), np.empty_like(celsius), np.empty_like(celsius))
        for material, where in self._spans:
            for whole, part in zip(result, material.at(celsius[:, where]), strict=True):
                whole[:, where] = part
        return result

    def _losses(self, celsius: Values) -> tuple[Values, Values]:
        """Loss of the outside and of the bore, W by (round, patch)."""
        grid = self.mesh
        outside = celsius[:, grid.outside.along, grid.outside.through]
        flux, _ = self._cover.at(outside)
        inside = celsius[:, grid.bore.along, grid.bore.through]
        lost = self._bore.at(inside) * self._bore_area
        if self._radiates:
            power = emissive(inside)
            rings = np.zeros((grid.round, len(grid.z)))
            np.add.at(rings.T, grid.bore.along, (power * self._patch_share).T)
            waves = to_waves(rings)
            out = waves * self._factors
            mean = self._exchange @ (waves[0].real / grid.round) + self._from_openings
            out[0] = mean * grid.round
            net = from_waves(out, grid.round) * self._ring_area
            # Within a ring every patch loses by its own power, and the rest by its share.
            lost = lost + net[:, grid.bore.along] * self._patch_share
        return flux * self._outside_area, lost

    def excess(self, celsius: Values, known: Values | None, span: float, fluxes: Values) -> Values:
        """What flows into each cell beyond what it takes up, W: zero where all is in balance.

        Heat content, J/kg, goes from `known` to that of `celsius` in `span` s; None: steady.
        """
        grid = self.mesh
        content, _, conductivity = self._properties(celsius)
        excess = np.zeros_like(celsius)
        radial = grid.radial * (conductivity[..., 1:] + conductivity[..., :-1]) / 2.0
        flow = radial * (celsius[..., 1:] - celsius[..., :-1])
        excess[..., :-1] += flow
        excess[..., 1:] -= flow
        flow = self._axial(conductivity) * (celsius[:, 1:] - celsius[:, :-1])
        excess[:, :-1] += flow
        excess[:, 1:] -= flow
        if grid.round > 1:
            ahead = celsius[self._next] - celsius
            flow = grid.angular * (conductivity + conductivity[self._next]) / 2.0 * ahead
            excess += flow
            excess[self._next] -= flow
        put = np.tensordot(fluxes, self._zone_area, 1)
        lost_outside, lost_bore = self._losses(celsius)
        excess[:, grid.outside.along, grid.outside.through] += put - lost_outside
        excess[:, grid.bore.along, grid.bore.through] -= lost_bore
        if known is not None:
            excess -= self.mass * (content - known) / span
        excess[:, self.empty] = 0.0
        return excess

    def linear(self, celsius: Values, span: float | None) -> Linear:
        """The mean round the pipe of how `excess` falls as the temperatures rise; None: steady."""
        grid = self.mesh
        _, heat, conductivity = self._properties(celsius)
        mean = conductivity.mean(axis=0)
        diagonal = np.zeros((grid.round // 2 + 1, *grid.volume.shape))
        if span is not None:
            diagonal += (self.mass * heat).mean(axis=0) / span
        outside = celsius[:, grid.outside.along, grid.outside.through]
        slope = (self._cover.at(outside)[1] * self._outside_area).mean(axis=0)
        diagonal[:, grid.outside.along, grid.outside.through] += slope
        slope = (self._bore.coefficient * self._bore_area).mean(axis=0)
        diagonal[:, grid.bore.along, grid.bore.through] += slope
        coupling = None
        if self._radiates:
            inside = celsius[:, grid.bore.along, grid.bore.through].mean(axis=0)
            slopes = np.zeros(len(grid.z))
            np.add.at(slopes, grid.bore.along, emissive_slope(inside) * self._patch_share)
            weight = self._factors * (slopes * self._ring_area)
            diagonal[:, grid.bore.along, grid.bore.through] += (
                weight[:, grid.bore.along] * self._patch_share
            )
            coupling = (self._to_ring, self._ring_area[:, None] * self._exchange * slopes)
        diagonal[:, self.empty] = 1.0
        if grid.round > 1:
            turn = 2.0 - 2.0 * np.cos(2.0 * np.pi * np.arange(len(diagonal)) / grid.round)
            diagonal += turn[:, None, None] * (grid.angular * mean)
        bands = Bands(diagonal, grid.radial * (mean[:, 1:] + mean[:, :-1]) / 2.0,
                      self._axial(mean[None])[0])  # fmt: skip
        return Linear(bands, grid.round, self._zone_waves, coupling, self._reads)

    def _axial(self, conductivity: Values) -> Values:
        """Links along the pipe: two halves in series, so that two metals may meet between."""
        near, far = conductivity[:, :-1], conductivity[:, 1:]
        return np.asarray(self.mesh.axial * (2.0 * near * far / (near + far)), dtype=float)


class Linear:
    """Changes of temperature that answer an excess of heat, and the flux of each zone."""

    def __init__(
        self,
        bands: Bands,
        cells: int,
        zones: Waves | None,
        coupling: tuple[Values, Values] | None,
        reads: list[Reading | None],
    ) -> None:
        self._bands, self._cells = bands, cells
        self._reads = reads
        self._join = None
        if coupling is not None:
            # Rings see each other far along the bore: a dense system of their means.
            to_ring, links = coupling
            self._response = bands.solve_mean(to_ring)
            inner = np.eye(len(links)) + links @ (to_ring.T @ self._response)
            self._join = (np.linalg.solve(inner, links), to_ring)
        self._zone_waves = zones
        self._answers: tuple[Waves, Values] | None = None

    def _solve(self, right: Waves) -> Waves:
        solution = self._bands.solve(right)
        if self._join is not None:
            system, to_ring = self._join
            mean = solution[:, 0].real.reshape(len(right), -1)
            mean = mean - (self._response @ (system @ (to_ring.T @ mean.T))).T
            solution[:, 0] = mean.reshape(solution[:, 0].shape)
        return solution

    def _read(self, waves: Waves) -> Values:
        """Changes at the thermocouples, (thermocouple, field); nan for zones without one."""
        nothing = np.full(len(waves), np.nan)
        return np.array([nothing if r is None else r.of_waves(waves) for r in self._reads])

    def change(self, excess: Values) -> Values:
        """The change that takes up the `excess`, the fluxes left as they are."""
        return from_waves(self._solve(to_waves(excess)[None])[0], self._cells)

    def controlled(
        self, excess: Values, decide: Callable[[Values, Values], Values]
    ) -> tuple[Values, Values]:
        """The change of the field with the change of the fluxes, W/m2, that `decide` asks for.

        It is given the change, K, at each thermocouple with the fluxes as they are, and the
        answer of each to 1 W/m2 of each zone, (thermocouple, zone).
        """
        if self._zone_waves is None:
            raise ValueError("the pipe has no zones to control")
        if self._answers is None:
            answers = self._solve(self._zone_waves)
            self._answers = (answers, self._read(answers))
        answers, table = self._answers
        own = self._solve(to_waves(excess)[None])
        fluxes = decide(self._read(own)[:, 0], table)
        whole = own[0] + np.tensordot(fluxes, answers, 1)
        return from_waves(whole, self._cells), fluxes
