"""What explains the difference of one thermocouple from the others: shapes of a difference put in
by their amounts, and just beyond what the fault can cost. What a fault does to a reading follows
from the trade's arithmetic (a type by its reference function, IEC 60584-1); how much of it is told
is ours (basis: practice)."""

from __future__ import annotations

import numpy as np

from hts.record.faults import signatures
from hts.record.faults.signatures import Look
from hts.record.record import Floats
from hts.science.thermocouples.faults import wrong_input
from tests.rows import each_row

AIR = 20.0
TIMES: Floats = np.asarray(np.arange(72) * 600.0, dtype=np.float64)
#: To 620 degC in four hours, held for three, and cooled; the hold is left after 7 h.
TRUE: Floats = np.asarray(
    np.interp(TIMES / 3600, [0, 0.5, 4.5, 7, 11.83], [AIR, AIR, 620.0, 620.0, 200.0]),
    dtype=np.float64,
)
RISE = TRUE - AIR
HOURS = TIMES / 3600
#: To and fro from row to row, as no fault does.
TO_AND_FRO = np.where(np.arange(72) % 2, 1.0, -1.0)


def since(hour: float, more: Floats | float) -> Floats:
    return np.asarray(np.where(hour <= HOURS, more, 0.0))


def passed(hour: float) -> Floats:
    return np.asarray(np.maximum(TIMES - hour * 3600, 0.0), dtype=np.float64)


def typed(wire: str, input: str) -> Floats:
    return np.array([wrong_input(wire, input, celsius, 25.0) for celsius in TRUE.tolist()])


@each_row(
    ("read", "kind", "begins", "figure"),
    [
        (TRUE * 1.8 + 32, "wrong-unit", 0, "degF read as degC"),
        ((TRUE - 32) / 1.8, "wrong-unit", 0, "degC read as degF"),
        (TRUE * 10, "wrong-scale", 0, "ten times too much"),
        (TRUE / 10, "wrong-scale", 0, "a tenth"),
        (typed("K", "N"), "wrong-type", 0, "as type N where the wire is K"),
        (typed("K", "J"), "wrong-type", 0, "as type J where the wire is K"),
        (typed("N", "K"), "wrong-type", 0, "as type K where the wire is N"),
        (TRUE - 0.1 * RISE, "extension-reversed", 0, "low by 10% of the rise throughout"),
        # More than 160 K no head costs.
        (TRUE - 0.27 * RISE, "shorted", 0.5, "at once to 73% of the rise"),
        (TRUE + 0.1 * RISE, "offset", 0, "high by 10% of the rise throughout"),
        (TRUE + 0.49 * RISE, "offset", 0, "high by 49% of the rise throughout"),
        (TRUE - 20, "offset", 0, "-20 K throughout"), (TRUE + 20, "offset", 0, "+20 K throughout"),
        (TRUE + since(5, 30.0), "offset", 5, "a step of +30 K"),
        (TRUE - since(5, 30.0), "offset", 5, "a step of -30 K"),
        (TRUE - 0.02 * passed(2) / 3600 * TRUE, "drift", 2, "-2.0% of the reading more each hour"),
        (TRUE - 0.01 * np.minimum(passed(5), 7800) / 3600 * TRUE, "drift", 5,
         "-1.0% of the reading more each hour of heat"),
        (TRUE - since(3, 0.7 * RISE), "shorted", 3, "at once to 30% of the rise"),
        (TRUE - 0.7 * RISE * (1 - np.exp(-passed(3) / 600)), "detached", 3,
         "within 30 min to 30% of the rise"),
        (TRUE - RISE * 0.2 * (HOURS < 5), "extension-reversed", 0,
         "low by 20% of the rise until it was mended"),
        (TRUE - 0.01 * np.maximum(TRUE - 450, 0) ** 1.5, "insulation-leak", 0,
         "low only above 450 degC, right again below"),
        (TRUE - 0.01 * np.maximum(TRUE - 350, 0) ** 1.5, "insulation-leak", 0,
         "low only above 350 degC, right again below"),
        (TRUE + 1000 * signatures.heat_given(TIMES, TRUE, AIR), "near-heater", 0,
         "up to 61 K high while heated"),
        # By a tenth of the reading a wire changes, and no more: then it is another place.
        (TRUE - 0.045 * np.minimum(passed(5), 7800) / 3600 * TRUE, "drift", 5,
         "-4.5% of the reading more each hour of heat"),
        (TRUE - 0.047 * np.minimum(passed(5), 7800) / 3600 * TRUE, "drift", 14 / 3,
         "-4.0% of the reading more each hour of heat"),
        (TRUE.copy(), "", 0, ""), (TRUE + 30 * np.sin(9 * HOURS), "", 0, ""),
    ],
)  # fmt: skip
def test_what_a_difference_comes_of(read: Floats, kind: str, begins: float, figure: str) -> None:
    found = signatures.signature(Look(TIMES, TRUE, read, AIR, "K"))
    told = (found.kind.name, found.since, found.figure) if found else ("", 0.0, "")
    assert told == (kind, begins * 3600.0, figure)


@each_row(
    ("read", "noise", "kind"),
    [
        # Of the squares 0.85 must be explained, 400 / (400 + 8.4^2); of a step in 42 of 72 rows,
        # 42 x 900 / (42 x 900 + 72 x 9.6^2).
        (TRUE + 20, 8.3, "offset"), (TRUE + 20, 8.5, ""),
        (TRUE + since(5, 30.0), 9.5, "offset"), (TRUE + since(5, 30.0), 9.9, ""),
    ],
)  # fmt: skip
def test_how_much_must_be_explained(read: Floats, noise: float, kind: str) -> None:
    found = signatures.signature(Look(TIMES, TRUE, read + noise * TO_AND_FRO, AIR, "K"))
    assert (found.kind.name if found else "") == kind


@each_row(
    ("part", "share", "kind", "free"),
    [
        # Half of the rise, and 160 K, an extension can cost; and half high an offset can be.
        (0.5, -0.5, "extension-reversed", 1), (0.5, -0.51, "shorted", 3), (0.5, 0.5, "offset", 1),
        (0.5, 0.51, "", 0), (1.0, -0.266, "extension-reversed", 1), (1.0, -0.267, "shorted", 3),
        (1.0, -0.001, "extension-reversed", 1), (1.0, 0.001, "offset", 1),
    ],
)  # fmt: skip
def test_one_share_of_the_rise(part: float, share: float, kind: str, free: int) -> None:
    true = AIR + part * RISE
    fits = list(signatures._shares(Look(TIMES, true, true + share * part * RISE, AIR, "K")))
    assert [(fit.kind.name, fit.free) for fit in fits] == [(kind, free)] * bool(kind) + [
        ("offset", 1)
    ]
    assert np.allclose(fits[-1].expected, np.mean(share * part * RISE))


#: Share of the rise that it is low by, before the hold begins and after.
FALLEN = np.where(HOURS < 4.5, 0.1, 0.112)


@each_row(
    ("low", "cold", "own", "kind"),
    [
        # An eighth lower when the heaters give less, 4 K and more; not where it began 4 K high.
        (FALLEN, 0.0, True, "near-heater"), (FALLEN, 0.0, False, "extension-reversed"),
        (FALLEN - 0.001 * (HOURS >= 4.5), 0.0, True, "extension-reversed"),
        (FALLEN, 3.9, True, "near-heater"), (FALLEN, 4.0, True, "extension-reversed"),
        (0.5 * FALLEN, 0.0, True, "extension-reversed"), (0.56 * FALLEN, 0.0, True, "near-heater"),
    ],
)  # fmt: skip
def test_one_that_is_low_and_follows_the_heat(
    low: Floats, cold: float, own: bool, kind: str
) -> None:
    read = TRUE - low * RISE + cold * (HOURS <= 0.5)
    found = signatures.signature(Look(TIMES, TRUE, read, AIR, "K", own))
    assert found is not None
    assert found.kind.name == kind
    assert found.figure.startswith("low by ")
    if kind == "near-heater":
        fall = 600 * (low[-1] - low[0])
        assert f" and {fall:.0f} K more when the heaters gave less at the hold" in found.figure


@each_row("seed", range(6))
def test_moments_passed_over_are_never_the_best(seed: int) -> None:
    """The best of all fits is among those made at the moments that are looked at."""
    random = np.random.default_rng(seed)
    error = (
        TRUE * 0.01 * random.normal() * passed(random.uniform(1, 8)) / 3600,
        since(random.uniform(1, 9), 30.0 * random.normal()),
        -random.uniform(0.1, 0.9) * RISE * (1 - np.exp(-passed(random.uniform(1, 6)) / 300)),
    )[seed % 3]
    look = Look(TIMES, TRUE, TRUE + error + random.normal(0.0, 1.0, len(TIMES)), AIR, "K")
    moments = np.arange(3, len(TIMES) - 3)

    def best(looked_at: list[int]) -> float:
        its = look.read - look.true
        fits = [fit for at in looked_at for fit in signatures._at_moment(look, at)]
        rest = [(1 - float(np.sum((its - f.expected) ** 2) / (its @ its)), f) for f in fits]
        scores = [
            np.log(1 - explains + 1e-4) + 0.5 * fit.free
            for explains, fit in rest
            if explains >= fit.least
        ]
        return min(scores, default=np.inf)

    kept = signatures._best_moments(look, moments)
    assert 0 < len(kept) < 12
    assert best(kept.tolist()) == best(moments.tolist()) < np.inf
