"""Faults put into the columns of a simulated record, beyond those the program can put in itself:
what each does to a reading follows from what it is, not from how it is looked for.

From memory and common practice, no source, but for the type, which follows from the reference
functions of IEC 60584-1.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from hts.record.record import Floats
from hts.science.thermocouples.reference import emf, temperature

#: Readings [rows, columns] degC and the column it is put into -> the readings with the fault.
Alteration = Callable[[Floats, int, np.random.RandomState], Floats]


def _after(values: Floats, random: np.random.RandomState) -> int:
    """A row between the first third of the run and its middle."""
    return int(random.uniform(len(values) / 3, len(values) / 2))


def _all_stand_still(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    first = _after(values, random)
    values[first : first + 90] = values[first]
    return values


def _rows_repeated(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    first = _after(values, random)
    values[first + 60 : first + 120] = values[first : first + 60]
    return values


def _copied(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    values[:, at] = values[:, (at + 1) % values.shape[1]]
    return values


def _wrong_type(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    """Type K wire on an input set to J or N, with the terminals at 25 degC."""
    other = ("J", "N")[random.randint(2)]
    values[:, at] = [temperature(other, emf("K", float(one), 25.0), 25.0) for one in values[:, at]]
    return values


def _wrong_unit(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    return values * 1.8 + 32


def _wrong_scale(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    values[:, at] /= 10
    return values


def _cold_junction(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    values[_after(values, random) :] += random.uniform(9, 20) * random.choice([-1, 1])
    return values


def _drift(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    first = _after(values, random)
    hours = np.maximum(0.0, np.arange(len(values)) - first) / 60
    values[:, at] -= np.minimum(random.uniform(10, 20) * hours, 80)
    return values


def _mains_pick_up(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    first = _after(values, random)
    rows = len(values) - first
    values[first:, at] += random.uniform(5, 15) * random.choice([-1.0, 1.0], size=rows)
    return values


def _detached(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    """Off the metal, but under the insulation: a fifth of the rise is lost within half an hour."""
    first = _after(values, random)
    lost = 0.2 * (1 - np.exp(-(np.arange(len(values)) - first) / 30.0))
    values[first:, at] -= (lost * (values[:, at] - 25.0))[first:]
    return values


def _offset(values: Floats, at: int, random: np.random.RandomState) -> Floats:
    values[:, at] += random.uniform(20, 35) * random.choice([-1, 1])
    return values


#: Kind -> how it is put in, and every name that tells it truly.
ALTERATIONS: dict[str, tuple[Alteration, frozenset[str]]] = {
    "all-stand-still": (_all_stand_still, frozenset({"all-stand-still"})),
    "rows-repeated": (_rows_repeated, frozenset({"rows-repeated"})),
    "copied": (_copied, frozenset({"copied"})),
    "wrong-type": (_wrong_type, frozenset({"wrong-type"})),
    "wrong-unit": (_wrong_unit, frozenset({"wrong-unit"})),
    "wrong-scale": (_wrong_scale, frozenset({"wrong-scale"})),
    "cold-junction": (_cold_junction, frozenset({"cold-junction", "offset"})),
    "drift": (_drift, frozenset({"drift"})),
    "mains-pick-up": (_mains_pick_up, frozenset({"mains-pick-up"})),
    "detached": (_detached, frozenset({"detached"})),
    # Two that cannot both be true tell it as well: which of them is off needs a third.
    "offset": (_offset, frozenset({"offset", "apart-when-cold", "disagree"})),
}


def altered(text: str, kind: str, tags: list[str], seed: int) -> str:
    """The text of a simulated record with a fault in one of the columns of `tags`."""
    lines = text.splitlines()
    head = next(row for row, line in enumerate(lines) if line.startswith("time,"))
    names = [name.split(" ")[0] for name in lines[head].split(",")[1:]]
    cells = [line.split(",") for line in lines[head + 1 :]]
    values = np.array([[float(cell) for cell in row[1 : len(names) + 1]] for row in cells])
    random = np.random.RandomState(seed)
    at = names.index(tags[random.randint(len(tags))])
    values = ALTERATIONS[kind][0](values, at, random)
    body = [
        ",".join([row[0], *(f"{one:.1f}" for one in some)])
        for row, some in zip(cells, values.tolist(), strict=True)
    ]
    return "\n".join([*lines[: head + 1], *body]) + "\n"
