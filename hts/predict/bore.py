"""The state of the bore, from what the text says of liner, insulation, draught and ends."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.language.vocabulary.heating import Heating
from hts.science.field.states import STATES, UNKNOWN, BoreState, behind_lining

_CLOSED = ("closed and vented", "closed", "plugged")


class Told(NamedTuple):
    """A state and what it was taken from; `known` False: the text leaves it open.

    `beyond` is the state past a lining, or past plugs.
    """

    state: BoreState
    reason: str
    known: bool = True
    beyond: BoreState | None = None


def bore_state(heating: Heating) -> Told | None:
    """The state of the bore over the bands; None where liquid stands in it."""
    if heating.bore == "filled":
        return None
    told = _told(heating)
    if told.state.emissivity == 0.0:
        beyond = _bare(heating)
        return told._replace(beyond=beyond.state if beyond.known else STATES["open"])
    return told


def _told(heating: Heating) -> Told:
    if heating.bore_state is not None:
        lining = heating.liner.thickness if heating.liner is not None else None
        state = behind_lining(STATES[heating.bore_state], _metres(lining))
        return Told(state, f"bore state {heating.bore_state}")
    if heating.liner is not None:
        state = behind_lining(STATES["lined"], _metres(heating.liner.thickness))
        return Told(state, "liner")
    if heating.inside_insulation is not None:
        thickness = _metres(heating.inside_insulation.thickness)
        return Told(behind_lining(STATES["packed"], thickness), "inside insulation")
    return _bare(heating)


def _bare(heating: Heating) -> Told:
    """Where nothing lines the bore."""
    draught = heating.draught.state if heating.draught is not None else None
    if draught == "through the bore":
        return Told(STATES["draughty"], "draught through the bore")
    if draught == "stopped by plugs":
        beyond = STATES["open"] if heating.draught and heating.draught.at else None
        return Told(STATES["closed and still"], "draught stopped by plugs", beyond=beyond)
    if heating.ends in _CLOSED:
        return Told(STATES["closed and still"], f"ends {heating.ends}")
    if heating.ends == "open":
        return Told(STATES["open"], "ends open")
    if draught == "none":
        return Told(STATES["open"], "draught none, the ends not mentioned")
    return Told(STATES[UNKNOWN], "the text says nothing of liner, ends or draught", False)


def _metres(length: Quantity | None) -> float | None:
    return float(length.value) / 1000.0 if length is not None else None
