"""The model of a setting, as it is stated or with its inputs varied."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import pi, sqrt
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.predict.bodies import with_bodies
from hts.predict.setting import Half, Setting
from hts.science.field.mesh import Mesh, mesh
from hts.science.field.metal import Metal, metal
from hts.science.field.model import Model
from hts.science.field.pipe import Pipe, Station, body
from hts.science.field.states import BoreState
from hts.science.field.steels import STEELS
from hts.science.field.surfaces import Bore, Cover, Place, Zone
from hts.science.heat.losses import insulated_pipe, natural_convection, radiation
from hts.science.heat.properties import blanket_conductivity

Values = NDArray[np.float64]

#: degC of the surroundings.
AMBIENT = 20.0
#: Joints, pins and ends of the blanket lose that much more than an unbroken one.
_BROKEN = 1.5
_EMISSIVITY = 0.85
#: m that are worked out beyond the insulation, at least, and from the weld.
_BEYOND, _LEAST = 0.6, 1.2
#: Run to rise of the taper of a wall that changes.
_TAPER = 4.0
#: m; a heavy section is followed no farther.
_FARTHEST = 3.0
_CELLS = 24


class Variation(NamedTuple):
    """Inputs as they may be: the bore in figures, factors on the rest, errors of thermocouples, K.

    `air` None: as the state of the bore has it, and likewise `lean` and `emissivity`.
    """

    air: float | None = None
    lean: float | None = None
    emissivity: float | None = None
    conductivity: float = 1.0
    insulation: float = 1.0
    bare: float = 1.0
    errors: tuple[float, ...] = ()


AS_STATED = Variation()


def is_mirrored(setting: Setting) -> bool:
    """Whether one half of the pipe is the image of the other."""
    alike = setting.near == setting.far and not setting.bodies
    return alike and all(zone.start == -zone.end for zone in setting.zones)


def grid_of(setting: Setting, cells: int = _CELLS, **finer: Any) -> tuple[Pipe, Mesh]:
    """The pipe with its mesh; the metal as it is tabled. `finer`: further settings of the mesh."""
    pipe = _pipe(setting, _metal(setting.near.steel), _metal(setting.far.steel))
    places = {
        sign * z
        for z in (setting.soak, setting.heated, setting.insulated, _reach(setting))
        for sign in ((1,) if pipe.mirrored else (1, -1))
    }
    places |= {zone.z for zone in setting.zones} | {couple.z for couple in setting.couples}
    if pipe.mirrored:
        places = {abs(z) for z in places}
    inside = [z for z in places if pipe.start < z < pipe.end]
    # Fine where it is judged: closer stations farther off move the soak band by less than 0.1 K.
    return pipe, mesh(
        pipe,
        places=inside,
        cells_round=cells,
        **{"fine_to": setting.soak + 0.08, "coarse": 0.05, **finer},
    )


def _reach(setting: Setting) -> float:
    return setting.heated + beyond_band(setting.near)


def beyond_band(half: Half) -> float:
    """2 sqrt(R t) with the inside radius, m: where half of the edge's temperature may be left."""
    return 2.0 * sqrt(half.inner * (half.outer - half.inner))


@lru_cache(maxsize=16)
def _metal(steel: str) -> Metal:
    return metal(STEELS[steel].material)


def _pipe(setting: Setting, near: Metal, far: Metal) -> Pipe:
    farthest = max((abs(couple.z) for couple in setting.couples), default=0.0)
    ends = max((one.ends for one in setting.bodies), default=0.0)
    length = max(_LEAST, setting.insulated + _BEYOND, farthest + 0.1, min(ends, _FARTHEST) + 0.1)
    first, last = setting.near, setting.far
    if is_mirrored(setting):
        return body(
            [Station(0.0, first.inner, first.outer), Station(length, first.inner, first.outer)],
            near,
            mirrored=True,
        )
    rise = max(abs(first.inner - last.inner), abs(first.outer - last.outer))
    taper = min(setting.taper if setting.taper is not None else _TAPER * rise, length / 2.0)
    taper = taper if rise else 0.0
    thin_first = first.outer - first.inner <= last.outer - last.inner
    # The thinner wall reaches to the weld; the taper lies in the thicker side.
    start, end = (0.0, taper) if thin_first else (-taper, 0.0)
    stations = [
        Station(-length, first.inner, first.outer),
        Station(start, first.inner, first.outer),
        Station(end, last.inner, last.outer),
        Station(length, last.inner, last.outer),
    ]
    if not rise:
        stations = [stations[0], stations[-1]]
    other = far if setting.far.steel != setting.near.steel else None
    return body(with_bodies(stations, setting.bodies), near, other=other)


class Builder:
    """Makes models of one setting on one mesh; tables that do not vary are made once."""

    def __init__(self, setting: Setting, cells: int | None = None) -> None:
        self.setting = setting
        if cells is None:
            cells = 1 if self._is_round() else _CELLS
        self.pipe, self.grid = grid_of(setting, cells)
        diameter = 2.0 * max(setting.near.outer, setting.far.outer)
        self._under = _tabled(lambda t: _insulated(diameter, t, setting.blanket))
        self._bare = _tabled(lambda t: _bare(diameter, t))
        self._metals: dict[tuple[str, float], Metal] = {}

    def _is_round(self) -> bool:
        """Whether nothing differs round the pipe."""
        whole = all(zone.width >= 360.0 for zone in self.setting.zones)
        return whole and not self.setting.horizontal

    def model(self, vary: Variation = AS_STATED) -> Model:
        """The model, its inputs varied."""
        setting = self.setting
        pipe = self.pipe
        if vary.conductivity != 1.0:
            pipe = pipe._replace(
                metal=self._scaled(setting.near.steel, vary.conductivity),
                other=None if pipe.other is None
                else self._scaled(setting.far.steel, vary.conductivity),
            )  # fmt: skip
        half = setting.insulated
        under, bare = self._under, self._bare
        return Model(
            pipe,
            self.grid,
            bore=list(self._bores(vary)),
            cover=[
                Cover(lambda t: vary.insulation * under(t), -half, half, AMBIENT),
                Cover(lambda t: vary.bare * bare(t), start=half, air=AMBIENT),
                Cover(lambda t: vary.bare * bare(t), end=-half, air=AMBIENT),
            ],
            zones=[self._zone(zone) for zone in setting.zones],
            openings=AMBIENT,
        )

    def _scaled(self, steel: str, factor: float) -> Metal:
        return _metal(steel).scaled(conductivity=factor)

    def _bores(self, vary: Variation) -> list[Bore]:
        setting = self.setting
        state = setting.bore
        reach = setting.lined if setting.lined is not None else setting.insulated
        found = self._state(state, vary)
        if setting.beyond is None:
            return [found]
        past = self._state(setting.beyond, AS_STATED)
        return [
            found._replace(start=-reach, end=reach),
            past._replace(start=reach),
            past._replace(end=-reach),
        ]

    def _state(self, state: BoreState, vary: Variation) -> Bore:
        lean = state.lean if vary.lean is None else vary.lean
        emissivity = state.emissivity if vary.emissivity is None else vary.emissivity
        if state.emissivity == 0.0:
            lean, emissivity = 0.0, 0.0
        return Bore(
            state.mean if vary.air is None else vary.air,
            lean if self.setting.horizontal else 0.0,
            emissivity,
            air=AMBIENT,
        )

    def _zone(self, zone: object) -> Zone:
        from hts.predict.setting import HeatedZone

        assert isinstance(zone, HeatedZone)
        most = zone.power if zone.power is not None else float("inf")
        return Zone(zone.name, zone.start, zone.end, zone.first, zone.first + zone.width,
                    Place(zone.degrees, zone.z), most)  # fmt: skip


def _tabled(function: Callable[[float], float]) -> Callable[[Values], Values]:
    """A coefficient worked out every 40 K, straight lines between."""
    at = np.arange(40.0, 921.0, 40.0)
    values = np.array([function(float(t)) for t in at])
    return lambda t: np.interp(t, at, values)


def _insulated(diameter: float, celsius: float, blanket: float) -> float:
    loss = insulated_pipe(
        diameter, celsius, thickness=blanket, conductivity=blanket_conductivity, ambient=AMBIENT
    )
    return _BROKEN * loss.watts_per_metre / (pi * diameter * (celsius - AMBIENT))


def _bare(diameter: float, celsius: float) -> float:
    radiated = radiation(_EMISSIVITY, celsius, AMBIENT) / (celsius - AMBIENT)
    return radiated + natural_convection(diameter, celsius, AMBIENT)
