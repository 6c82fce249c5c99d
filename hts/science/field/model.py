"""A pipe with its surfaces and zones of heaters: the field it settles to, and over time.

Finite volumes in heat content. In time a two-stage diagonally implicit Runge-Kutta method
(Alexander 1977), second order and stable at any step. Each stage is solved by Newton's method:
the residual is exact in three dimensions and the matrix its mean round the pipe. The flux of
each zone that brings its thermocouple to the setpoint is found in the same passes, within 0 and
the most it can give: an ideal controller, with nothing to tune.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from math import sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.science.field.control import within_caps
from hts.science.field.equations import Equations, Linear
from hts.science.field.mesh import Mesh
from hts.science.field.pipe import Pipe
from hts.science.field.state import Field, Reading
from hts.science.field.surfaces import Bore, Cover, Zone

Values = NDArray[np.float64]
#: What each zone is to do at a time in s: a value for every zone, nan where it is off.
Program = Callable[[float], Sequence[float] | Values]

_GAMMA = 1.0 - sqrt(0.5)
_SETTLED = 1e-5  # K
_STEADY = 2e-3  # K, where a pass changes little more than this the next one changes less
_MOST_PASSES = 80
#: Longest change of one pass, K: keeps a pass inside the tables of the metal.
_LONGEST = 400.0
#: Slopes are worked out anew where a pass leaves more than this of the one before, or begins
#: with a change of more than `_FAR` K.
_SLOW, _FAR = 0.15, 30.0


class Run(NamedTuple):
    """A heating followed in time.

    `seconds` (n) are the ends of the steps, the start first. `followed` and `fluxes` (n, zones)
    are the temperature, degC, at the thermocouple of each zone and the flux, W/m2, it gave on
    average over the step before; nan for zones that follow none. `watched` (n, places) are the
    temperatures where asked. `fields` stand at the times asked for. `heat` (n), J, is what was
    put in since the start less what was lost, `content` (n), J, what the metal took up.
    """

    seconds: Values
    followed: Values
    fluxes: Values
    watched: Values
    fields: list[Field]
    heat: Values
    content: Values


class Model:
    """A pipe on a mesh, with what touches it. Reused for many fields.

    Heat leaves through the bore and the cover only; the ends of the pipe are closed to heat.
    Openings of the bore at both ends are black and at the temperature `openings`, degC.
    """

    def __init__(
        self,
        pipe: Pipe,
        grid: Mesh,
        *,
        bore: Sequence[Bore],
        cover: Sequence[Cover],
        zones: Sequence[Zone],
        openings: float = 20.0,
    ) -> None:
        """Raises ValueError for input without meaning."""
        self.pipe, self.mesh, self.zones = pipe, grid, tuple(zones)
        self._equations = Equations(pipe, grid, bore, cover, self.zones, openings)
        self._most = np.array([zone.most for zone in self.zones]) / self.heated_area
        self._kept: tuple[float | None, Linear] | None = None

    @property
    def heated_area(self) -> Values:
        """Area each zone heats, m2, of the whole pipe also where it is mirrored."""
        return np.asarray(self._equations.areas * (2.0 if self.pipe.mirrored else 1.0))

    def start(self, celsius: float) -> Field:
        """The pipe at one temperature throughout."""
        shape = (self.mesh.round, *self.mesh.volume.shape)
        return Field(self.mesh, np.full(shape, float(celsius)))

    def steady(
        self,
        *,
        targets: Sequence[float] | None = None,
        fluxes: Sequence[float] | None = None,
        guess: Field | None = None,
    ) -> tuple[Field, Values]:
        """The field nothing changes in any more, and the flux of each zone, W/m2.

        Either the `targets`, degC, of the thermocouples the zones follow (nan: off), or their
        `fluxes`. Raises ArithmeticError where it does not settle, NotCovered where the
        temperature leaves the properties of the metal, ValueError when both or none are given.
        """
        if (targets is None) == (fluxes is None):
            raise ValueError("a steady field needs either targets or fluxes")
        self._kept = None
        goal = None if targets is None else np.asarray(targets, dtype=float)
        given = np.zeros(len(self.zones)) if fluxes is None else np.asarray(fluxes, dtype=float)
        if guess is not None:
            begin = guess.celsius
        else:
            begin = self._likely(300.0 if goal is None else float(np.nanmax(goal)))
        celsius, found, _ = self._settle(begin, None, 0.0, goal, given, _STEADY)
        return Field(self.mesh, celsius), found

    def run(
        self,
        begin: Field,
        times: Sequence[float],
        *,
        targets: Program | None = None,
        fluxes: Program | None = None,
        step: float = 300.0,
        watch: Sequence[tuple[float, float, float]] = (),
    ) -> Run:
        """Follow the pipe from `begin` at the first of `times`, s, to the last.

        The program bends at `times` only; between them the steps are even and at most `step` s
        long, and the field is kept at each. `watch` are places (degrees, z, depth: 0 outside, 1
        bore) to follow. Errors as `steady`.
        """
        if (targets is None) == (fluxes is None):
            raise ValueError("a run needs either targets or fluxes")
        self._kept = None
        follow = _Follow(self, begin, list(watch))
        for near, far in itertools.pairwise(times):
            count = max(1, int(np.ceil((far - near) / step - 1e-9)))
            for k in range(count):
                length = (far - near) / count
                follow.advance(near + k * length, length, targets, fluxes)
            follow.keep()
        return follow.result(times[0])

    def _likely(self, top: float) -> Values:
        """A first guess: hot under the zones, falling off beside them."""
        z = self.mesh.z
        start = min((zone.start for zone in self.zones), default=0.0)
        end = max((zone.end for zone in self.zones), default=0.0)
        away = np.maximum(np.maximum(start - z, z - end), 0.0)
        profile = 20.0 + (top - 20.0) * np.exp(-away / 0.2)
        shape = (self.mesh.round, *self.mesh.volume.shape)
        return np.broadcast_to(profile[None, :, None], shape).copy()

    def _settle(
        self,
        begin: Values,
        known: Values | None,
        span: float,
        goal: Values | None,
        fluxes: Values,
        enough: float,
    ) -> tuple[Values, Values, Values]:
        """The field where heat content = `known` + `span` x what flows in, J/kg; None: steady.

        Returns temperatures, the fluxes of the zones and heat contents.
        """
        celsius, fluxes = begin.copy(), fluxes.copy()
        length = None if known is None else span
        if self._kept is None or self._kept[0] != length:
            self._kept = (length, self._equations.linear(celsius, length))
        before = np.inf
        for number in range(_MOST_PASSES):
            excess = self._equations.excess(celsius, known, span, fluxes)
            if goal is None:
                change = self._kept[1].change(excess)
            else:
                asked = goal - self._equations.read(celsius)
                decide = _Decide(asked, fluxes, self._most)
                change, more = self._kept[1].controlled(excess, decide.changes)
                fluxes = fluxes + more
            biggest = float(np.abs(change).max())
            # A pass that overshoots at the peak of the specific heat comes back by half.
            part = min(1.0, _LONGEST / biggest) if biggest > 0.0 else 1.0
            if number > 12 and biggest > 0.7 * before:
                part *= 0.5
            celsius += part * change
            if biggest < enough:
                return celsius, fluxes, self._equations.content(celsius)
            # The slopes are kept from pass to pass and step to step while they serve.
            if biggest > _SLOW * before or (number == 0 and biggest > _FAR):
                self._kept = (length, self._equations.linear(celsius, length))
            before = biggest
        raise ArithmeticError("the temperatures do not settle: take a shorter step")


class _Decide(NamedTuple):
    """The changes of the fluxes that bring the thermocouples where they are asked to be."""

    asked: Values
    fluxes: Values
    most: Values

    def changes(self, shift: Values, answer: Values) -> Values:
        """As `Linear.controlled` asks for them."""
        follows = np.isfinite(self.asked)
        return within_caps(answer, self.asked - shift, follows, self.fluxes, self.most)


class _Follow:
    """The state of a run, step by step."""

    def __init__(self, model: Model, begin: Field, watch: list[tuple[float, float, float]]) -> None:
        self.model = model
        self.watch = [Reading(model.mesh, *place) for place in watch]
        self.celsius = begin.celsius.copy()
        self.content = model._equations.content(self.celsius)
        self.mass = model._equations.mass
        self.fluxes = np.zeros(len(model.zones))
        #: K/s from the last stage but one to the last: where the next one begins to look.
        self.rate: Values | float = 0.0
        self.first = float((self.mass * self.content).sum())
        self.heat = 0.0
        self.rows: list[tuple[float, Values, Values, Values, float, float]] = []
        self.fields: list[Field] = []
        self._row(None)

    def advance(
        self, now: float, step: float, targets: Program | None, fluxes: Program | None
    ) -> None:
        """One step: two implicit stages, the second from the first's rate of heating."""
        model, span = self.model, _GAMMA * step
        net = 0.0
        given, known = [], self.content
        for stage, (at, since) in enumerate(((now + span, span), (now + step, step - span))):
            before = self.celsius
            goal = None if targets is None else np.asarray(targets(at), dtype=float)
            flux = self.fluxes if fluxes is None else np.asarray(fluxes(at), dtype=float)
            self.celsius, self.fluxes, content = model._settle(
                before + since * self.rate, known, span, goal, flux, _SETTLED
            )
            self.rate = (self.celsius - before) / since
            share = 1.0 - _GAMMA if stage == 0 else _GAMMA
            net += share * model._equations.inflow(self.celsius, self.fluxes)
            given.append(share * self.fluxes)
            rate = (content - known) / span
            if stage == 0:
                known = self.content + (1.0 - _GAMMA) * step * rate
        self.content = content
        self.heat += net * step
        self._row((now + step, given[0] + given[1]))

    def keep(self) -> None:
        self.fields.append(Field(self.model.mesh, self.celsius.copy()))

    def _row(self, at: tuple[float, Values] | None) -> None:
        seconds, flux = (np.nan, self.fluxes) if at is None else at
        watched = np.array([reading.of(self.celsius) for reading in self.watch])
        taken = float((self.mass * self.content).sum()) - self.first
        self.rows.append(
            (seconds, self.model._equations.read(self.celsius), flux, watched, self.heat, taken)
        )

    def result(self, start: float) -> Run:
        seconds, followed, fluxes, watched, heat, content = (
            np.array(column) for column in zip(*self.rows, strict=True)
        )
        seconds[0] = start
        factor = 2.0 if self.model.pipe.mirrored else 1.0
        return Run(seconds, followed, fluxes, watched, self.fields, factor * heat, factor * content)
