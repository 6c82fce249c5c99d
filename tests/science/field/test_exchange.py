"""Radiation in a bore against view factors and cavities that are known."""

import numpy as np
import pytest

from hts.science.field.exchange import net_loss, ring_to_disc, rings, round_factor
from hts.science.field.surfaces import Cover, Loss
from hts.science.heat.induction import penetration_depth


def test_ring_to_disc():
    # T022, T023: Siegel and Howell, from memory
    assert ring_to_disc(np.array([0.0, 0.5, 1.0, 2.0])) == pytest.approx(
        [0.5, 0.17082039325, 0.0606601717798, 0.0124611797498], abs=1e-9
    )


@pytest.mark.parametrize("mirrored", [False, True])
def test_all_that_leaves_arrives(mirrored):
    edges = np.array([0.0, 0.1, 0.15, 0.4, 0.5, 1.0])
    view = rings(edges, 0.4, mirrored=mirrored)
    assert view.to_rings.sum(axis=1) + view.to_openings == pytest.approx(1.0, abs=1e-12)
    assert view.to_rings.min() > 0
    if not mirrored:  # reciprocity: area x factor is the same both ways
        exchanged = np.diff(edges)[:, None] * view.to_rings
        assert exchanged == pytest.approx(exchanged.T, abs=1e-12)


def test_mirrored_is_the_half_of_the_whole():
    edges = np.linspace(0.0, 0.8, 9)
    half = net_loss(rings(edges, 0.3, mirrored=True), np.full(8, 0.8))
    whole = net_loss(rings(np.concatenate((-edges[:0:-1], edges)), 0.3), np.full(16, 0.8))
    power = np.linspace(2.0, 1.0, 8)
    both = np.concatenate((power[::-1], power))
    assert half[0] @ power + half[1] == pytest.approx((whole[0] @ both + whole[1])[8:], abs=1e-12)


@pytest.mark.parametrize(("emissivity", "known"), [(0.8, 0.88213), (0.5, 0.74498)])
def test_apparent_emissivity_of_an_opening(emissivity, known):
    # T024: isothermal bore two diameters long, both ends open; radiosity worked out elsewhere
    edges = np.linspace(0.0, 2.0, 81)
    matrix, _ = net_loss(rings(edges, 1.0), np.full(80, emissivity))
    lost = float((matrix @ np.ones(80)).sum() * np.pi * 2.0 / 80)
    assert lost / 2.0 / (np.pi / 4) == pytest.approx(known, abs=2e-4)


def test_round_the_bore():
    # T025: K_n = 1/(1 - 4 n2) from the kernel sin(D/2)/4
    known = [1.0, 0.842105263158, 0.818181818182, 0.810126582278]
    assert [float(round_factor(n, 0.8)) for n in (1, 2, 3, 4)] == pytest.approx(known, abs=1e-10)


def test_depth_of_induced_current():
    # T026: sqrt(2 rho / omega mu), 5.3 mm at 10 kHz and 26 mm at 400 Hz above the Curie point
    assert penetration_depth(10e3, 1.1e-6) * 1000 == pytest.approx(5.28, abs=0.05)
    assert penetration_depth(400, 1.1e-6) * 1000 == pytest.approx(26.4, abs=0.3)
    # T027: below it, an order of size only
    assert penetration_depth(10e3, 2.5e-7, 100) == pytest.approx(0.25164606052e-3, rel=1e-6)


def test_loss_through_covers_that_meet_within_a_stretch():
    """By the laws given: 7 W/(m2 K) to 15 degC, and from 0.25 m on one that grows as it gets hotter
    (k = 4 + 0.01 t, to 30 degC: flux k (t - 30), slope 3.7 + 0.02 t), within what lies between
    two figures of a table 5 K apart."""
    covers = [Cover(7.0, end=0.25, air=15.0), Cover(lambda t: 4.0 + 0.01 * t, start=0.25, air=30.0)]
    edges = np.array([0.0, 0.1, 0.3, 0.5])
    loss = Loss(covers, edges, np.array([0, 1, 2, 2]))
    celsius = np.linspace(-99.9, 1394.0, 41)[:, None] + np.array([0.0, 1.3, 2.5, 4.9])
    flux, slope = loss.at(celsius)
    far = np.array([0.0, 0.25, 1.0, 1.0])
    wanted = (1 - far) * 7.0 * (celsius - 15.0) + far * (4.0 + 0.01 * celsius) * (celsius - 30.0)
    assert flux == pytest.approx(wanted, abs=0.07)
    assert slope == pytest.approx((1 - far) * 7.0 + far * (3.7 + 0.02 * celsius), abs=0.06)
